"""What stops rehab until somebody has looked, before any criterion of a protocol."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from teamrehab.domain.availability import AvailabilityStated, Training
from teamrehab.domain.day_names import day_and_year
from teamrehab.domain.days_told import DayTold, days_told, loaded_days
from teamrehab.domain.history import History, Standing
from teamrehab.domain.injuries import Nature, RedFlag, Side, Urgency
from teamrehab.domain.lifting import Lifting, lifting
from teamrehab.domain.measures import Feeling, SafetyCheck
from teamrehab.domain.safety import answered, raised_by, spoken_for
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.domain.situation import Situation
from teamrehab.language import _

_LOOK_BACK = timedelta(days=7)
"""How far back today's symptom is held against a calm day (common practice)."""

_DAY = timedelta(days=1)


def stop_reasons(situation: Situation) -> tuple[str, ...]:
    """Return why rehab stops today until somebody has looked, in sentences; empty if not.

    Red flags, those of the athlete's other cases too, what was felt and seen today, and what
    an earlier day left standing: four answers, a high or sharp symptom, a limp, two bad
    mornings in a row. Those stand until something lifts them (see ``lifting``). From a
    history: ``stop_reasons(situation_of(history, protocol, today))``. A limp is expected in
    the first phase and stops from the second on. A session that was missed says nothing.
    """
    known, today = situation.history, situation.today
    days = days_told(situation)
    lifts = lifting(situation, days)
    flags = known.red_flags_open_on(today)
    reasons = [_flag_sentence(flag) for flag in flags]
    reasons.extend(_beside_sentences(known, today))
    reasons.extend(unspoken(situation))
    if not flags:
        reasons.extend(_check_sentences(situation, lifts))
    if today in days:
        reasons.extend(_today_sentences(days[today], looked=lifts.found_fit(days[today])))
    reasons.extend(_standing_sentences(situation, lifts))
    reasons.extend(_two_mornings(situation, lifts))
    return tuple(dict.fromkeys(reasons))


def repeats_first(situation: Situation) -> bool:
    """Return whether today's load is the first since something was too much.

    What was too much is repeated before anything goes up (common practice). A risen morning
    is too much as well, and nothing goes up before the repeat either.
    """
    days, today = days_told(situation), situation.today
    loaded = max((day for day in loaded_days(days) if day < today), default=date.min)
    return any(told.troubled for day, told in days.items() if loaded <= day < today)


def symptom_rise(situation: Situation, today: date) -> tuple[int, int] | None:
    """Return the lowest worst symptom of a day of the last week, and today's, if both exist.

    The lowest, so that a slow rise is seen too and a worse day before does not make today look
    better. A day that was too much is nothing to be held against.
    """
    return rise_among(days_told(situation), today)


def rise_among(days: Mapping[date, DayTold], today: date) -> tuple[int, int] | None:
    """Return the same from the days of a case; ``days`` are oldest first."""
    now = days[today].trained if today in days else None
    calm = [
        told.trained.score
        for day, told in days.items()
        if today - _LOOK_BACK <= day < today and told.trained and not told.was_too_much
    ]
    return None if now is None or not calm else (min(calm), now.score)


def unspoken(situation: Situation) -> Iterator[str]:
    """Yield what answers raise that no red flag speaks for; it stands until one does.

    Answers may arrive from another laptop without their flag.
    """
    known = situation.history
    flags = known.of(RedFlag)
    for fact in known.standing(SafetyCheck):
        if _is_unspoken(fact.value, flags) and not _flagged_since(known, fact):
            yield answered(fact.value).sentence
    for seen in known.standing(SignsAsked):
        asked = seen.value
        raised = any(raised_by(flag, asked.asked_id) for flag in flags)
        if asked.seen and not raised and not _flagged_since(known, seen):
            said = _(
                "A red flag was seen when they were asked for on day {day}, and none is noted:"
                " a doctor sees the athlete first. Note the red flag."
            )
            yield said.format(day=(asked.on - known.case.on).days)


def _is_unspoken(check: SafetyCheck, flags: Sequence[RedFlag]) -> bool:
    return answered(check).urgency is not None and not spoken_for(check, flags)


def _flagged_since(known: History, fact: Standing[Any]) -> bool:
    """Return whether a flag was raised by hand after answers were noted: it speaks for them."""
    began = (flag.began or flag.stamp for flag in known.standing(RedFlag))
    return any(stamp > fact.stamp for stamp in began)


def _flag_sentence(flag: RedFlag) -> str:
    if flag.urgency is Urgency.EMERGENCY:
        return _("Open red flag: seek emergency medical care now.")
    return _("Open red flag: seek medical review today, before any further rehab.")


def _beside_sentences(known: History, today: date) -> Iterator[str]:
    """Yield what stops this case because of another one of the same athlete, which is named."""
    for other in known.beside:
        said = _("Another case of this athlete ({case}): {why}")
        for flag in other.red_flags_open_on(today):
            yield said.format(case=named(other), why=_flag_sentence(flag))
        if other.case.nature is Nature.ILLNESS and _rests(other, today):
            why = _("ill, no training is stated: no rehab until that is changed.")
            yield said.format(case=named(other), why=why)


