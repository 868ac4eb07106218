"""The end of an evening: what is proposed, and noting what a person decided."""

from dataclasses import replace
from datetime import date
from typing import Any

from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladders import level_of, present_stage
from teamrehab.domain.levels import level_proposals
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.language import _
from teamrehab.protocols import injury_catalogue
from teamrehab.records import Casebook, Receipt
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.reports.evening import evening_lines
from teamrehab.reports.proposing import evening_count, proposals
from teamrehab.reports.review import squad_rows
from teamrehab.reports.sheet import coach_sheet
from teamrehab.reports.taking_back import take_backs
from teamrehab.tasks import cases
from teamrehab.tasks.board import Board, protocol_of
from teamrehab.tasks.evening import sign_evening
from teamrehab.tasks.going_up import insist_may_go_up
from teamrehab.tasks.own_protocols import protocols_here
from teamrehab.tasks.refusals import RefusedError, insist


def evening_end(board: Board, day: date) -> tuple[tuple[Proposed, ...], EveningCount]:
    """Return what is proposed at the end of an evening, and how it stands (pure)."""
    protocols, catalogue = board.protocols, injury_catalogue()
    lines = evening_lines(board.squad, protocols, catalogue, day, board.now)
    sheet = coach_sheet(board.squad, board.rows, now=board.now)
    proposed = proposals(board.squad, protocols, catalogue, board.rows, day)
    return proposed, evening_count(lines, sheet)


def accept(
    casebook: Casebook, history: History, proposed: Proposed, confirmed: str = ""
) -> Receipt:
    """Note a proposal because a person decided so, if it is proposed still.

    ``history`` is the case the person saw. ``confirmed`` is the athlete's name as shown, or
    the athlete's id; a level needs none.

    Raises:
        RefusedError: a form is needed, the athlete was not confirmed, the case was changed
            meanwhile or has ended, or the program does not propose this any more.
    """
    if proposed.value is None:
        raise RefusedError(_("This takes a form: nothing was changed."))
    if proposed.needs_name and confirmed.strip() not in (proposed.athlete_id, proposed.name):
        sentence = _("Confirm that it is {name} first: nothing was changed.")
        raise RefusedError(sentence.format(name=proposed.name))
    ours = (proposed.case_id, proposed.athlete_id)
    if ours != (proposed.value.case_id, proposed.value.athlete_id):
        raise ValueError("a proposal is about one case of one athlete")
    known = _unchanged(casebook, history, proposed.value)
    _insist_on_open(known)
    if _goes_up(known, proposed.value):
        insist_may_go_up(casebook, known, proposed.value.on)
    if proposed.value not in _proposed_now(casebook, known, proposed):
        sentence = _("This is not proposed for {name} any more: look again, then decide.")
        raise RefusedError(sentence.format(name=known.athlete.name))
    return _decided(casebook, known, proposed)


def move_level(casebook: Casebook, history: History, moved: LevelMoved) -> Receipt:
    """Note the level an athlete works at from now on, because a person decided so.

    What was proposed is worked out here, whatever ``moved`` says of it. A step down is the
    safe direction: neither a red flag nor a stop hinders it.

    Raises:
        RefusedError: a higher level while a red flag is open or rehab is stopped, a case that
            has ended, a ladder or level that the protocol lacks or the stage has not opened.
        ImplausibleError: it goes against the proposal and no reason is given.
    """
    known = casebook.case(history.case.case_id)
    protocol, ladder = _ladder(known, moved)
    _insist_on_open(known)
    _insist_on_opened(known, protocol, ladder, moved)
    if _goes_up(known, moved):
        insist_may_go_up(casebook, known, moved.on)
    found = level_proposals(known, protocol, moved.on)
    said = (one.proposed for one in found if one.ladder == ladder)
    decided = replace(moved, proposed=next(said, level_of(known, ladder)))
    return _note_level(casebook, known, decided)


