"""What the program proposes for the level of each ladder an athlete worked at.

The rules are common practice: a step up after one evening with every set done, in good form
and within the symptom allowed; a step down after two sessions that failed by symptom or form;
one step a day at most. A person decides.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import islice

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved
from teamrehab.domain.ladders import (
    Work,
    before_session,
    level_of,
    open_ladders,
    present_stage,
    reached,
    worked,
)
from teamrehab.domain.measures import Feeling, MorningResponse
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import felt
from teamrehab.domain.stops import stop_reasons
from teamrehab.language import _

__all__ = [
    "LevelProposal",
    "before_session",
    "level_of",
    "level_proposals",
    "open_ladders",
    "present_stage",
    "reached",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelProposal:
    """What is proposed for one ladder worked at today; ``reason`` is a sentence with numbers.

    ``proposed`` equals ``level`` where the athlete is to stay.
    """

    ladder: Ladder
    level: int
    proposed: int
    reason: str


def level_proposals(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> tuple[LevelProposal, ...]:
    """Return what is proposed for every open ladder worked at today, with its reason.

    Only what was known by ``today`` counts, and the order of the facts does not matter. The
    work of the newest session at a ladder counts, and the worst symptom of all of the day.
    """
    situation = situation_of(history, protocol, today, settings)
    known, stops = situation.history, stop_reasons(situation)
    views = (_view(known, protocol, ladder, stops) for ladder in open_ladders(known, protocol))
    found = (_proposal(view, today) for view in views)
    return tuple(each for each in found if each is not None)


@dataclass(frozen=True, slots=True)
class _View:
    """One ladder of a case; ``most`` is the symptom allowed in it in the present stage."""

    known: History
    protocol: Protocol
    ladder: Ladder
    level: int
    stage: int
    most: int
    stops: Sequence[str]

    def worked(self) -> Iterator[Work]:
        """Yield what the sessions did at the ladder, the newest first."""
        return worked(self.known, self.protocol, self.ladder)

    def said(self, sentence: str, **more: object) -> str:
        """Return a sentence with the level and the symptom allowed filled in."""
        return sentence.format(level=self.level, most=self.most, **more)

    def faults(self, work: Work) -> str:
        """Return the names of the faults seen."""
        names = {fault.key: fault.name for fault in self.protocol.faults}
        return ", ".join(names.get(key, key) for key in work.faults)


def _view(known: History, protocol: Protocol, ladder: Ladder, stops: Sequence[str]) -> _View:
    stage = present_stage(known, protocol)
    cap = protocol.stages[stage - 1].symptom
    most = ladder.symptom if cap is None else min(cap, ladder.symptom)
    return _View(known, protocol, ladder, level_of(known, ladder), stage, most, stops)


def _proposal(view: _View, today: date) -> LevelProposal | None:
    newest = next(view.worked(), None)
    if newest is None or newest.session.on != today:
        return None
    proposed, reason = _answer(view, newest)
    return LevelProposal(ladder=view.ladder, level=view.level, proposed=proposed, reason=reason)


def _answer(view: _View, work: Work) -> tuple[int, str]:
    """Return the level proposed and why."""
    held = next(_not_judged(view, work), "")
    if held:
        return view.level, held
    failed = _failed_twice(view)
    if failed:
        return max(view.level - 1, 1), failed
    reasons = (*_held_by_the_day(view, work), *_held_by_the_work(view, work))
    if reasons:
        return view.level, reasons[0]
    score = work.session.symptom.score if work.session.symptom else 0
    sentence = _(
        "All {sets} sets at level {level}, no form fault noted, symptom {score} (at most"
        " {most}): level {next} is proposed."
    )
    return view.level + 1, view.said(sentence, sets=work.sets, score=score, next=view.level + 1)


def _not_judged(view: _View, work: Work) -> Iterator[str]:
    """Yield why today's work says nothing about the present level."""
    moves = view.known.of(LevelMoved)
    if any(m.ladder == view.ladder.key and m.on == work.session.on for m in moves):
        yield view.said(_("Level {level} was decided today: one step a day at most."))
    if work.level != view.level:
        sentence = _("Worked at level {worked} today; level {level} is decided: stay.")
        yield view.said(sentence, worked=work.level)


def _held_by_the_day(view: _View, work: Work) -> Iterator[str]:
    """Yield what of today speaks against a step up, whatever was done."""
    today = [s for s in view.known.sessions if s.on == work.session.on]
    symptoms = [s.symptom for s in today if s.symptom is not None]
    worst = max((symptom.score for symptom in symptoms), default=0)
    yield from view.stops
    if work.session.symptom is None:
        yield view.said(_("No symptom was noted today: stay at level {level}."))
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        yield view.said(_("Sharp symptom today: stay at level {level}."))
    if worst > view.most:
        sentence = _("Symptom {score} today, at most {most} allowed: stay at level {level}.")
        yield view.said(sentence, score=worst)
    if any(session.limp for session in today):
        yield view.said(_("Limp today: stay at level {level}."))
    if _painkiller(view.known, work.session.on):
        yield view.said(_("Painkiller today, it can hide a symptom: stay at level {level}."))


def _painkiller(known: History, on: date) -> bool:
    """Return whether one was taken before a session, a test or the morning of a day."""
    entries = (*felt(known), *known.sessions, *known.of(MorningResponse))
    return any(entry.painkiller for entry in entries if entry.on == on)


def _held_by_the_work(view: _View, work: Work) -> Iterator[str]:
    """Yield what of the work itself speaks against a step up, and where the ladder ends."""
    planned = view.ladder.levels[view.level - 1].sets
    if work.faults:
        sentence = _("Form fault at level {level} ({faults}): stay.")
        yield view.said(sentence, faults=view.faults(work))
    if work.sets is None:
        yield view.said(_("Sets at level {level} were not counted: stay."))
    elif work.sets < planned:
        sentence = _("{done} of {planned} sets at level {level}: stay.")
        yield view.said(sentence, done=work.sets, planned=planned)
    if view.level == len(view.ladder.levels):
        yield view.said(
            _("Level {level} is the last one, all {sets} sets done: stay."), sets=planned
        )
    elif view.level >= view.ladder.opened_by(view.stage):
        sentence = _("Level {next} is opened by a later stage: stay at level {level}.")
        yield view.said(sentence, next=view.level + 1)


def _failed_twice(view: _View) -> str:
    """Return that the last two sessions at this level failed by symptom or form, or ""."""
    moves = [m.on for m in view.known.of(LevelMoved) if m.ladder == view.ladder.key]
    since = moves[-1] if moves else date.min
    here = (w for w in view.worked() if w.level == view.level and w.session.on >= since)
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


def _failure(view: _View, work: Work) -> str:
    """Return how a session failed by symptom or form, "" where it did not."""
    symptom = work.session.symptom
    if symptom is not None and symptom.feeling is Feeling.SHARP:
        return _("sharp symptom {score}").format(score=symptom.score)
    if symptom is not None and symptom.score > view.most:
        return view.said(_("symptom {score}, at most {most}"), score=symptom.score)
    return _("form: {faults}").format(faults=view.faults(work)) if work.faults else ""
