"""What is allowed, opened or done sooner than is common."""

from collections.abc import Iterable
from datetime import date, timedelta

from teamrehab.domain.availability import Activity, Limit, Training
from teamrehab.domain.injuries import Certainty, StageMoved
from teamrehab.domain.measures import RunTest
from teamrehab.domain.protocol import Protocol, Stage
from teamrehab.domain.situation import RUNNING_PHASE, Situation
from teamrehab.language import _

COMMON_FROM = {
    Activity.PACE: 4,
    Activity.SPRINT: 4,
    Activity.CHANGE_OF_DIRECTION: 5,
    Activity.JUMP: 3,
    Activity.CONTACT: 5,
}
"""The phase (1 to 5) from which an activity is commonly open (common practice).

What is not named here is no question of the phase.
"""


def allowed_early(
    training: Training | None, limits: Iterable[Limit], phase: int
) -> tuple[Activity, ...]:
    """Return what is allowed, as usual or up to a cap, though ``phase`` is commonly too early.

    Full training allows everything; none, or no answer yet, allows nothing. This warns, it
    never refuses: how far a stage goes is the clinician's decision.
    """
    if training is None or training is Training.NONE:
        return ()
    held = training is Training.WITH_LIMITS
    closed = {limit.activity for limit in limits if held and limit.at_most is None}
    return tuple(
        activity
        for activity, opens in COMMON_FROM.items()
        if phase < opens and activity not in closed
    )


def early_cautions(situation: Situation, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return that a stage comes, or came, sooner than it warns of; it holds nothing back.

    Only with a confirmed diagnosis. Warned of before the stage is opened, while it would be
    early; afterwards while it was opened early, or a run was noted before that day.
    """
    diagnosis = situation.history.diagnosis
    if diagnosis is None or diagnosis.certainty is not Certainty.CONFIRMED:
        return ()
    stages = enumerate(protocol.stages, start=1)
    said = [_early(situation, one, at, comes_next=at == stage + 1) for at, one in stages]
    return tuple(words for words in said if words)


def _early(situation: Situation, stage: Stage, number: int, *, comes_next: bool) -> str:
    """Return what is to be said of one stage; days are counted from the onset."""
    if stage.warn_before_day is None:
        return ""
    onset = situation.history.case.on
    until = onset + timedelta(days=stage.warn_before_day)
    first = min(_begun(situation, stage, number), default=None)
    fields = {"stage": stage.name, "day": stage.warn_before_day, "source": stage.source}
    if first is not None and first < until:
        said = _("{stage} began on day {first}, before day {day} after the onset: early.")
        return said.format(first=(first - onset).days, **fields)
    if first is not None or not comes_next or situation.today >= until:
        return ""
    said = _(
        "{stage} before day {day} after the onset is early, it went with more injuries again."
        " Today is day {today}: consider waiting. ({source})"
    )
    return said.format(today=(situation.today - onset).days, **fields)


def _begun(situation: Situation, stage: Stage, number: int) -> list[date]:
    """Return the days on which the stage was opened, and those of runs where it is running."""
    moves = situation.history.of(StageMoved)
    days = [move.on for move in moves if move.stage == number]
    if stage.phase == RUNNING_PHASE:
        days += [run.on for run in situation.tests(RunTest)]
    return days
