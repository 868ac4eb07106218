"""The likely return of one athlete over all that keeps the athlete out, decisions first."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from teamrehab.domain.days import Fixture
from teamrehab.domain.estimates import Estimate, NoEstimate, cut
from teamrehab.domain.history import History
from teamrehab.reports.findings import FixtureChance, LikelyReturn


@dataclass(frozen=True, slots=True)
class Foreseen:
    """A case with its estimate after a person's decision, or why it has none.

    Both are None while the estimate is still being worked out.
    """

    history: History
    estimate: Estimate | None = None
    why_none: NoEstimate | None = None

    @property
    def days_out(self) -> tuple[bool, date]:
        """Return what orders cases by how long they keep out: unknown, then the latest day."""
        unknown = self.estimate is None
        latest = None if self.estimate is None else self.estimate.window[1]
        return unknown, latest or date.max


def foresee(history: History, found: Estimate | NoEstimate | None) -> Foreseen:
    """Return a case with what is known of its return; a person's decision is applied."""
    if isinstance(found, Estimate):
        return Foreseen(history, estimate=cut(found, history.decision))
    return Foreseen(history, why_none=found)


def likely_return(
    leading: Foreseen,
    all_cases: Sequence[Foreseen],
    fixtures: Sequence[Fixture],
    *,
    same_day: bool,
) -> LikelyReturn | None:
    """Return the likely return, or None where there is neither a range nor a decision.

    The range is the leading case's; the chance for a match is the smallest of all cases; a
    match is ruled out where any case's decision rules it out.
    """
    not_before = _latest_not_before(all_cases)
    chances = tuple(
        chance
        for fixture in fixtures
        if (chance := _chance(fixture, all_cases, same_day=same_day)) is not None
    )
    if leading.estimate is None:
        decided = tuple(chance for chance in chances if chance.decided)
        if not_before is None and not decided:
            return None
        return LikelyReturn(
            earliest=None, median=None, latest=None, chances=decided, not_before=not_before
        )
    return replace(_range_of(leading.estimate), chances=chances, not_before=not_before)


def _range_of(estimate: Estimate) -> LikelyReturn:
    earliest, latest = estimate.window
    return LikelyReturn(
        earliest=earliest,
        median=estimate.median,
        latest=latest,
        club_cases=estimate.club_cases,
        pace=estimate.pace,
    )


def _latest_not_before(cases: Sequence[Foreseen]) -> date | None:
    decisions = [case.history.decision for case in cases]
    days = [d.not_before for d in decisions if d is not None and d.not_before is not None]
    return max(days, default=None)


def _chance(
    fixture: Fixture, cases: Sequence[Foreseen], *, same_day: bool
) -> FixtureChance | None:
    """Return the chance for one match; None where a case says nothing of it."""
    said = FixtureChance(
        fixture_id=fixture.fixture_id, on=fixture.on, opponent=fixture.opponent, chance=0.0
    )
    if any(_ruled_out(fixture, case.history, same_day=same_day) for case in cases):
        return replace(said, decided=True)
    estimates = [case.estimate for case in cases if case.estimate is not None]
    if len(estimates) < len(cases) or not estimates:
        return None
    chance = min(e.chance_for(fixture, same_day=same_day) for e in estimates)
    return replace(said, chance=chance)


def _ruled_out(fixture: Fixture, history: History, *, same_day: bool) -> bool:
    """Return whether a person's decision leaves no day to be cleared in time."""
    decision = history.decision
    if decision is None:
        return False
    in_time = fixture.on if same_day else fixture.on - timedelta(days=1)
    too_late = decision.not_before is not None and in_time < decision.not_before
    return too_late or fixture.fixture_id in decision.ruled_out
