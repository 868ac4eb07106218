"""What an examination points to, and whether the leg used as reference was hurt itself.

The patterns come from the protocol; what is worked out here only weighs them: a person names
the muscle.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.injuries import Case, Nature, Side
from teamrehab.domain.protocol import IntakePattern

YEAR = timedelta(days=365)
"""How long an injury speaks against a leg as reference (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pointing:
    """A muscle that findings point to: the sum of their weights, and the findings by name."""

    muscle: str
    weight: int
    findings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HurtBefore:
    """An injury of the leg that serves as reference; ``what`` may be empty."""

    on: date
    side: Side
    area: str
    what: str


def weigh(examination: Examination, patterns: Sequence[IntakePattern]) -> tuple[Pointing, ...]:
    """Return the muscles that the findings point to, the heaviest first.

    Equal weights stay equal, in the order of the patterns: both muscles can be hurt. Nothing
    is returned where nothing was answered: no finding is never taken for a finding.
    """
    answers = ((each, answer(examination, each.finding)) for each in patterns)
    matched = [each for each, found in answers if found and found == each.value]
    muscles = dict.fromkeys(each.muscle for each in matched)
    found = (_pointing(muscle, matched) for muscle in muscles)
    return tuple(sorted(found, key=lambda pointing: -pointing.weight))


def answer(examination: Examination, finding: str) -> str:
    """Return the answer to a question as a pattern writes it; "" where it was not asked.

    ``finding`` names a field of the examination; yes and no are "yes" and "no".
    """
    value = getattr(examination, finding, None)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "" if value is None else str(value)


def _pointing(muscle: str, matched: Sequence[IntakePattern]) -> Pointing:
    ours = [each for each in matched if each.muscle == muscle]
    return Pointing(
        muscle=muscle,
        weight=sum(each.weight for each in ours),
        findings=tuple(dict.fromkeys(each.finding for each in ours)),
    )


def other_leg_hurt(
    case: Case, cases: Sequence[Case], earlier: Sequence[EarlierInjury], today: date
) -> HurtBefore | None:
    """Return the newest injury, from a year before this onset on, of the other leg.

    ``cases`` and ``earlier`` may hold the whole past of the athlete. An injury that is older
    counts while it kept the athlete out, and one since the onset counts too. Injuries of
    both sides count; which part of the body matters is for the reader to judge. None where
    the case has no single side.
    """
    other = case.side.other
    if case.side is other:
        return None
    known = [*_hurt_in(case, cases), *_hurt_earlier(case, earlier)]
    ours = [h for h in known if h.side in (other, Side.BOTH) and h.on <= today]
    return max(ours, key=lambda hurt: hurt.on, default=None)


def _hurt_in(case: Case, cases: Sequence[Case]) -> Iterator[HurtBefore]:
    for one in cases:
        same_athlete = one.athlete_id == case.athlete_id and one.case_id != case.case_id
        if same_athlete and one.nature is Nature.INJURY and one.on >= case.on - YEAR:
            yield HurtBefore(on=one.on, side=one.side, area=one.area, what=one.what)


def _hurt_earlier(case: Case, earlier: Sequence[EarlierInjury]) -> Iterator[HurtBefore]:
    for one in earlier:
        until = one.on + timedelta(days=one.days_out or 0)
        if one.athlete_id == case.athlete_id and until >= case.on - YEAR:
            yield HurtBefore(on=one.on, side=one.side, area=one.area, what=one.what)
