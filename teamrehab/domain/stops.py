"""What stops rehab until somebody has looked, before any criterion of a protocol."""

from collections.abc import Iterator
from datetime import date, timedelta

from teamrehab.domain.availability import AvailabilityStated, Training
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Nature, RedFlag, Side, Urgency
from teamrehab.domain.lifting import Lifting, lifting
from teamrehab.domain.measures import Feeling, MorningResponse, SafetyCheck, Symptom
from teamrehab.domain.mornings import morning_troubles
from teamrehab.domain.safety import answered, is_too_much, spoken_for, why_asked
from teamrehab.domain.situation import Situation, felt
from teamrehab.language import _

_LOOK_BACK = timedelta(days=7)
"""How far back a calm day is what today's symptom is held against (common practice)."""


def stop_reasons(situation: Situation) -> tuple[str, ...]:
    """Return why rehab stops today until somebody has looked, in sentences; empty if not.

    Red flags, those of the athlete's other cases too, the symptoms, limp and morning of today,
    and what an earlier day left standing: four answers, a high or sharp symptom, a limp. Those
    stand until something lifts them (see ``lifting``). From a history:
    ``stop_reasons(situation_of(history, protocol, today))``. A limp is expected in the first
    phase and stops from the second on. A session that was missed says nothing.
    """
    known, today = situation.history, situation.today
    lifts = lifting(situation, _troubled_days(situation))
    flags = known.red_flags_open_on(today)
    reasons = [_flag_sentence(flag) for flag in flags]
    reasons.extend(_beside_sentences(known, today))
    if not flags:
        reasons.extend(_check_sentences(situation, lifts))
    reasons.extend(_symptom_sentences(situation, today))
    reasons.extend(_morning_sentences(known, today))
    reasons.extend(_standing_sentences(situation, lifts))
    return tuple(dict.fromkeys(reasons))


def repeats_first(situation: Situation) -> bool:
    """Return whether today's load is the first since something was too much.

    What was too much is repeated before anything goes up (common practice).
    """
    known, today = situation.history, situation.today
    loaded = max((entry.on for entry in felt(known) if entry.on < today), default=date.min)
    days = (day for day in _days_told(known) if loaded <= day < today)
    return any(_left_standing(situation, day) for day in days)


