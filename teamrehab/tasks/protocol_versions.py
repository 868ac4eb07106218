"""Moving a case to another version of the protocol it follows: a person's decision."""

from collections.abc import Iterator, Mapping
from datetime import date

from teamrehab.domain.history import History
from teamrehab.domain.injuries import LevelMoved, ProtocolChosen, StageMoved
from teamrehab.domain.ladders import level_of, present_stage
from teamrehab.domain.protocol import Ladder, Protocol, followed
from teamrehab.language import _
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.refusals import RefusedError, insist


def newer_version(history: History, protocols: Mapping[str, Protocol]) -> Protocol | None:
    """Return the newest version of what a case follows, None where it follows that already."""
    chosen = history.protocol
    newest = None if chosen is None else protocols.get(chosen.protocol)
    if chosen is None or newest is None or newest.version == chosen.version:
        return None
    return newest


def move_to_version(
    casebook: Casebook,
    history: History,
    version: str,
    why: str,
    protocols: Mapping[str, Protocol],
) -> Receipt:
    """Note that a case follows another version of its protocol from today on, and why.

    ``protocols`` are those at hand. The stage stays or goes back, never on: to the stage of the
    same name, or to an earlier one where that is missing or asks for less before it. A level
    stays where its ladder is the same up to it.

    Raises:
        RefusedError: the case has ended or follows no protocol, follows that version already,
            the version is not at hand, or no reason is given.
    """
    known = casebook.case(history.case.case_id)
    old = followed(known, protocols).protocol
    if known.closed is not None or old is None or known.protocol is None:
        raise RefusedError(_("Only an open case that follows a protocol is moved to another."))
    if not why.strip():
        raise RefusedError(_("Type why the case is moved to another version of its protocol."))
    new = _at_hand(known.protocol, version, protocols[known.protocol.protocol])
    today = casebook.clock.today()
    ids = {"case_id": known.case.case_id, "athlete_id": known.case.athlete_id}
    chosen = ProtocolChosen(**ids, on=today, protocol=new.key, version=new.version)
    insist(today, known, chosen)
    return casebook.note(chosen, *_going_back(known, chosen, old, new), why=why.strip())


def _at_hand(chosen: ProtocolChosen, version: str, newest: Protocol) -> Protocol:
    here = {one.version: one for one in (newest, *newest.earlier)}
    if version == chosen.version:
        said = _("The case follows version {version} already: nothing was changed.")
        raise RefusedError(said.format(version=version))
    if version not in here:
        said = _("Version {version} of {name} is not at hand. There are: {here}.")
        words = {"version": version, "name": newest.name, "here": ", ".join(here)}
        raise RefusedError(said.format(**words))
    return here[version]


def _going_back(
    known: History, chosen: ProtocolChosen, old: Protocol, new: Protocol
) -> Iterator[StageMoved | LevelMoved]:
    """Yield the steps back that the other version means: what it cannot carry."""
    ids = {"case_id": chosen.case_id, "athlete_id": chosen.athlete_id}
    why = _("Version {version} of the protocol goes no further with what was opened.").format(
        version=new.version
    )
    moves = known.of(StageMoved) + known.of(LevelMoved)
    on = max([chosen.on, *(moved.on for moved in moves)])
    stage = _stage_in(new, old, present_stage(known, old))
    if stage < (known.stage or 1):
        yield StageMoved(**ids, on=on, stage=stage, proposed=stage, why=why)
    before = {ladder.key: ladder for ladder in old.ladders}
    for ladder in new.ladders:
        level = level_of(known, before.get(ladder.key, ladder))
        same = _same_up_to(before.get(ladder.key), ladder)
        kept = min(level, same, ladder.opened_by(stage))
        if kept < level:
            yield LevelMoved(
                **ids, on=on, ladder=ladder.key, level=kept, proposed=kept, why=why
            )


def _stage_in(new: Protocol, old: Protocol, stage: int) -> int:
    """Return the stage of ``new`` that stands for ``stage`` of ``old``: never a later one.

    Without a stage of that name it is the last of its number or before that is no later in the
    course of the healing (see ``Stage.phase``).
    """
    open_now = old.stages[stage - 1]
    names = [one.name for one in new.stages]
    same = names.index(open_now.name) + 1 if open_now.name in names else stage
    reached = min(same, stage, len(names))
    while reached > 1 and new.stages[reached - 1].phase > open_now.phase:
        reached -= 1
    return reached


def _same_up_to(old: Ladder | None, new: Ladder) -> int:
    """Return up to which level two ladders ask for the same work, 1 at least."""
    steps = zip(old.levels if old else (), new.levels, strict=False)
    same = 0
    for before, after in steps:
        if before.name != after.name:
            break
        same += 1
    return max(same, 1)


def from_the_start(
    known: History, protocol: Protocol, day: date
) -> Iterator[StageMoved | LevelMoved]:
    """Yield the steps back that another protocol means: it begins at its first stage.

    Two protocols may name a ladder alike and mean other work by it.
    """
    ids = {"case_id": known.case.case_id, "athlete_id": known.case.athlete_id}
    why = _("Another protocol was chosen: it begins at its first stage.")
    moves = known.of(StageMoved) + known.of(LevelMoved)
    on = max([day, *(moved.on for moved in moves)])
    if (known.stage or 1) > 1:
        yield StageMoved(**ids, on=on, stage=1, proposed=1, why=why)
    decided = {moved.ladder: moved.level for moved in known.of(LevelMoved)}
    for ladder in protocol.ladders:
        if decided.get(ladder.key, 1) > 1:
            yield LevelMoved(**ids, on=on, ladder=ladder.key, level=1, proposed=1, why=why)
