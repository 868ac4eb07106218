"""After a return: how long the athlete is watched, and how soon the same injury came again."""

from collections.abc import Iterable, Mapping
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import Outcome, Scope
from teamrehab.domain.protocol import Protocol, followed
from teamrehab.domain.recurrence import Again, how_soon, watch_caution
from teamrehab.language import _, counted


def returned_on(history: History) -> date | None:
    """Return the day of the full return: cleared for matches, else the day the case was closed.

    None while nobody has cleared the athlete, and of a case that ended otherwise.
    """
    cleared = [signed.on for signed in history.clearances if signed.scope is Scope.MATCH]
    if cleared:
        return max(cleared)
    closed = history.closed
    return closed.on if closed is not None and closed.outcome is Outcome.CLEARED else None


def watch_words(history: History, protocol: Protocol | None, today: date) -> str:
    """Return that an athlete who is back is still watched for this injury; "" if not."""
    returned = returned_on(history)
    if returned is None or protocol is None:
        return ""
    return watch_caution(returned, today, protocol.guidance.watch)


def watched(
    earlier: Iterable[History], protocols: Mapping[str, Protocol], today: date
) -> tuple[str, ...]:
    """Return the sentences on the watch after earlier cases, each with its protocol."""
    said = []
    for history in earlier:
        protocol = followed(history, protocols).protocol
        words = watch_words(history, protocol, today)
        if words and protocol is not None:
            told = _("{protocol}: {watch}").format(protocol=protocol.name, watch=words)
            said.append(told)
    return tuple(said)


def again_words(history: History, earlier: Iterable[History]) -> str:
    """Return how soon a recurrence came after the return; "recurrence" where nobody knows.

    "" of a case that is none. ``earlier`` are the closed cases of the athlete.
    """
    before = history.case.recurrence_of
    if not before:
        return ""
    first = next((one for one in earlier if one.case.case_id == before), None)
    returned = None if first is None else returned_on(first)
    if returned is None or returned > history.case.on:
        return _("recurrence")
    days = (history.case.on - returned).days
    message = {
        Again.EARLY: counted(
            "early recurrence, {count} day after the return",
            "early recurrence, {count} days after the return",
            days,
        ),
        Again.LATE: _("late recurrence, {count} days after the return"),
        Again.DELAYED: _("delayed recurrence, {count} days after the return"),
    }[how_soon(returned, history.case.on)]
    return message.format(count=days)
