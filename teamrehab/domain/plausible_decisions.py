"""What can be true of a case and of what is decided about it."""

from datetime import date
from typing import Protocol

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.implausible import (
    Found,
    Implausible,
    Moment,
    day_between,
    needed,
    number,
)
from teamrehab.domain.injuries import (
    Case,
    Clearance,
    Diagnosis,
    RedFlag,
    Remark,
    ReturnDecision,
    Scope,
    StageMoved,
)
from teamrehab.domain.plausible_entries import MINUTES
from teamrehab.domain.written import blank
from teamrehab.language import _

GRADE = range(4)
STAGE = range(1, 21)
CAP = range(301)


class OnADay(Protocol):
    """A value that happened on a day."""

    @property
    def on(self) -> date:
        """Return that day."""


def case(started: Case, moment: Moment) -> Found:
    """Yield what cannot be true of the start of a case."""
    yield from day_between(_("Day of onset"), started.on, None, moment.today)
    if started.reassess_on is not None:
        again = started.reassess_on.date()
        yield from day_between(_("Reassess on"), again, started.on, None)


def happened(value: OnADay, moment: Moment) -> Found:
    """Yield a day in the future or before the injury."""
    yield from day_between(_("Day"), value.on, moment.onset, moment.today)


def diagnosis(held: Diagnosis, moment: Moment) -> Found:
    """Yield what cannot be true of a diagnosis."""
    yield from happened(held, moment)
    yield from number(_("Grade"), held.grade, GRADE, "")


def availability(stated: AvailabilityStated, moment: Moment) -> Found:
    """Yield what cannot be true of an availability; it may be stated for a coming day."""
    yield from day_between(_("Day"), stated.on, moment.onset, None)
    yield from day_between(_("Until"), stated.until, stated.on, None)
    yield from number(_("Minutes in the match"), stated.match_minutes, MINUTES, _("minutes"))
    for limit in stated.limits:
        yield from number(_("Limits"), limit.at_most, CAP, "")
    if stated.training is Training.WITH_LIMITS and not stated.limits:
        yield from needed(_("Limits"), "", _("the coach must know at least one"))
    if stated.match is Match.LIMITED and stated.match_minutes is None:
        field = _("Role in the match")
        yield from needed(field, stated.match_role, _("minutes or a role are needed"))
    if stated.next_update is not None:
        again = stated.next_update.date()
        yield from day_between(_("Next update"), again, stated.on, None)
    if stated.match is Match.UNDECIDED and stated.next_update is None:
        yield from needed(_("Next update"), "", _("the day of the decision is needed"))


def stage_moved(moved: StageMoved, moment: Moment) -> Found:
    """Yield what cannot be true of a move; one against the proposal needs a reason."""
    yield from happened(moved, moment)
    yield from number(_("Stage"), moved.stage, STAGE, "")
    if moved.stage != moved.proposed and blank(moved.why):
        yield from needed(_("Reason"), "", _("a move against the proposal needs one"))


def red_flag(flag: RedFlag, moment: Moment) -> Found:
    """Yield what cannot be true of a red flag; only a named doctor closes it."""
    yield from happened(flag, moment)
    yield from needed(_("What was seen"), flag.what, _("what was seen is needed"))
    yield from day_between(_("Closed on"), flag.closed_on, flag.on, moment.today)
    if flag.closed_on is not None:
        yield from needed(_("Closed by"), flag.closed_by, _("the doctor's name is needed"))


def return_decision(decision: ReturnDecision, moment: Moment) -> Found:
    """Yield what cannot be true of a decision: "not before" a day that has passed."""
    yield from happened(decision, moment)
    if decision.not_before is not None and decision.not_before < moment.today:
        yield Implausible(
            field=_("Not before"),
            value=decision.not_before.isoformat(),
            allowed=_("this day has passed"),
            remedy=_("Type a coming day, or leave it empty."),
        )
    earliest = max(moment.today, decision.not_before or moment.today)
    yield from day_between(_("Expected back"), decision.expected, earliest, None)


def clearance(signed: Clearance, moment: Moment) -> Found:
    """Yield what cannot be true of a clearance: it is a signature."""
    yield from happened(signed, moment)
    yield from needed(_("Signed by"), signed.signed_by, _("somebody must sign"))
    if signed.scope is Scope.MATCH_WITH_LIMIT:
        yield from needed(_("Limit"), signed.limit, _("minutes or a role are needed"))


def remark(note: Remark, moment: Moment) -> Found:
    """Yield what cannot be true of a note."""
    yield from happened(note, moment)
    yield from needed(_("Note"), note.text, _("a text is needed"))
