"""The likely return of one athlete over all that keeps the athlete out, decisions first."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from teamrehab.domain.availability import AvailabilityStated, Match
from teamrehab.domain.days import Fixture
from teamrehab.domain.estimates import Estimate, NoEstimate, cut
from teamrehab.domain.history import History
from teamrehab.reports.findings import FixtureChance, LikelyReturn


@dataclass(frozen=True, slots=True)
class Foreseen:
    """A case with its estimate after a person's decision, or why it has none.

    Both are None while the estimate is still being worked out. ``expected`` is the coming day
    on which a clinician expects the athlete back.
    """

    history: History
    estimate: Estimate | None = None
    why_none: NoEstimate | None = None
    expected: date | None = None

    @property
    def days_out(self) -> tuple[bool, date]:
        """Return what orders cases by how long they keep out: unknown, then the latest day.

        A person's opinion beats the range.
        """
        if self.expected is not None:
            return False, self.expected
        latest = None if self.estimate is None else self.estimate.window[1]
        return self.estimate is None, latest or date.max


def foresee(history: History, found: Estimate | NoEstimate | None, today: date) -> Foreseen:
    """Return a case with what is known of its return; a person's decision is applied."""
    opinion = None if history.decision is None else history.decision.expected
    expected = opinion if opinion is not None and opinion >= today else None
    if isinstance(found, Estimate):
        return Foreseen(history, cut(found, history.decision), expected=expected)
    return Foreseen(history, why_none=found, expected=expected)


def expected_back(
    leading: Foreseen, keeping_out: Sequence[Foreseen], decided: "Decided"
) -> date | None:
    """Return the day a clinician expects for the case that keeps out longest.

    None where it is not that case's own opinion that decides: it restricts nothing, another day
    is decided after it, or a red flag is open. A case of which nothing is known leads, so its
    silence is never covered by an opinion about another.
    """
    flagged = any(one.history.open_red_flags for one in keeping_out)
    if leading not in keeping_out or flagged or leading.expected is None:
        return None
    overruled = decided.not_before is not None and leading.expected < decided.not_before
    return None if overruled else leading.expected


@dataclass(frozen=True, slots=True)
class Decided:
    """What persons decided about one athlete's return, over all open cases.

    ``not_before`` is the latest of such days, None where none lies ahead; ``out_until`` the
    last day for which "not available for matches" is stated.
    """

    not_before: date | None
    ruled_out: frozenset[str]
    out_until: date | None = None

    def rules_out(self, fixture: Fixture, *, same_day: bool) -> bool:
        """Return whether it leaves no day to be cleared in time for a match."""
        in_time = fixture.on if same_day else fixture.on - timedelta(days=1)
        too_late = self.not_before is not None and in_time < self.not_before
        stated_out = self.out_until is not None and fixture.on <= self.out_until
        return too_late or stated_out or fixture.fixture_id in self.ruled_out


def decided_on(today: date, cases: Sequence[History]) -> Decided:
    """Return what is decided, whatever the cases allow today; past days count no more."""
    decisions = [case.decision for case in cases if case.decision is not None]
    days = [d.not_before for d in decisions if d.not_before is not None]
    return Decided(
        not_before=max((day for day in days if day > today), default=None),
        ruled_out=frozenset(match for d in decisions for match in d.ruled_out),
        out_until=max(_stated_out(today, cases), default=None),
    )


def _stated_out(today: date, cases: Sequence[History]) -> Iterator[date]:
    """Yield until when each case is stated to be out of matches, where a day was given."""
    for case in cases:
        stated = case.as_of(today).last(AvailabilityStated)
        if stated is not None and stated.match is Match.NOT_AVAILABLE and stated.until:
            yield stated.until


def likely_return(
    leading: Foreseen,
    keeping_out: Sequence[Foreseen],
    decided: Decided,
    fixtures: Sequence[Fixture],
    *,
    same_day: bool,
) -> LikelyReturn | None:
    """Return the likely return, or None where there is no range, decision or opinion.

    The range is the leading one, never before a decided day; the chance for a match is the
    smallest of the cases that keep out; a match that is ruled out has none.
    """
    found = (_chance(f, keeping_out, decided, same_day=same_day) for f in fixtures)
    chances = tuple(chance for chance in found if chance is not None)
    expected = expected_back(leading, keeping_out, decided)
    if leading.estimate is not None and keeping_out:
        found_range = _range_of(leading.estimate, decided)
        return replace(found_range, chances=chances, expected=expected)
    ruled_out = tuple(chance for chance in chances if chance.decided)
    if decided.not_before is None and not ruled_out and expected is None:
        return None
    return LikelyReturn(
        earliest=None,
        median=None,
        latest=None,
        chances=ruled_out,
        not_before=decided.not_before,
        expected=expected,
    )


def _range_of(estimate: Estimate, decided: Decided) -> LikelyReturn:
    earliest, latest = estimate.window
    return LikelyReturn(
        earliest=_no_sooner(earliest, decided),
        median=_no_sooner(estimate.median, decided),
        latest=_no_sooner(latest, decided),
        club_cases=estimate.club_cases,
        same_injury_cases=estimate.same_injury_cases,
        pace=estimate.pace,
        not_before=decided.not_before,
    )


def _no_sooner(day: date | None, decided: Decided) -> date | None:
    """Return a day of the range: another case's decision may lie behind it."""
    first = decided.not_before
    return day if day is None or first is None else max(day, first)


def _chance(
    fixture: Fixture, cases: Sequence[Foreseen], decided: Decided, *, same_day: bool
) -> FixtureChance | None:
    """Return the chance for one match, decisions first; None where a case says nothing."""
    said = FixtureChance(
        fixture_id=fixture.fixture_id, on=fixture.on, opponent=fixture.opponent, chance=0.0
    )
    if decided.rules_out(fixture, same_day=same_day):
        return replace(said, decided=True)
    estimates = [case.estimate for case in cases if case.estimate is not None]
    if len(estimates) < len(cases) or not estimates:
        return None
    chance = min(e.chance_for(fixture, same_day=same_day) for e in estimates)
    return replace(said, chance=chance)
