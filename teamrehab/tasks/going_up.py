"""What keeps a case from going up, whoever decides and wherever: nothing is written then."""

from collections.abc import Collection
from dataclasses import replace
from datetime import date
from typing import Any

from teamrehab.domain.deciding import decide, situation_of, stops_since
from teamrehab.domain.history import History, Standing
from teamrehab.domain.holds import stopped_beside
from teamrehab.domain.injuries import Clearance, LevelMoved, ProtocolChosen, RedFlag, StageMoved
from teamrehab.domain.signing import open_for
from teamrehab.domain.stops import unspoken
from teamrehab.language import _
from teamrehab.records import Casebook
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import RefusedError


def insist_may_go_up(casebook: Casebook, known: History, on: date) -> None:
    """Raise RefusedError where rehab was stopped on the day of a move, or is stopped today.

    ``known`` is the case as it stands. A step down is the safe direction: never ask for one.
    """
    if open_flags(known):
        raise RefusedError(
            _("A red flag is open: nothing goes up until a named doctor has closed it.")
        )
    stops = stops_since(known, protocol_of(known), on, casebook.clock.today())
    if stops:
        sentence = _("Rehab is stopped, so nothing goes up. {why}")
        raise RefusedError(sentence.format(why=" ".join(stops)))


def insist_goes_no_higher(
    casebook: Casebook, fact_ids: Collection[str], values: Collection[Any]
) -> None:
    """Raise RefusedError where taking facts back would open more that nobody may open.

    ``values`` are what the facts say. A step back that is taken back is a move up, and asks no
    less than one; and what was opened under another protocol is opened anew, not brought back.
    """
    chosen_anew = any(isinstance(value, ProtocolChosen) for value in values)
    moves = [value for value in values if isinstance(value, StageMoved | LevelMoved)]
    for case_id in {moved.case_id for moved in moves}:
        known = casebook.case(case_id)
        left = tuple(fact for fact in known.facts if fact.fact_id not in fact_ids)
        without = replace(known, facts=left)
        higher = [m for m in moves if _height(without, m) > _height(known, m)]
        if higher:
            insist_may_go_up(casebook, known, casebook.clock.today())
        if higher and not chosen_anew:
            _insist_on_own_moves(known, without, higher)


def _insist_on_own_moves(
    known: History, without: History, higher: Collection[StageMoved | LevelMoved]
) -> None:
    """Raise RefusedError where a move would count again that the protocol did not ask for."""
    choice = max((fact.stamp for fact in known.standing(ProtocolChosen)), default="")
    again = [fact for moved in higher for fact in _alike(without, moved)[-1:]]
    if any(fact.stamp < choice for fact in again):
        raise RefusedError(
            _(
                "What would stand again was opened before this protocol was chosen: open it"
                " anew instead."
            )
        )


def _alike(known: History, moved: StageMoved | LevelMoved) -> list[Standing[Any]]:
    """Return the moves of the same stage path or ladder, oldest first."""
    if isinstance(moved, StageMoved):
        return list(known.standing(StageMoved))
    return [f for f in known.standing(LevelMoved) if f.value.ladder == moved.ladder]


def _height(known: History, moved: StageMoved | LevelMoved) -> int:
    """Return the stage, or the level of the ladder, that a case stands at."""
    if isinstance(moved, StageMoved):
        return known.stage or 1
    levels = [m.level for m in known.of(LevelMoved) if m.ladder == moved.ladder]
    return levels[-1] if levels else 1


def insist_may_end(
    casebook: Casebook, known: History, on: date, why: str | None = None
) -> None:
    """Raise RefusedError where a case is cleared beside a stop, or closed without a reason.

    An open red flag, that of another case of the athlete too, is no matter of reasons, and
    neither is a clearance (``why`` None): the leg is examined first, which lifts the stop. A
    case that ends otherwise needs the reason.
    """
    if open_flags(known):
        raise RefusedError(
            _(
                "A red flag is open: nobody is cleared and no case is closed until a named"
                " doctor has closed it. Close the red flag first."
            )
        )
    today = casebook.clock.today()
    known_now = situation_of(known, protocol_of(known), today)
    if any(unspoken(known_now)):
        sentence = _("A red flag was seen and none is noted: note it first. {why}")
        raise RefusedError(sentence.format(why=" ".join(unspoken(known_now))))
    stops = (*stops_since(known, protocol_of(known), on, today), *stopped_beside(known_now))
    if stops and why is None:
        sentence = _("Rehab is stopped, so nobody is cleared: examine the leg first. {why}")
        raise RefusedError(sentence.format(why=" ".join(stops)))
    if stops and not (why or "").strip():
        sentence = _("Rehab is stopped. {why} To close all the same, type the reason.")
        raise RefusedError(sentence.format(why=" ".join(stops)))


def insist_ready(known: History, clearance: Clearance, why: str) -> None:
    """Raise RefusedError where a clearance goes against the proposal and no reason is given."""
    protocol = protocol_of(known)
    if protocol is None or why.strip():
        return
    decision = decide(known, protocol, clearance.on)
    missing = open_for(clearance.scope, decision, protocol)
    if missing or decision.held:
        sentence = _(
            "{stage}: criteria are open ({open} of {all}), so the program does not propose to"
            " sign. {held} To sign all the same, type the reason."
        )
        words = {"open": len(missing), "all": len(decision.criteria)}
        held = " ".join(decision.held)
        raise RefusedError(sentence.format(stage=decision.stage_name, held=held, **words))


def open_flags(known: History) -> tuple[RedFlag, ...]:
    """Return the red flags of an athlete that no doctor has closed, of whichever case."""
    beside = (flag for other in known.beside for flag in other.open_red_flags)
    return (*known.open_red_flags, *beside)
