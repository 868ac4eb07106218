"""What stops rehab until somebody has looked, before any criterion of a protocol."""

from collections.abc import Iterator, Sequence
from datetime import date

from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History
from teamrehab.domain.injuries import RedFlag, Urgency
from teamrehab.domain.measures import Feeling, MorningResponse, SafetyCheck, Symptom
from teamrehab.domain.mornings import morning_troubles
from teamrehab.domain.safety import HIGH, RISE, answered, why_asked
from teamrehab.domain.situation import Felt, Situation, felt
from teamrehab.language import _


def stop_reasons(situation: Situation) -> tuple[str, ...]:
    """Return why rehab stops today until somebody has looked, in sentences; empty if not.

    Red flags, the symptoms, limp and morning of today, and what an earlier day left standing:
    four answers, a high or sharp symptom, a limp. Those stand until a calm symptom was noted
    or the leg examined on a later day; calm under a painkiller does not count. From a history:
    ``stop_reasons(situation_of(history, protocol, today))``. A limp is expected in the first
    phase and stops from the second on. A session that was missed says nothing.
    """
    known, today = situation.history, situation.today
    calm = _last_calm(situation)
    reasons = [_flag_sentence(flag) for flag in known.red_flags_open_on(today)]
    if not reasons:
        reasons.extend(_check_sentences(known, today, calm))
    reasons.extend(_symptom_sentences(situation, today))
    reasons.extend(_morning_sentences(known, today))
    reasons.extend(_standing_sentences(situation, calm))
    return tuple(dict.fromkeys(reasons))


def _last_calm(situation: Situation) -> date:
    """Return the newest day on which the leg was calm or examined, the earliest if never."""
    known = situation.history
    entries = (*felt(known), *known.of(MorningResponse))
    days = sorted({entry.on for entry in entries if not entry.painkiller}, reverse=True)
    calm = (day for day in days if not _troubled(situation, day))
    looked_at = [examined.on for examined in known.of(Examination)]
    return max([next(calm, date.min), *looked_at])


def _troubled(situation: Situation, day: date) -> bool:
    return any(_symptom_sentences(situation, day)) or any(
        morning_troubles(situation.history, day)
    )


def _flag_sentence(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Open red flag: seek emergency medical care now.")
    return _("Open red flag: seek medical review today, before any further rehab.")


def _check_sentences(known: History, today: date, calm: date) -> Iterator[str]:
    """Yield what four answers still ask for: those of today, and those no calm came after.

    Answers that raise a red flag are spoken for by that flag, once it was noted.
    """
    flagged = max((flag.on for flag in known.of(RedFlag)), default=date.min)
    for check in known.of(SafetyCheck):
        if check.on == today or check.on >= calm:
            urgent = answered(check).urgency is not None and flagged < check.on
            yield answered(check).sentence if urgent else _review_sentence(known, check)


def _review_sentence(known: History, check: SafetyCheck) -> str:
    said = _("Stopped on day {day} after four questions: review before the next load.")
    return said.format(day=(check.on - known.case.on).days)


def _symptom_sentences(situation: Situation, on: date) -> Iterator[str]:
    """Yield why what was felt in the tests and sessions of a day stops that day."""
    known = situation.history
    entries = felt(known)
    symptoms = [entry.symptom for entry in entries if entry.symptom and entry.on == on]
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        yield _("Sharp symptom today: stop, and examine again before going on.")
    worst = max((symptom.score for symptom in symptoms), default=0)
    if worst >= HIGH:
        said = _(
            "Symptom {score} today, {limit} or more: stop, and examine again before going on."
        )
        yield said.format(score=worst, limit=HIGH)
    if _limped(known, on) and situation.phase_on(on) > 1:
        yield _("Limp today: stop, and examine again before going on.")
    rise = _rise(entries, on)
    if rise is not None and rise[1] - rise[0] >= RISE:
        said = _(
            "Symptom rose from {before} to {now}: stop, and examine again before going on."
        )
        yield said.format(before=rise[0], now=rise[1])


def _morning_sentences(known: History, today: date) -> Iterator[str]:
    """Yield why this morning stops the day, with its numbers."""
    troubles = morning_troubles(known, today)
    if troubles:
        said = _("This morning: {why} Stop, and examine again before going on.")
        yield said.format(why=" ".join(troubles))


def _standing_sentences(situation: Situation, calm: date) -> Iterator[str]:
    """Yield what an earlier day left standing: of several the newest day speaks."""
    known, today = situation.history, situation.today
    entries = (*felt(known), *known.of(MorningResponse), *known.sessions)
    days = sorted({entry.on for entry in entries if calm <= entry.on < today}, reverse=True)
    for day in days:
        why = _left_standing(situation, day)
        if why:
            said = _("Day {day}: {why} Nothing calm was noted since: review before any load.")
            yield said.format(day=(day - known.case.on).days, why=" ".join(why))
            return


def _left_standing(situation: Situation, day: date) -> tuple[str, ...]:
    """Return what was too much on a day, the morning included, whatever was calm beside it."""
    known = situation.history
    entries = (*felt(known), *known.of(MorningResponse))
    symptoms = [entry.symptom for entry in entries if entry.symptom and entry.on == day]
    sharp = any(symptom.feeling is Feeling.SHARP for symptom in symptoms)
    score = max((symptom.score for symptom in symptoms), default=0)
    worst = Symptom(score, Feeling.SHARP) if sharp else Symptom(score)
    return why_asked(worst, _limped(known, day), situation.phase_on(day), None)


def _limped(known: History, on: date) -> bool:
    return any(session.limp for session in known.sessions if session.on == on)


def _rise(entries: Sequence[Felt], today: date) -> tuple[int, int] | None:
    """Return the worst symptom of the last day before today and of today, if both exist."""
    before = max((entry.on for entry in entries if entry.on < today), default=None)
    worst = [
        max((e.symptom.score for e in entries if e.symptom and e.on == on), default=None)
        for on in (before, today)
    ]
    last, now = worst
    return None if last is None or now is None else (last, now)
