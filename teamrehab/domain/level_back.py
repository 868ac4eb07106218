"""Why the level of a ladder goes back or is repeated: two failures, and the mornings after."""

from datetime import date
from itertools import islice

from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.level_reasons import View
from teamrehab.domain.measures import Feeling
from teamrehab.domain.next_mornings import bad_mornings, review_words, was_clean
from teamrehab.domain.work import Work, hurts
from teamrehab.language import _


def failed_twice(view: View) -> str:
    """Return that the last two sessions at this level failed by symptom or form, or ""."""
    moves = [m.on for m in view.known.of(LevelMoved) if m.ladder == view.ladder.key]
    since = moves[-1] if moves else date.min
    works = reversed(view.works)
    here = (w for w in works if w.level == view.level and w.session.on >= since)
    failures = [_failure(view, work) for work in islice(here, 2)]
    if len(failures) < 2 or not all(failures):
        return ""
    now, before = failures
    sentence = (
        _("Failed twice in a row at level {level} ({before}; {now}): level {next} is proposed.")
        if view.level > 1
        else _("Failed twice in a row at level {level} ({before}; {now}), the lowest: stay.")
    )
    return view.said(sentence, before=before, now=now, next=view.level - 1)


def _failure(view: View, work: Work) -> str:
    """Return how a session failed by symptom or form, "" where it did not."""
    symptom = work.session.symptom
    if symptom is not None and symptom.feeling is Feeling.SHARP:
        return _("sharp symptom {score}").format(score=symptom.score)
    if symptom is not None and hurts(symptom, view.most):
        return view.said(_("symptom {score}, at most {most}"), score=symptom.score)
    return _("form: {faults}").format(faults=view.faults(work)) if work.faults else ""


def by_the_morning(view: View) -> tuple[int, str] | None:
    """Return the level proposed because of the mornings after earlier work, and why.

    After a bad one the last clean dose is repeated: this level if it was ever passed with a
    good morning after it, else the one below. After two in a row the work stops.
    """
    before = [work for work in view.works if work.session.on < view.today]
    bad = bad_mornings(view.known, view.mornings, before)
    if not bad:
        return None
    days = [(morning - view.known.case.on).days for morning in bad]
    if len(bad) > 1:
        return view.level, review_words(view.ladder, view.known, bad)
    if before[-1].level != view.level or was_clean(
        view.mornings, view.place, view.ladder, view.level, view.today
    ):
        sentence = _("The morning after was bad (day {on}): repeat level {level} once more.")
        return view.level, view.said(sentence, on=days[0])
    if view.level == 1:
        sentence = _("The morning after was bad (day {on}): repeat level 1, the lowest.")
        return 1, view.said(sentence, on=days[0])
    sentence = _(
        "The morning after was bad (day {on}) and level {level} was never passed with a good"
        " morning after it: level {next} is proposed."
    )
    return view.level - 1, view.said(sentence, on=days[0], next=view.level - 1)
