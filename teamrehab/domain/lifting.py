"""What lifts a stop: a later calm day that says enough, or an examination that found it fit.

Common practice: too little lifts nothing. A leg that was not looked at, a painkiller and a
limp nobody asked about again say nothing.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any

from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import FunctionCheck, MorningResponse
from teamrehab.domain.situation import Situation


@dataclass(frozen=True, slots=True)
class Lifting:
    """The days that lift earlier stops: calm ones, those that saw no limp, examinations."""

    calm: frozenset[date]
    walked: frozenset[date]
    examined: tuple[Standing[Examination], ...]

    def lifts(self, on: date, stamp: str, *, limp: bool) -> bool:
        """Return whether a stop of ``on`` was lifted since.

        ``stamp`` is when its last entry was noted: an examination of the same day counts from
        then on. After a limp a calm day must say that there was none.
        """
        calm = self.calm & self.walked if limp else self.calm
        return any(day > on for day in calm) or any(
            found.value.on > on or (found.value.on == on and found.stamp > stamp)
            for found in self.examined
        )


def lifting(situation: Situation, troubled: Iterable[date]) -> Lifting:
    """Return what lifts stops of a case; ``troubled`` are the days that were too much."""
    bad = frozenset(troubled)
    told = frozenset(entry.on for entry in _telling(situation))
    return Lifting(
        calm=told - bad,
        walked=frozenset(_walked(situation)),
        examined=tuple(
            fact
            for fact in situation.history.standing(Examination)
            if _found_fit(fact.value, situation.phase_on(fact.value.on))
        ),
    )


def _telling(situation: Situation) -> Iterator[Any]:
    """Yield what says how the injured leg was: with a symptom, without a painkiller."""
    for entry in (*situation.felt(), *situation.history.of(MorningResponse)):
        if not entry.painkiller and _of_injured_leg(entry, situation):
            yield entry


def _of_injured_leg(entry: Any, situation: Situation) -> bool:
    """Return whether a test of single legs loaded an injured one; all else always tells."""
    result_of = getattr(entry, "of", None)
    return result_of is None or any(result_of(leg) is not None for leg in situation.injured)


def _walked(situation: Situation) -> Iterator[date]:
    """Yield the days on which somebody saw that there was no limp."""
    known = situation.history
    yield from (session.on for session in known.sessions if session.limp is False)
    yield from (check.on for check in known.of(FunctionCheck) if check.walks_clean)


def _found_fit(found: Examination, phase: int) -> bool:
    """Return whether an examination looked at the leg and found it able to do what it did.

    A limp is expected in the first phase only.
    """
    gaits, strengths = (
        (found.walking, found.stairs),
        (found.resisted_straight, found.resisted_bent),
    )
    looked = (*gaits, *strengths, found.stretch_straight, found.stretch_bent, found.tender_mm)
    unable = Gait.UNABLE in gaits or Resisted.UNABLE in strengths
    limps = Gait.LIMPS in gaits and phase > 1
    return any(seen is not None for seen in looked) and not unable and not limps