def named(other: History) -> str:
    """Return how another case of an athlete is told apart: where, which side, since when."""
    case = other.case
    where = case.area.strip() or _(case.nature.value)
    side = _(case.side.value) if case.side in (Side.LEFT, Side.RIGHT, Side.BOTH) else ""
    begun = _("since {day}").format(day=day_and_year(case.on))
    return ", ".join(part for part in (_(where), side, begun) if part)


def _rests(other: History, today: date) -> bool:
    """Return whether no training is stated for today; who nobody has spoken of rests.

    Of two versions the stricter counts.
    """
    said = [one for one in other.of(AvailabilityStated) if one.on <= today]
    newest = max((one.on for one in said), default=None)
    now = [one.training for one in said if one.on == newest]
    return not now or Training.NONE in now


def _check_sentences(situation: Situation, lifts: Lifting) -> Iterator[str]:
    """Yield what four answers still ask for: those of today, and those nothing has lifted.

    Answers that raise a red flag are spoken for by it. Of several the newest speak.
    """
    known, today = situation.history, situation.today
    flags = known.of(RedFlag)
    for fact in reversed(list(known.standing(SafetyCheck))):
        check = fact.value
        told = lifts.days.get(check.on) or DayTold(on=check.on, alarm=situation.alarm)
        told = replace(told, stamp=fact.stamp, noted_at=fact.noted_at)
        released = lifts.found_fit(told) and not told.loaded
        standing = (check.on == today and not released) or not lifts.lifts(told)
        if standing and not _is_unspoken(check, flags):
            said = _(
                "Stopped on day {day} after four questions. Before the next load examine the"
                " leg, or note a calm later session or test without a painkiller."
            )
            yield said.format(day=(check.on - known.case.on).days)
            return


def _today_sentences(told: DayTold, *, looked: bool) -> Iterator[str]:
    """Yield why what was felt and seen today stops the day; ``looked``: found fit since."""
    if told.trained is not None and told.trained.feeling is Feeling.SHARP:
        yield _("Sharp symptom today: stop, and examine again before going on.")
    if told.trained is not None and told.trained.score >= told.alarm:
        said = _(
            "Symptom {score} today, {limit} or more: stop, and examine again before going on."
        )
        yield said.format(score=told.trained.score, limit=told.alarm)
    if told.seen:
        said = _("Seen today: {why} Stop, and examine again before going on.")
        yield said.format(why=" ".join(told.seen))
    released = looked and not told.loaded
    if told.morning is not None and told.morning.troubles and not released:
        said = _("This morning: {why} Stop, and examine again before going on.")
        yield said.format(why=" ".join(told.morning.troubles))
    if looked and told.troubled and not released:
        yield _("The leg was examined since and found fit: the stop holds for today only.")


def _standing_sentences(situation: Situation, lifts: Lifting) -> Iterator[str]:
    """Yield what an earlier day left standing, and what lifts it: the newest day speaks."""
    onset = situation.history.case.on
    for day, told in sorted(lifts.days.items(), reverse=True):
        if day < situation.today and told.left_standing and not lifts.lifts(told):
            said = _("Day {day}: {why} Nothing since lifts it: {how}")
            yield said.format(
                day=(day - onset).days,
                why=" ".join(told.left_standing),
                how=_how(told, examined=bool(lifts.since(told))),
            )
            return


def _how(told: DayTold, *, examined: bool) -> str:
    """Return what lifts what a day left standing; ``examined`` since, and not found fit."""
    if examined:
        return _(
            "the newest examination did not find the leg fit. Before any load it is examined"
            " again and found fit."
        )
    if told.seen:
        return _(
            "examine the leg, or note a later session or test without a limp, calm and without"
            " a painkiller, before any load."
        )
    if told.loaded:
        return _(
            "examine the leg, or note a later session or test that is calm without a"
            " painkiller, before any load."
        )
    return _(
        "examine the leg, or note a later day that is calm without a painkiller, before any"
        " load."
    )


def _two_mornings(situation: Situation, lifts: Lifting) -> Iterator[str]:
    """Yield that two mornings in a row after load were bad, until the leg was found fit.

    In a row means after one load and after the next whose morning was noted.
    """
    after = [day + _DAY for day in loaded_days(lifts.days) if day < situation.today]
    told = [lifts.days[day] for day in after if day in lifts.days and lifts.days[day].morning]
    if len(told) < 2:
        return
    before, now = told[-2:]
    bad = all(one.morning is not None and one.morning.troubles for one in (before, now))
    if bad and not lifts.found_fit(now):
        said = _(
            "Two mornings in a row after load were bad (days {before} and {now}): examine the"
            " leg before any load."
        )
        onset = situation.history.case.on
        yield said.format(before=(before.on - onset).days, now=(now.on - onset).days)