def sign(casebook: Casebook, day: date, count: EveningCount) -> Receipt:
    """Sign an evening as it stands, in the name of who is at the desk."""
    signed = EveningSigned(
        on=day,
        signed_by=casebook.me.name,
        entered=count.entered,
        missed=count.missed,
        open=len(count.open),
    )
    return sign_evening(casebook, signed)


def _decided(casebook: Casebook, history: History, proposed: Proposed) -> Receipt:
    value = proposed.value
    if isinstance(value, StageMoved):
        return cases.move_stage(casebook, history, value)
    if isinstance(value, AvailabilityStated):
        ahead = proposed.stopped
        return cases.state_availability(casebook, history, value, holds=ahead)
    if isinstance(value, LevelMoved):
        return _note_level(casebook, history, value)
    raise ValueError("only stages, levels and availability are accepted without a form")


def _note_level(casebook: Casebook, known: History, moved: LevelMoved) -> Receipt:
    insist(casebook.clock.today(), known, moved)
    return casebook.note(moved, why=moved.why)


def _proposed_now(casebook: Casebook, known: History, proposed: Proposed) -> list[Any]:
    """Return what the program proposes of one case as it stands, worked out afresh."""
    value, protocols, catalogue = proposed.value, protocols_here(casebook), injury_catalogue()
    squad = casebook.squad(casebook.clock.today())
    who = known.athlete.athlete_id
    own = replace(
        squad,
        athletes=tuple(one for one in squad.athletes if one.athlete_id == who),
        open_cases=squad.cases_of(who),
    )
    rows = squad_rows(own, protocols, catalogue, {}, squad.day)
    found = proposals(own, protocols, catalogue, rows, proposed.evening or value.on)
    back = take_backs(known, protocol_of(known), value.on)
    return [one.value for one in (*found, *(offer for _move, offer in back))]


def _goes_up(known: History, value: Any) -> bool:
    if isinstance(value, LevelMoved):
        return value.level > level_of(known, _ladder(known, value)[1])
    return isinstance(value, StageMoved) and value.stage > (known.stage or 1)


def _insist_on_open(known: History) -> None:
    """Raise RefusedError for a case that has ended, unless a red flag keeps it open."""
    if known.closed is not None and not known.open_red_flags:
        raise RefusedError(_("This case has ended: nothing is decided any more."))


def _insist_on_opened(
    known: History, protocol: Protocol, ladder: Ladder, moved: LevelMoved
) -> None:
    stage = present_stage(known, protocol)
    if not ladder.open_at(stage):
        sentence = _("{ladder} is not worked at in {stage}: no level of it is decided.")
    elif moved.level > ladder.opened_by(stage):
        sentence = _("{ladder}, level {level}, is opened by a later stage than {stage}.")
    else:
        return
    words = {"ladder": ladder.name, "level": moved.level}
    raise RefusedError(sentence.format(stage=protocol.stages[stage - 1].name, **words))


def _unchanged(casebook: Casebook, seen: History, value: Any) -> History:
    """Return the case as it stands; raises RefusedError if that was decided meanwhile."""
    now = casebook.case(seen.case.case_id)
    if _decided_so_far(now, value) != _decided_so_far(seen, value):
        raise RefusedError(
            _("Something was decided about {name} meanwhile: look again, then decide.").format(
                name=now.athlete.name
            )
        )
    return now


def _decided_so_far(history: History, value: Any) -> object:
    """Return what stands of what a value decides: another ladder is no matter of this one."""
    if isinstance(value, LevelMoved):
        return level_of(history, _ladder(history, value)[1])
    return history.of(type(value))


def _ladder(history: History, moved: LevelMoved) -> tuple[Protocol, Ladder]:
    protocol = protocol_of(history)
    ladders = () if protocol is None else protocol.ladders
    ladder = next((one for one in ladders if one.key == moved.ladder), None)
    if protocol is None or ladder is None or moved.level > len(ladder.levels):
        raise RefusedError(_("The protocol of this case has no such level."))
    return protocol, ladder
