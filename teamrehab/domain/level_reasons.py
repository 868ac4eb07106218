"""Why the level of a ladder stays where it is: sentences with their numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.holds import repeat_words
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladder_days import A_DAY, REST_BETWEEN, Place
from teamrehab.domain.measures import Feeling, MorningResponse, SessionMissed
from teamrehab.domain.mornings import Morning
from teamrehab.domain.protocol import Ladder
from teamrehab.domain.situation import felt
from teamrehab.domain.symptom_rules import allowed, allowed_in_team
from teamrehab.domain.work import Work
from teamrehab.language import _


@dataclass(frozen=True, slots=True)
class View:
    """One ladder of a case on a day; ``stops`` say why nothing goes up at all.

    ``mornings`` are those of the case. ``repeats``: today's load is the first since a stop.
    ``unsteady`` says how the symptom rose.
    """

    known: History
    place: Place
    ladder: Ladder
    today: date
    mornings: Mapping[date, Morning]
    stops: Sequence[str] = ()
    repeats: bool = False
    unsteady: Sequence[str] = ()

    @property
    def level(self) -> int:
        """Return the level that is decided."""
        return self.place.level(self.ladder)

    @property
    def most(self) -> int:
        """Return the symptom allowed in the ladder in the present stage."""
        return allowed(self.place.protocol, self.ladder, self.place.stage)

    @property
    def works(self) -> list[Work]:
        """Return what the sessions did at the ladder, oldest first."""
        return self.place.works[self.ladder.key]

    def said(self, sentence: str, **more: object) -> str:
        """Return a sentence with the level and the symptom allowed filled in."""
        return sentence.format(level=self.level, most=self.most, **more)

    def faults(self, work: Work) -> str:
        """Return the names of the faults seen."""
        names = {fault.key: fault.name for fault in self.place.protocol.faults}
        return ", ".join(names.get(key, key) for key in work.faults)


def not_judged(view: View, work: Work) -> Iterator[str]:
    """Yield why today's work says nothing about the present level."""
    moves = view.known.of(LevelMoved)
    if any(m.ladder == view.ladder.key and m.on == work.session.on for m in moves):
        yield view.said(_("Level {level} was decided today: one step a day at most."))
    if work.level != view.level:
        sentence = _("Worked at level {worked} today; level {level} is decided: stay.")
        yield view.said(sentence, worked=work.level)


def held_by_the_day(view: View) -> Iterator[str]:
    """Yield what of today speaks against a step up, whatever was done at the ladder."""
    yield from (*view.stops, *view.unsteady)
    if view.repeats:
        yield repeat_words()
    yield from _held_by_symptoms(view)
    today = [s for s in view.known.sessions if s.on == view.today]
    if any(session.limp for session in today):
        yield view.said(_("Limp today: stay at level {level}."))
    if _painkiller(view):
        yield view.said(_("Painkiller today, it can hide a symptom: stay at level {level}."))
    yield from (*unsettled_words(view), *other_version_words(view))


def _held_by_symptoms(view: View) -> Iterator[str]:
    today = [s for s in view.known.sessions if s.on == view.today]
    symptoms = [s.symptom for s in today if s.symptom is not None]
    worst = max((symptom.score for symptom in symptoms), default=0)
    if view.works[-1].session.symptom is None:
        yield view.said(_("No symptom was noted today: stay at level {level}."))
    if any(symptom.feeling is Feeling.SHARP for symptom in symptoms):
        yield view.said(_("Sharp symptom today: stay at level {level}."))
    if worst > view.most:
        sentence = _("Symptom {score} today, at most {most} allowed: stay at level {level}.")
        yield view.said(sentence, score=worst)
    strictest = min(_limits_of_the_day(view), default=view.most)
    if worst > strictest:
        sentence = _(
            "Symptom {score} today, and other work of today allows {least} at most; nobody can"
            " tell which work it came from: stay at level {level}."
        )
        yield view.said(sentence, score=worst, least=strictest)


def _limits_of_the_day(view: View) -> Iterator[int]:
    """Yield the symptom allowed in each ladder and team session of today."""
    place = view.place
    for ladder in place.protocol.ladders:
        works = place.works[ladder.key]
        if works and works[-1].session.on == view.today:
            yield allowed(place.protocol, ladder, place.stage)
    for session in view.known.sessions:
        if session.on == view.today:
            team = allowed_in_team(place.protocol, session.kind, place.stage)
            yield from () if team is None else (team,)


def _painkiller(view: View) -> bool:
    """Return whether one was taken before a session, a test or the morning of today."""
    known = view.known
    entries = (*felt(known), *known.sessions, *known.of(MorningResponse))
    return any(entry.painkiller for entry in entries if entry.on == view.today)


def unsettled_words(view: View) -> Iterator[str]:
    """Yield that two versions stand of something a step up rests on."""
    facts = view.known.facts
    days = [fact.value.on for fact in facts if fact.versions > 1 and _decides(fact.value)]
    if days:
        sentence = _(
            "Two versions of a session or a level of day {on} stand: say which one counts"
            " before anything goes up."
        )
        yield sentence.format(on=(max(days) - view.known.case.on).days)


def other_version_words(view: View) -> Iterator[str]:
    """Yield that the version the case follows is not at hand: by another nothing goes up."""
    chosen, protocol = view.known.protocol, view.place.protocol
    if chosen is None or (chosen.protocol, chosen.version) == (protocol.key, protocol.version):
        return
    sentence = _(
        "The case follows version {chosen}, which is not at hand: by version {here} nothing"
        " goes up."
    )
    yield sentence.format(chosen=chosen.version, here=protocol.version)


def _decides(value: object) -> bool:
    """Return whether a fact is one that a step up rests on."""
    moves = LevelMoved | StageMoved | SessionMissed
    return hasattr(value, "symptom") or isinstance(value, moves)


def held_by_the_work(view: View, work: Work) -> Iterator[str]:
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
    if _on_consecutive_days(view):
        sentence = _("{work} yesterday too, which is not for consecutive days: stay.")
        yield view.said(sentence, work=_(str(view.ladder.work)))
    yield from held_by_the_ladder(view)


def held_by_the_ladder(view: View) -> Iterator[str]:
    """Yield why the next level is not open, whatever was done: the end, a stage, another."""
    levels, next_level = view.ladder.levels, view.level + 1
    if view.level == len(levels):
        sentence = _("Level {level} is the last one, all {sets} sets done: stay.")
        yield view.said(sentence, sets=levels[-1].sets)
        return
    if view.level >= view.ladder.opened_by(view.place.stage):
        sentence = _("Level {next} is opened by a later stage: stay at level {level}.")
        yield view.said(sentence, next=next_level)
    for asked in view.place.waits_for(levels[view.level]):
        sentence = _("Level {next} waits: level {first} of {ladder} has to be passed first.")
        yield view.said(
            sentence, next=next_level, first=asked.level, ladder=view.place.name(asked.ladder)
        )


def _on_consecutive_days(view: View) -> bool:
    if view.ladder.work not in REST_BETWEEN:
        return False
    alike = [one for one in view.place.protocol.ladders if one.work is view.ladder.work]
    days = {work.session.on for one in alike for work in view.place.works[one.key]}
    return view.today - A_DAY in days