def _flag_sentence(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Open red flag: seek emergency medical care now.")
    return _("Open red flag: seek medical review today, before any further rehab.")


def _beside_sentences(known: History, today: date) -> Iterator[str]:
    """Yield what stops this case because of another one of the same athlete, which is named."""
    for other in known.beside:
        said = _("Another case of this athlete ({case}): {why}")
        for flag in other.red_flags_open_on(today):
            yield said.format(case=_named(other), why=_flag_sentence(flag))
        if other.case.nature is Nature.ILLNESS and _rests(other, today):
            why = _("ill, no training is stated: no rehab until that is changed.")
            yield said.format(case=_named(other), why=why)


def _named(other: History) -> str:
    """Return how another case is told apart: where, which side, since when."""
    case = other.case
    where = case.area.strip() or _(case.nature.value)
    side = _(case.side.value) if case.side in (Side.LEFT, Side.RIGHT, Side.BOTH) else ""
    begun = _("since {day}").format(day=case.on.isoformat())
    return ", ".join(part for part in (where, side, begun) if part)


def _rests(other: History, today: date) -> bool:
    """Return whether no training is stated for today; of two versions the stricter counts."""
    said = [one for one in other.of(AvailabilityStated) if one.on <= today]
    newest = max((one.on for one in said), default=None)
    return any(one.training is Training.NONE for one in said if one.on == newest)


def _check_sentences(situation: Situation, lifts: Lifting) -> Iterator[str]:
    """Yield what four answers still ask for: those of today, and those nothing has lifted.

    Answers that raise a red flag are spoken for by a flag as urgent as they are.
    """
    known, today = situation.history, situation.today
    flags = known.of(RedFlag)
    for fact in known.standing(SafetyCheck):
        check = fact.value
        if check.on == today or not lifts.lifts(check.on, fact.stamp, limp=False):
            urgent = answered(check).urgency is not None and not spoken_for(check, flags)
            yield answered(check).sentence if urgent else _review_sentence(known, check)


def _review_sentence(known: History, check: SafetyCheck) -> str:
    said = _("Stopped on day {day} after four questions: examine before the next load.")
    return said.format(day=(check.on - known.case.on).days)


def _symptom_sentences(situation: Situation, on: date) -> Iterator[str]:
    """Yield why what was felt in the tests and sessions of a day stops that day."""
    symptoms = [e.symptom for e in felt(situation.history) if e.symptom and e.on == on]
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        yield _("Sharp symptom today: stop, and examine again before going on.")
    worst = max((symptom.score for symptom in symptoms), default=0)
    if worst >= situation.alarm:
        said = _(
            "Symptom {score} today, {limit} or more: stop, and examine again before going on."
        )
        yield said.format(score=worst, limit=situation.alarm)
    if _limped(situation, on):
        yield _("Limp today: stop, and examine again before going on.")


def _morning_sentences(known: History, today: date) -> Iterator[str]:
    """Yield why this morning stops the day, with its numbers."""
    troubles = morning_troubles(known, today)
    if troubles:
        said = _("This morning: {why} Stop, and examine again before going on.")
        yield said.format(why=" ".join(troubles))


def _standing_sentences(situation: Situation, lifts: Lifting) -> Iterator[str]:
    """Yield what an earlier day left standing, and what lifts it: the newest day speaks."""
    known, today = situation.history, situation.today
    for day in sorted(_days_told(known), reverse=True):
        why = () if day >= today else _left_standing(situation, day)
        stamps = [f.stamp for f in known.facts if f.value.on == day and _tells(f.value)]
        limp = _limped(situation, day)
        if why and not lifts.lifts(day, max(stamps, default=""), limp=limp):
            said = (
                _(
                    "Day {day}: {why} Nothing since lifts it: examine the leg, or note a later"
                    " day without a limp, calm and without a painkiller, before any load."
                )
                if limp
                else _(
                    "Day {day}: {why} Nothing since lifts it: examine the leg, or note a later"
                    " day that is calm without a painkiller, before any load."
                )
            )
            yield said.format(day=(day - known.case.on).days, why=" ".join(why))
            return


def _tells(value: object) -> bool:
    return hasattr(value, "symptom")


def _days_told(known: History) -> set[date]:
    entries = (*felt(known), *known.of(MorningResponse), *known.sessions)
    return {entry.on for entry in entries}


def _troubled_days(situation: Situation) -> Iterator[date]:
    """Yield the days that were too much for a leg to be called calm."""
    for day in _days_told(situation.history):
        if any(_symptom_sentences(situation, day)) or morning_troubles(situation.history, day):
            yield day


def _left_standing(situation: Situation, day: date) -> tuple[str, ...]:
    """Return what was too much on a day, the morning included, whatever was calm beside it."""
    known = situation.history
    trained = [e.symptom for e in felt(known) if e.symptom and e.on == day]
    woke = [response.symptom for response in known.of(MorningResponse) if response.on == day]
    limp = _limped(situation, day)
    return tuple(
        dict.fromkeys(
            (
                *why_asked(_worst(trained), limp, None, None, high=situation.alarm),
                *why_asked(_worst(woke), None, None, None),
            )
        )
    )


def _worst(symptoms: list[Symptom]) -> Symptom | None:
    """Return the highest score, sharp as soon as one of them was; None without any."""
    if not symptoms:
        return None
    score = max(symptom.score for symptom in symptoms)
    sharp = any(symptom.feeling is Feeling.SHARP for symptom in symptoms)
    return Symptom(score, Feeling.SHARP) if sharp else Symptom(score)


def _limped(situation: Situation, on: date) -> bool:
    """Return whether there was a limp that the phase of that day does not expect any more."""
    limp = any(session.limp for session in situation.history.sessions if session.on == on)
    return limp and situation.phase_on(on) > 1


def symptom_rise(situation: Situation, today: date) -> tuple[int, int] | None:
    """Return the worst symptom of the last calm day before today and of today, if both exist.

    A day that was too much is nothing to be held against: today would look better beside it.
    """
    entries = felt(situation.history)
    now = _worst([e.symptom for e in entries if e.symptom and e.on == today])
    first = today - _LOOK_BACK
    days = sorted({e.on for e in entries if first <= e.on < today}, reverse=True)
    worst = (_worst([e.symptom for e in entries if e.symptom and e.on == day]) for day in days)
    before = next((one for one in worst if one and not is_too_much(one, situation.alarm)), None)
    return None if before is None or now is None else (before.score, now.score)
