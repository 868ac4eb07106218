"""Never two changes at once: of one evening one ladder goes up, and none with a stage."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from teamrehab.domain.checks import judge
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, StageMoved
from teamrehab.domain.ladders import present_stage
from teamrehab.domain.measures import Symptom
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.settings import ClubSettings
from teamrehab.domain.situation import Situation
from teamrehab.language import _


def changed_today(
    known: History, protocol: Protocol, today: date, settings: ClubSettings | None = None
) -> str:
    """Return which change of today lets no ladder go up beside it, or "".

    Asked where nothing stops or holds the case: whether a stage may open is its gate alone.

    A stage or a level decided today, in another case of the athlete too, and a stage that is
    proposed. One that only today's symptom keeps from being proposed counts as well: else
    more symptom would let a ladder go up.
    """
    for history in (known, *known.beside):
        found = next(_decided(history, protocol, today), "")
        if found:
            return found
    if _stage_may_open(situation_of(known, protocol, today, settings), protocol):
        return _("A stage is proposed today: one change at a time.")
    calm = situation_of(_calm_on(known, today), protocol, today, settings)
    if _stage_may_open(calm, protocol):
        return _("Only today's symptom keeps the next stage from being proposed: stay.")
    return ""


def _stage_may_open(situation: Situation, protocol: Protocol) -> bool:
    """Return whether every criterion of the next stage is met; after the last there is none."""
    stage = present_stage(situation.history, protocol)
    gate = protocol.gate(stage)
    if stage == len(protocol.stages) or not gate:
        return False
    return all(judge(criterion, situation).met for criterion in gate)


def _decided(history: History, protocol: Protocol, today: date) -> Iterator[str]:
    if any(moved.on == today for moved in history.of(StageMoved)):
        yield _("A stage was decided today: one change at a time.")
    names = {ladder.key: ladder.name for ladder in protocol.ladders}
    for moved in history.of(LevelMoved):
        if moved.on == today:
            said = _("Level {level} of {ladder} was decided today: one change at a time.")
            yield said.format(level=moved.level, ladder=names.get(moved.ladder, moved.ladder))


def _calm_on(known: History, today: date) -> History:
    """Return the same case as it would be if nothing had been felt today."""
    facts = (
        replace(fact, value=replace(fact.value, symptom=Symptom(0)))
        if fact.value.on == today and getattr(fact.value, "symptom", None) is not None
        else fact
        for fact in known.facts
    )
    return replace(known, facts=tuple(facts))
