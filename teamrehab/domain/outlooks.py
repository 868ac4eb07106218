"""For each ladder: what would have to happen to move up, and on which day at the earliest.

The day is a bound, never a forecast: it holds if all that is asked for passes from now on.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.holds import repeat_words
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladder_days import A_DAY, is_session_of
from teamrehab.domain.level_reasons import (
    View,
    other_version_words,
    unsettled_words,
)
from teamrehab.domain.levels import LevelProposal, proposals_of, views_of
from teamrehab.domain.mornings import provisional
from teamrehab.domain.next_mornings import bad_mornings, review_words
from teamrehab.domain.protocol import Ladder, Passed, Protocol
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import felt
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class LadderOutlook:
    """How a ladder goes on: ``needs`` say what has to come true, and what may still undo it.

    ``next_name`` says what is done at the next level, "" at the last one; ``earliest`` is the
    first evening on which the next level can be proposed, None where nobody can say.
    """

    ladder: Ladder
    level: int
    next_name: str
    needs: tuple[str, ...]
    earliest: date | None


def ladder_outlooks(
    history: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> tuple[LadderOutlook, ...]:
    """Return what each ladder of the present stage needs to go up, in the protocol's order.

    Easier work that is not needed any more has none. Only what was known by ``today`` counts.
    """
    views = views_of(history, protocol, today, settings)
    proposed = {one.ladder.key: one for one in proposals_of(views, settings)}
    moves = provisional(views[0].known, today) if views else ()
    waiting = {move.ladder for move in moves if isinstance(move, LevelMoved)}
    by_key = {view.ladder.key: view for view in views}
    ended = {key for view in views for way in view.place.ways for key in way.ended}
    return tuple(
        _outlook(view, proposed.get(view.ladder.key), by_key, waiting)
        for view in views
        if view.ladder.key not in ended
    )


def _outlook(
    view: View,
    proposal: LevelProposal | None,
    views: Mapping[str, View],
    waiting: Collection[str],
) -> LadderOutlook:
    """Return how a ladder goes on; ``waiting`` are those whose step a morning still judges."""
    levels = view.ladder.levels
    last = view.level == len(levels)
    up = proposal is not None and proposal.proposed > view.level
    needs: tuple[str, ...]
    earliest: date | None
    if proposal is not None and up:
        needs, earliest = (proposal.reason,), view.today
    elif last:
        needs, earliest = (), None
    else:
        bad = bad_mornings(view.known, view.mornings, view.works)
        provisional_step = view.ladder.key in waiting
        needs = tuple(_needs(view, proposal, bad, provisional=provisional_step))
        earliest = _earliest(view, views, bad)
    return LadderOutlook(
        ladder=view.ladder,
        level=view.level,
        next_name="" if last else levels[view.level].name,
        needs=needs,
        earliest=earliest,
    )


def _needs(
    view: View, proposal: LevelProposal | None, bad: Sequence[date], *, provisional: bool
) -> Iterator[str]:
    """Yield what has to come true before the next level is proposed."""
    yield from (*view.stops, *view.unsteady)
    if view.repeats:
        yield repeat_words()
    yield from (*unsettled_words(view), *other_version_words(view))
    opened = view.ladder.levels[view.level].stage
    if opened is not None and opened > view.place.stage:
        stage = view.place.protocol.stages[opened - 1].name
        yield _("{stage} is opened.").format(stage=stage)
    for asked in _asked(view):
        said = _("Level {level} of {ladder} is passed.")
        yield said.format(level=asked.level, ladder=view.place.name(asked.ladder))
    if provisional:
        said = _("The step to level {level} is provisional: the next morning still judges it.")
        yield said.format(level=view.level)
    if len(bad) > 1:
        yield review_words(view.ladder, view.known, bad)
    elif bad:
        yield view.said(_("Level {level} is repeated once, with a good morning after it."))
    elif proposal is not None and proposal.proposed == view.level:
        yield proposal.reason
    yield _one_session(view)


def _one_session(view: View) -> str:
    level = view.ladder.levels[view.level - 1]
    said = _(
        "A session at level {level}: all {sets} x {dose}, no form fault, symptom {most} at"
        " most, no limp, no painkiller."
    )
    return view.said(said, sets=level.sets, dose=level.dose)


def _asked(view: View) -> tuple[Passed, ...]:
    """Return what the next level waits for, and what the ladder waits for to be begun."""
    levels, place = view.ladder.levels, view.place
    begun = () if place.begun(view.ladder) else place.waits_for(levels[0])
    return tuple(dict.fromkeys((*begun, *place.waits_for(levels[view.level]))))


def _earliest(view: View, views: Mapping[str, View], bad: Sequence[date]) -> date | None:
    """Return the first evening on which the next level can be proposed."""
    later = view.level >= view.ladder.opened_by(view.place.stage)
    unsettled = (*unsettled_words(view), *other_version_words(view))
    if view.stops or later or len(bad) > 1 or unsettled:
        return None
    day = _next_session(view)
    loaded_today = any(entry.on == view.today for entry in felt(view.known))
    if bad or (view.repeats and not loaded_today):
        day += 2 * A_DAY if view.place.rests(view.ladder.work, day + A_DAY) else A_DAY
    passing = [_passing(views.get(asked.ladder), asked) for asked in _asked(view)]
    days = [one for one in passing if one is not None]
    return None if len(days) < len(passing) else max([day, *days])


def _passing(view: View | None, asked: Passed) -> date | None:
    """Return the first day on which a level can be passed: one level a session, one a day."""
    if view is None or view.ladder.opened_by(view.place.stage) < asked.level:
        return None
    if view.place.waits_for(view.ladder.levels[asked.level - 1]):
        return None
    return _next_session(view) + max(asked.level - view.level, 0) * A_DAY


def _next_session(view: View) -> date:
    """Return the next day on which the ladder can be worked at and judged."""
    facts = [fact.value for fact in view.known.facts]
    noted = any(is_session_of(value, view.today) for value in facts)
    moved = any(
        isinstance(value, LevelMoved | StageMoved) and value.on == view.today for value in facts
    )
    day = view.today + A_DAY if noted or moved else view.today
    return day + A_DAY if view.place.rests(view.ladder.work, day) else day
