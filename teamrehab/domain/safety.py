"""When a symptom is not accepted silently, what is asked, and what the answers mean.

No study set these limits for a strained muscle: they are common practice. A similar scale is
used for loading tendons (Am J Sports Med 2007;35:897, doi 10.1177/0363546506298279).
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from teamrehab.domain.examination import Examination, Gait, Resisted
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import (
    Feeling,
    FunctionCheck,
    SafetyCheck,
    SessionEntry,
    Symptom,
)
from teamrehab.language import _

HIGH = 4
"""A symptom from here on is never accepted silently (common practice)."""

RISE = 2
"""Points of symptom that matter (Pain 2001;94:149, from chronic pain: common practice here)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What the four answers mean: a red flag of an urgency, or None for stop and review.

    ``what`` words the red flag for the medical staff, ``sentence`` says what to do now.
    """

    urgency: Urgency | None
    what: str
    sentence: str


def why_asked(
    symptom: Symptom | None,
    limp: bool | None,  # noqa: FBT001 - as noted in a session
    phase: int | None,
    rise: tuple[int, int] | None,
    *,
    high: int = HIGH,
) -> tuple[str, ...]:
    """Return why the four questions are asked, in sentences; empty: accepted silently.

    ``phase`` is that of the stage, None without a protocol: a limp is expected in the first
    phase only. ``rise`` are the mornings before and after (see ``mornings.morning_rise``).
    """
    said = list(too_much(symptom, high))
    if limp and phase != 1:
        said.append(_("A limp."))
    if rise is not None and rise[1] - rise[0] >= RISE:
        words = _("The symptom rose from {before} to {now} by the morning.")
        said.append(words.format(before=rise[0], now=rise[1]))
    return tuple(said)


def seen_troubles(entry: object, phase: int | None) -> tuple[str, ...]:
    """Return what was seen of the leg that is not accepted silently, in sentences.

    A limp in a session, in an examination or in a look at walking and stairs, and what an
    examination found not possible. The first phase expects all of it; ``phase`` None: nothing
    is expected.
    """
    if phase == 1:
        return ()
    match entry:
        case SessionEntry(limp=True):
            return (_("A limp."),)
        case FunctionCheck(walks_clean=False) | FunctionCheck(stairs_clean=False):
            return (_("Does not walk or take stairs without symptom or limp."),)
        case Examination():
            return tuple(_found(entry))
        case _:
            return ()


def _found(found: Examination) -> Iterator[str]:
    gaits = (found.walking, found.stairs)
    if Gait.UNABLE in gaits:
        yield _("Walking or stairs not possible in the examination.")
    elif Gait.LIMPS in gaits:
        yield _("A limp in the examination.")
    if Resisted.UNABLE in (found.resisted_straight, found.resisted_bent):
        yield _("Pushing against the hand not possible in the examination.")


def too_much(symptom: Symptom | None, high: int = HIGH) -> tuple[str, ...]:
    """Return what of a single symptom is not accepted silently, in sentences."""
    if symptom is None:
        return ()
    said = []
    if symptom.feeling is Feeling.SHARP:
        said.append(_("A sharp symptom, whatever the number."))
    if symptom.score >= high:
        words = _("Symptom {score}: {limit} or more.")
        said.append(words.format(score=symptom.score, limit=high))
    return tuple(said)


def is_too_much(symptom: Symptom, high: int = HIGH) -> bool:
    """Return whether a single symptom is not accepted silently."""
    return symptom.feeling is Feeling.SHARP or symptom.score >= high


def spoken_for(check: SafetyCheck, flags: Iterable[RedFlag]) -> bool:
    """Return whether a red flag says what four answers raise, and is at least as urgent.

    An open one that was raised by these answers, or on their day for the same signs. One that
    a doctor closed speaks for the answers that raised it and for the signs it names, and says
    nothing of answers given since.
    """
    found = answered(check)
    return any(
        at_least(flag.urgency, found.urgency) and _speaks_for(flag, check, found.what)
        for flag in flags
    )


def _speaks_for(flag: RedFlag, check: SafetyCheck, what: str) -> bool:
    ours = raised_by(flag, check.check_id)
    if flag.closed is None:
        return ours or (flag.on, flag.what) == (check.on, what)
    return ours and all(sign in flag.what for sign in what.split("; "))


def raised_by(flag: RedFlag, asked_id: str) -> bool:
    """Return whether a flag was raised by these answers; one raised anew carries a number."""
    return flag.flag_id.split(_ANEW)[0] == asked_id


def raised_anew(flag: RedFlag, there: Iterable[RedFlag]) -> RedFlag:
    """Return a flag with an id of its own beside those the same answers raised before."""
    before = sum(raised_by(one, flag.flag_id) for one in there)
    return replace(flag, flag_id=f"{flag.flag_id}{_ANEW}{before}") if before else flag


_ANEW = "+"


def at_least(urgency: Urgency, other: Urgency | None) -> bool:
    """Return whether one urgency is as high as another; None is below all."""
    return urgency is Urgency.EMERGENCY or other is not Urgency.EMERGENCY


def answered(check: SafetyCheck) -> Answered:
    """Return what four answers mean; of several signs the most urgent counts, all are named.

    Swollen or warm: features of a clot (Lancet 1997;350:1795, doi from memory
    10.1016/S0140-6736(97)08140-3). Cannot push off: a tendon may be ruptured (J Athl Train
    2014;49:820). That a doctor sees either on the same day, and that chest or breath is an
    emergency, is common practice; answers alone neither find nor rule out anything.
    """
    urgency = _urgency(check)
    if urgency is None:
        return Answered(urgency=None, what="", sentence=_stop_and_review(check))
    return Answered(urgency=urgency, what="; ".join(_signs(check)), sentence=_to_do(urgency))


def flag_of(check: SafetyCheck, flag_id: str) -> RedFlag | None:
    """Return the red flag that the answers raise, None where they raise none."""
    found = answered(check)
    if found.urgency is None:
        return None
    return RedFlag(
        flag_id=flag_id,
        case_id=check.case_id,
        athlete_id=check.athlete_id,
        on=check.on,
        what=found.what,
        urgency=found.urgency,
    )


def _urgency(check: SafetyCheck) -> Urgency | None:
    if check.chest_or_breath:
        return Urgency.EMERGENCY
    if check.swollen_or_warm or not check.can_push_off:
        return Urgency.SAME_DAY
    return None


def _signs(check: SafetyCheck) -> list[str]:
    signs = [
        (check.chest_or_breath, _("Chest pain or short of breath")),
        (check.swollen_or_warm, _("Swollen or warm: a clot is possible")),
        (not check.can_push_off, _("Cannot push off: a tendon rupture is possible")),
    ]
    return [words for seen, words in signs if seen]


def _to_do(urgency: Urgency) -> str:
    if urgency is Urgency.EMERGENCY:
        return _("Stop. Call emergency medical care now, and stay with the athlete.")
    return _("Stop. A doctor sees the athlete today; no loading until then.")


def _stop_and_review(check: SafetyCheck) -> str:
    if check.same_spot:
        return _("Stop for today. Review before the next load.")
    return _(
        "Stop for today. Another spot: it may be a new injury; examine before the next load."
    )
