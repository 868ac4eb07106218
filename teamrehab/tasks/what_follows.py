"""The availability that a signature means."""

from dataclasses import replace
from datetime import date

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Clearance, Scope
from teamrehab.language import _
from teamrehab.reports.wording import moment_words
from teamrehab.tasks.refusals import RefusedError


def what_follows(history: History, clearance: Clearance) -> AvailabilityStated:
    """Return the availability a clearance means; a match answer only moves with its scope."""
    if clearance.scope is Scope.TEAM_TRAINING:
        return _trains_in_full(history, clearance.on)
    limited = clearance.scope is Scope.MATCH_WITH_LIMIT
    return AvailabilityStated(
        case_id=clearance.case_id,
        athlete_id=clearance.athlete_id,
        on=clearance.on,
        training=Training.FULL,
        match=Match.LIMITED if limited else Match.AVAILABLE,
        match_role=clearance.limit if limited else "",
    )


def _trains_in_full(history: History, on: date) -> AvailabilityStated:
    """Return full training from ``on``, and of matches all that was said before.

    Of two versions the more restrictive goes on; an end or an update that has passed does not.
    """
    said = history.as_of(on).of(AvailabilityStated)
    if not said:
        case = history.case
        return AvailabilityStated(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=on,
            training=Training.FULL,
            match=Match.NOT_AVAILABLE,
        )
    newest = [one for one in said if one.on == said[-1].on]
    before = max(newest, key=lambda one: list(Match).index(one.match))
    until = before.until if before.until is not None and before.until >= on else None
    update = before.next_update
    if update is not None and update.date() < on:
        update = None
        _insist_on_decided(before)
    return replace(
        before, on=on, training=Training.FULL, limits=(), until=until, next_update=update
    )


def _insist_on_decided(said: AvailabilityStated) -> None:
    """Raise RefusedError where the day of a decision about matches has passed."""
    if said.match is Match.UNDECIDED and said.next_update is not None:
        raise RefusedError(
            _(
                "A decision about matches was due {moment}: state the availability first, then"
                " sign the clearance."
            ).format(moment=moment_words(said.next_update))
        )
