"""The end of an evening: what is proposed, and noting what a person decided."""

from datetime import date
from typing import Any

from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.evenings import EveningSigned
from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladders import level_of
from teamrehab.domain.protocol import Ladder
from teamrehab.language import _
from teamrehab.protocols import injury_catalogue, load_protocols
from teamrehab.records import Casebook, Receipt
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.reports.evening import evening_lines
from teamrehab.reports.proposing import evening_count, proposals
from teamrehab.reports.sheet import coach_sheet
from teamrehab.tasks import cases
from teamrehab.tasks.board import Board, protocol_of
from teamrehab.tasks.evening import sign_evening
from teamrehab.tasks.refusals import RefusedError, insist


def evening_end(board: Board, day: date) -> tuple[tuple[Proposed, ...], EveningCount]:
    """Return what is proposed at the end of an evening, and how it stands (pure)."""
    protocols, catalogue = load_protocols(), injury_catalogue()
    lines = evening_lines(board.squad, protocols, catalogue, day, board.now)
    sheet = coach_sheet(board.squad, board.rows, now=board.now)
    proposed = proposals(board.squad, protocols, catalogue, board.rows, day)
    return proposed, evening_count(lines, sheet)


def accept(
    casebook: Casebook, history: History, proposed: Proposed, confirmed: str = ""
) -> Receipt:
    """Note a proposal because a person decided so.

    ``history`` is the case the person saw. ``confirmed`` is the athlete's name as shown, or
    the athlete's id; a level needs none.

    Raises:
        RefusedError: a form is needed, the athlete was not confirmed, the case was changed
            meanwhile, or a rule of the case stands against it (see ``cases``, ``move_level``).
    """
    if proposed.value is None:
        raise RefusedError(_("This takes a form: nothing was changed."))
    if proposed.needs_name and confirmed.strip() not in (proposed.athlete_id, proposed.name):
        sentence = _("Confirm that it is {name} first: nothing was changed.")
        raise RefusedError(sentence.format(name=proposed.name))
    ours = (proposed.case_id, proposed.athlete_id)
    if ours != (proposed.value.case_id, proposed.value.athlete_id):
        raise ValueError("a proposal is about one case of one athlete")
    return _decided(casebook, _unchanged(casebook, history, proposed.value), proposed)


def move_level(casebook: Casebook, history: History, moved: LevelMoved) -> Receipt:
    """Note the level an athlete works at from now on, because a person decided so.

    A step down is the safe direction: a red flag does not hinder it.

    Raises:
        RefusedError: a higher level while a red flag is open, a case that has ended, a ladder
            or level that the protocol does not have.
        ImplausibleError: it goes against the proposal and no reason is given.
    """
    ladder = _ladder(history, moved)
    if history.closed is not None:
        raise RefusedError(_("This case has ended: no level is decided any more."))
    if history.open_red_flags and moved.level > level_of(history, ladder):
        raise RefusedError(
            _("A red flag is open: no level goes up until a named doctor has closed it.")
        )
    insist(casebook.clock.today(), history, moved)
    return casebook.note(moved, why=moved.why)


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
        return cases.state_availability(casebook, history, value)
    if isinstance(value, LevelMoved):
        return move_level(casebook, history, value)
    raise ValueError("only stages, levels and availability are accepted without a form")


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
        return level_of(history, _ladder(history, value))
    return history.of(type(value))


def _ladder(history: History, moved: LevelMoved) -> Ladder:
    protocol = protocol_of(history)
    ladders = () if protocol is None else protocol.ladders
    ladder = next((one for one in ladders if one.key == moved.ladder), None)
    if ladder is None or moved.level > len(ladder.levels):
        raise RefusedError(_("The protocol of this case has no such level."))
    return ladder
