"""What keeps a case from going up for a day though nothing stops it (common practice)."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from teamrehab.domain.examination import Examination
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.mornings import mornings_of, provisional, turned_out_badly
from teamrehab.domain.safety import HIGH, RISE, seen_troubles
from teamrehab.domain.situation import LATER_PHASE, Situation
from teamrehab.domain.stops import named, repeats_first, stop_reasons, symptom_rise
from teamrehab.language import _

_DAY = timedelta(days=1)


def held_reasons(situation: Situation, *, signs: bool = False) -> tuple[str, ...]:
    """Return why nothing goes up today, in sentences; empty where nothing holds it.

    ``signs``: it is about a signature, which is no load beside a level of today.
    """
    return (
        *stopped_beside(situation),
        *((repeat_words(),) if repeats_first(situation) else ()),
        *not_steady(situation),
        *_limped_today(situation),
        *_woke_badly(situation),
        *(() if signs else _changed_today(situation)),
        *_answered_badly(situation),
        *_unsettled(situation),
    )


def repeat_words() -> str:
    """Return that the first load since a stop is repeated before anything goes up."""
    return _("The first load since a stop: repeat it once more before anything goes up.")


def stopped_beside(situation: Situation) -> Iterator[str]:
    """Yield which other case of the athlete is stopped: the whole athlete is looked at first.

    It is looked at without its protocol: a limp is not taken as expected there. A head injury
    nobody has signed for is one as well.
    """
    for other in situation.history.beside:
        own = Situation(
            history=replace(other, beside=()),
            today=situation.today,
            settings=situation.settings,
            phase=LATER_PHASE,
            phases=(LATER_PHASE,),
        )
        if stop_reasons(own) or (other.case.head_injury and not other.clearances):
            said = _(
                "Another case of this athlete ({case}) is stopped: nothing goes up before."
            )
            yield said.format(case=named(other))


def not_steady(situation: Situation) -> Iterator[str]:
    """Yield that the symptom in training rose, within what is allowed too, with its numbers.

    Two points matter: Pain 2001;94:149, from chronic pain. A protocol that allows more than
    usual takes a rise below what always asks for steadiness elsewhere.
    """
    rise = symptom_rise(situation, situation.today)
    allowed = rise is not None and situation.alarm > HIGH > rise[1]
    if rise is not None and rise[1] - rise[0] >= RISE and not allowed:
        said = _("Symptom rose from {before} to {now}: not steady, so nothing goes up today.")
        yield said.format(before=rise[0], now=rise[1])


def _limped_today(situation: Situation) -> Iterator[str]:
    """Yield a limp of today, expected in this phase or not: of two words the worse counts."""
    today = [f.value for f in situation.history.facts if f.value.on == situation.today]
    seen = [sentence for value in today for sentence in seen_troubles(value, None)]
    if seen:
        yield _("Seen today: {what} Nothing goes up today.").format(
            what=" ".join(dict.fromkeys(seen))
        )


def _woke_badly(situation: Situation) -> Iterator[str]:
    """Yield that this morning was bad, examined since or not: the last clean dose is next."""
    morning = mornings_of(situation.history, situation.alarm).get(situation.today)
    if morning is not None and morning.troubles:
        yield _(
            "This morning: {why} Repeat the last clean dose; nothing goes up today."
        ).format(why=" ".join(morning.troubles))


def _changed_today(situation: Situation) -> Iterator[str]:
    """Yield that a level was decided today: never two changes at once."""
    if any(moved.on == situation.today for moved in situation.history.of(LevelMoved)):
        yield _("A level was decided today: one change at a time.")


def _answered_badly(situation: Situation) -> Iterator[str]:
    """Yield that the stage opened last was answered badly, until that was repeated.

    One of yesterday that this morning has not answered yet waits for it.
    """
    known, today = situation.history, situation.today
    newest = known.last(StageMoved)
    waits = provisional(known, today, situation.alarm)
    if newest is not None and newest.on == today - _DAY and newest in waits:
        yield _(
            "The stage was opened yesterday: note this morning's response before the next one."
        )
    if newest in turned_out_badly(known, today, situation.alarm):
        yield _(
            "The stage opened last was answered badly: repeat it with a good morning after it,"
            " or take it back, before the next one."
        )


def _unsettled(situation: Situation) -> Iterator[str]:
    """Yield that two versions of something a move up rests on stand beside each other."""
    known = situation.history
    days = {f.value.on for f in known.facts if f.versions > 1 and _decides(f.value)}
    if days:
        said = _(
            "Two versions of an entry of day {day} stand: say which one counts before"
            " anything goes up."
        )
        yield said.format(day=(max(days) - known.case.on).days)


def _decides(value: object) -> bool:
    return hasattr(value, "symptom") or isinstance(value, Examination)
