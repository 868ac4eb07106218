"""The check on a level of a ladder: whether a session passed it."""

from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.judging import whole, word
from teamrehab.domain.ladder_days import walk
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.domain.work import Work
from teamrehab.language import _


def level_passed(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge whether a level of a ladder was passed in a session, or one above it.

    Passed: every set done in good form, within the symptom allowed in the stage of that day,
    without a limp and without a painkiller. It stays passed.
    """
    level, (done, passing) = whole(criterion, "level"), _works(criterion, situation)
    passed = _newest(passing, level)
    fell_short = _newest(done, level)
    shown = passed or fell_short or _newest(done, 1)
    short = Verdict.NOT_MET if done else Verdict.NEVER_TESTED
    seen = [
        Evidence(measure=_("Level worked at"), on=work.session.on, value=work.level)
        for work in (shown,)
        if work is not None
    ]
    return CriterionResult(
        criterion=criterion,
        verdict=short if passed is None else Verdict.MET,
        needed=level,
        evidence=tuple(seen),
        remark="" if passed is not None or fell_short is None else _not_passed(),
    )


def _not_passed() -> str:
    return _("Not every set was done in good form and within the symptom allowed.")


def _newest(works: list[Work], level: int) -> Work | None:
    """Return the newest work at a level or one above it."""
    return next((work for work in reversed(works) if work.level >= level), None)


def _works(criterion: Criterion, situation: Situation) -> tuple[list[Work], list[Work]]:
    """Return what sessions did at the ladder, and what of it passed a level; oldest first."""
    key, protocol = word(criterion, "ladder", ""), situation.protocol
    if protocol is None:
        return [], []
    place = walk(situation.history, protocol)
    return place.works[key], place.passing[key]
