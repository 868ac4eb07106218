"""What the program proposes for the level of each ladder an athlete worked at.

The rules are common practice: a step up after one evening with every set done, in good form
and within the symptom allowed; a step down after two sessions that failed by symptom or form;
a repeat after a bad morning; one step a day and one ladder up at most. A person decides.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from teamrehab.domain.deciding import situation_of
from teamrehab.domain.goes_first import goes_first, why_first
from teamrehab.domain.history import History
from teamrehab.domain.holds import not_steady, stopped_beside
from teamrehab.domain.ladder_days import walk
from teamrehab.domain.ladders import (
    before_session,
    level_of,
    open_ladders,
    present_stage,
    reached,
)
from teamrehab.domain.level_back import by_the_morning, failed_twice
from teamrehab.domain.level_reasons import (
    View,
    held_by_the_day,
    held_by_the_work,
    not_judged,
)
from teamrehab.domain.mornings import mornings_of
from teamrehab.domain.one_change import changed_today
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.stops import repeats_first, stop_reasons
from teamrehab.domain.work import Work, hurts
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
    """Return what is proposed for every ladder of the stage worked at today, with its reason.

    Only what was known by ``today`` counts, and the order of the facts does not matter. The
    work of the newest session at a ladder counts, and the worst symptom of all of the day. At
    most one ladder goes up (see ``goes_first``); the others say which and why.
    """
    return proposals_of(views_of(history, protocol, today, settings), settings)


def proposals_of(
    views: Sequence[View], settings: ClubSettings | None = None
) -> tuple[LevelProposal, ...]:
    """Return the same from the views of a case on a day."""
    found = [_proposal(view) for view in views if _worked_today(view)]
    if not any(one.proposed > one.level for one in found):
        return tuple(found)
    return tuple(_one_change(views, found, settings))


def views_of(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> tuple[View, ...]:
    """Return how each ladder of the present stage stands on a day, in the protocol's order."""
    situation = situation_of(history, protocol, today, settings)
    known = situation.history
    stops = (*stop_reasons(situation), *stopped_beside(situation))
    unsteady, mornings = tuple(not_steady(situation)), mornings_of(known)
    place, repeats = walk(known, protocol), not stops and repeats_first(situation)
    return tuple(
        View(known, place, ladder, today, mornings, stops, repeats, unsteady)
        for ladder in protocol.ladders
        if ladder.open_at(place.stage)
    )


def _worked_today(view: View) -> bool:
    return bool(view.works) and view.works[-1].session.on == view.today


def _proposal(view: View) -> LevelProposal:
    proposed, reason = _answer(view, view.works[-1])
    return LevelProposal(ladder=view.ladder, level=view.level, proposed=proposed, reason=reason)


def _answer(view: View, work: Work) -> tuple[int, str]:
    """Return the level proposed and why, as if it were the only ladder."""
    held = next(not_judged(view, work), "")
    if held:
        return view.level, held
    failed = failed_twice(view)
    if failed:
        return max(view.level - 1, 1), failed
    morning = by_the_morning(view)
    if morning is not None:
        return morning
    reasons = (*held_by_the_day(view), *held_by_the_work(view, work))
    if reasons:
        return view.level, _with_the_way_back(view, work, reasons[0])
    score = work.session.symptom.score if work.session.symptom else 0
    sentence = _(
        "All {sets} sets at level {level}, no form fault noted, symptom {score} (at most"
        " {most}): level {next} is proposed; until it is accepted level {level} goes on."
    )
    return view.level + 1, view.said(sentence, sets=work.sets, score=score, next=view.level + 1)


def _with_the_way_back(view: View, work: Work, reason: str) -> str:
    """Return a reason, and what takes the place of a first level that hurt."""
    place = view.place
    way = next((one for one in place.ways if one.back(place.stage)), None)
    at = None if way is None else way.place_of(view.ladder.key)
    if way is None or at is None or not hurts(work.session.symptom, view.most) or at <= way.top:
        return reason
    said = _("{reason} Next time {easier} instead, until that is tolerated.")
    return said.format(reason=reason, easier=way.ladders[way.top].name)


def _one_change(
    views: Sequence[View], found: Sequence[LevelProposal], settings: ClubSettings | None
) -> Iterable[LevelProposal]:
    """Yield the proposals with one step up at most, and none beside another change."""
    view = views[0]
    protocol = view.place.protocol
    back = next((one for one in found if one.proposed < one.level), None)
    held = changed_today(view.known, protocol, view.today, settings)
    if back is not None:
        said = _("Level {level} of {ladder} is proposed, a step back: one change at a time.")
        held = said.format(level=back.proposed, ladder=back.ladder.name)
    first = goes_first(view.place, [one.ladder for one in found if one.proposed > one.level])
    for one in found:
        waits = one.proposed > one.level and (held or one.ladder != first)
        yield _waiting(one, held or why_first(view.place, first, one.ladder)) if waits else one


def _waiting(one: LevelProposal, why: str) -> LevelProposal:
    said = _("Level {level} was passed. {why} Stay.")
    return replace(one, proposed=one.level, reason=said.format(level=one.level, why=why))
