"""The check on a level of a ladder: whether a session passed it."""

from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.judging import SymptomLimit, whole, word
from teamrehab.domain.ladders import Work, worked
from teamrehab.domain.protocol import Criterion, Ladder
from teamrehab.domain.situation import Situation
from teamrehab.language import _


def level_passed(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge whether a level of a ladder was passed in a session, or one above it.

    Passed: every set done in good form, within the symptom of the ladder, without a limp and
    without a painkiller. It stays passed.
    """
    level = whole(criterion, "level")
    work = _newest_at(criterion, situation)
    passed = [w for w in work if w.level >= level and _passed(w, situation, criterion)]
    shown = passed[0] if passed else next((w for w in work if w.level >= level), None)
    short = Verdict.NOT_MET if work else Verdict.NEVER_TESTED
    seen = [
        Evidence(measure=_("Level worked at"), on=w.session.on, value=w.level)
        for w in (shown or next(iter(work), None),)
        if w is not None
    ]
    return CriterionResult(
        criterion=criterion,
        verdict=Verdict.MET if passed else short,
        needed=level,
        evidence=tuple(seen),
        remark="" if passed or shown is None else _not_passed(),
    )


def _not_passed() -> str:
    return _("Not every set was done in good form and within the symptom allowed.")


def _ladder(criterion: Criterion, situation: Situation) -> Ladder | None:
    key, protocol = word(criterion, "ladder", ""), situation.protocol
    ladders = () if protocol is None else protocol.ladders
    return next((ladder for ladder in ladders if ladder.key == key), None)


def _newest_at(criterion: Criterion, situation: Situation) -> list[Work]:
    ladder, protocol = _ladder(criterion, situation), situation.protocol
    if ladder is None or protocol is None:
        return []
    return list(worked(situation.history, protocol, ladder))


def _passed(work: Work, situation: Situation, criterion: Criterion) -> bool:
    ladder, session = _ladder(criterion, situation), work.session
    if ladder is None or not 1 <= work.level <= len(ladder.levels):
        return False
    whole_dose = (work.sets or 0) >= ladder.levels[work.level - 1].sets
    calm = not SymptomLimit(ladder.symptom).trouble(session.symptom)
    return whole_dose and calm and not (work.faults or session.limp or session.painkiller)
