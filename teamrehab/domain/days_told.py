"""What each day of a case told of the leg, gathered in one pass over its facts."""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

from teamrehab.domain.examination import Examination, Gait
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import (
    FunctionCheck,
    MorningResponse,
    SessionEntry,
    Symptom,
    Test,
)
from teamrehab.domain.mornings import Morning, mornings_of, worst_by_day
from teamrehab.domain.safety import is_too_much, seen_troubles, too_much
from teamrehab.domain.situation import Situation

_LONG_AGO = datetime.min.replace(tzinfo=UTC)

Told = Test | SessionEntry | MorningResponse | Examination


@dataclass(frozen=True, slots=True, kw_only=True)
class DayTold:
    """One day: what was felt in training, what was seen, how the leg woke.

    ``seen`` are sentences on a limp and on what was not possible. ``stamp`` and
    ``noted_at`` are those of the last entry of it. ``calm_trained`` and ``calm_woke``: somebody
    said how the injured leg was, in training or in the morning, without a painkiller, and two
    versions agree on that. ``walked``: somebody saw that there was no limp.
    """

    on: date
    trained: Symptom | None = None
    seen: tuple[str, ...] = ()
    morning: Morning | None = None
    stamp: str = ""
    noted_at: datetime = _LONG_AGO
    calm_trained: bool = False
    calm_woke: bool = False
    walked: bool = False
    alarm: int

    @property
    def left_standing(self) -> tuple[str, ...]:
        """Return what was too much that day and stands until something lifts it."""
        woke = None if self.morning is None else self.morning.felt
        said = (*too_much(self.trained, self.alarm), *self.seen, *too_much(woke, self.alarm))
        return tuple(dict.fromkeys(said))

    @property
    def loaded(self) -> bool:
        """Return whether something of the day is about the leg under load, not the morning."""
        return self.trained is not None or bool(self.seen)

    @property
    def troubled(self) -> bool:
        """Return whether the day was too much in any way, a risen morning included."""
        risen = self.morning is not None and bool(self.morning.troubles)
        return bool(self.left_standing) or risen

    @property
    def was_too_much(self) -> bool:
        """Return whether training was too much to hold another day against."""
        return self.trained is not None and is_too_much(self.trained, self.alarm)


def days_told(situation: Situation) -> dict[date, DayTold]:
    """Return every day on which something was told of the leg, oldest first."""
    facts: dict[date, list[Standing[Told]]] = {}
    for fact in situation.history.facts:
        if isinstance(fact.value, Told) and _of_case(fact.value, situation):
            facts.setdefault(fact.value.on, []).append(fact)
    masked = {
        day + timedelta(days=1)
        for day, told in facts.items()
        if any(getattr(fact.value, "painkiller", False) for fact in told)
    }
    trained = worst_by_day(situation.felt())
    mornings = mornings_of(situation.history, situation.alarm)
    return {
        day: _told(day, _asked(facts[day], masked), trained, mornings, situation)
        for day in sorted(facts)
    }


def _asked(facts: list[Standing[Told]], masked: Collection[date]) -> list[Standing[Told]]:
    """Return the facts of a day; after a painkiller, what did not ask for one took one again.

    A painkiller works on for a day: what nobody asked counts as the more restrictive answer.
    """
    return [_masked(fact) if fact.value.on in masked else fact for fact in facts]


def _masked(fact: Standing[Told]) -> Standing[Told]:
    value = fact.value
    if isinstance(value, SessionEntry | MorningResponse) and value.painkiller is None:
        return replace(fact, value=replace(value, painkiller=True))
    return fact


def _of_case(value: Told, situation: Situation) -> bool:
    return value.case_id == situation.history.case.case_id


def _told(
    day: date,
    facts: list[Standing[Told]],
    trained: Mapping[date, Symptom],
    mornings: Mapping[date, Morning],
    situation: Situation,
) -> DayTold:
    seen = (
        sentence
        for fact in facts
        for sentence in seen_troubles(fact.value, situation.expects(fact.value, day))
    )
    entries = [fact for fact in facts if not isinstance(fact.value, Examination)]
    loads = [fact for fact in facts if not isinstance(fact.value, MorningResponse)]
    wakings = [fact for fact in facts if isinstance(fact.value, MorningResponse)]
    return DayTold(
        on=day,
        trained=trained.get(day),
        seen=tuple(dict.fromkeys(seen)),
        morning=mornings.get(day),
        stamp=max((fact.stamp for fact in entries), default=""),
        noted_at=max((fact.noted_at for fact in entries), default=_LONG_AGO),
        calm_trained=_tells(loads, situation),
        calm_woke=_tells(wakings, situation),
        walked=_all_versions(facts, _saw_no_limp),
        alarm=situation.alarm,
    )


def _tells(facts: list[Standing[Told]], situation: Situation) -> bool:
    return _all_versions(facts, lambda value: _is_telling(value, situation))


def _all_versions(facts: list[Standing[Told]], holds: Callable[[Told], bool]) -> bool:
    """Return whether it holds of an entry of the day, and of every version of it."""
    unsettled = [fact for fact in facts if fact.versions > 1]
    return any(holds(fact.value) for fact in facts) and all(
        holds(fact.value) for fact in unsettled
    )


def _is_telling(value: Told, situation: Situation) -> bool:
    """Return whether an entry says how the injured leg was, and nothing masked it."""
    if isinstance(value, Examination) or value.symptom is None or value.painkiller:
        return False
    result_of = getattr(value, "of", None)
    return result_of is None or any(result_of(leg) is not None for leg in situation.injured)


def _saw_no_limp(value: Told) -> bool:
    match value:
        case SessionEntry(limp=False, painkiller=painkiller):
            return not painkiller
        case FunctionCheck(walks_clean=True, painkiller=painkiller):
            return not painkiller
        case Examination(walking=Gait.CLEAN):
            return True
        case _:
            return False


def loaded_days(days: Mapping[date, DayTold]) -> Iterator[date]:
    """Yield the days on which something was felt in training or in a test, oldest first."""
    return (day for day, told in days.items() if told.trained is not None)
