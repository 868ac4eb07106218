"""What the reader of a decision must bear in mind, whatever is proposed."""

from collections.abc import Sequence
from datetime import date

from teamrehab.domain.checks import judge
from teamrehab.domain.days import Fixture, days_to_match
from teamrehab.domain.decision import Verdict
from teamrehab.domain.early import early_cautions
from teamrehab.domain.history import History
from teamrehab.domain.injuries import StageMoved
from teamrehab.domain.mornings import Moved, provisional, turned_out_badly
from teamrehab.domain.protocol import Protocol
from teamrehab.domain.situation import Situation
from teamrehab.domain.stops import named
from teamrehab.language import _

_PAUSE = 14
"""Days without a session after which the work begins lower again (common practice)."""


def cautions(situation: Situation, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return the sentences beside a proposal, what concerns this case first."""
    return (
        *_move_cautions(situation, protocol),
        *_beside_cautions(situation),
        *_pause_cautions(situation),
        *early_cautions(situation, protocol, stage),
        *_override_cautions(situation, protocol, stage),
        *_emphasis(situation.history, protocol, stage),
        *_standing_cautions(situation, protocol, stage),
    )


def _move_cautions(situation: Situation, protocol: Protocol) -> tuple[str, ...]:
    """Return which moves up were answered badly, and which nothing has judged yet."""
    known, today = situation.history, situation.today
    bad = _("The leg answered {what}, opened on day {day}, badly: consider taking it back.")
    waits = _("{what}, opened on day {day}, is provisional until the next morning's response.")
    said = [(bad, move) for move in turned_out_badly(known, today, situation.alarm)]
    said += [(waits, move) for move in provisional(known, today, situation.alarm)]
    return tuple(
        words.format(what=_opened(move, protocol), day=(move.on - known.case.on).days)
        for words, move in said
    )


def _beside_cautions(situation: Situation) -> tuple[str, ...]:
    """Return that other cases of the athlete are open: their rules hold as well."""
    said = _("Another case of this athlete is open ({case}): its own limits hold too.")
    beside = situation.history.beside
    return tuple(said.format(case=named(other)) for other in beside)


def _pause_cautions(situation: Situation) -> tuple[str, ...]:
    """Return that nothing was done for long: what was lifted then is too much at first."""
    done = [session.on for session in situation.history.sessions]
    days = (situation.today - max(done)).days if done else 0
    if days < _PAUSE:
        return ()
    said = _(
        "No session for {days} days: begin a level lower and test again before going on"
        " (common practice)."
    )
    return (said.format(days=days),)


def _opened(move: Moved, protocol: Protocol) -> str:
    """Return the name of the stage, or of the level of a ladder, that was opened."""
    if isinstance(move, StageMoved):
        return protocol.stages[min(move.stage, len(protocol.stages)) - 1].name
    ladder = next((each for each in protocol.ladders if each.key == move.ladder), None)
    if ladder is None or move.level > len(ladder.levels):
        name = move.ladder if ladder is None else ladder.name
        return _("{ladder}, level {number}").format(ladder=name, number=move.level)
    return _("{ladder}, level {number} ({name})").format(
        ladder=ladder.name, number=move.level, name=ladder.levels[move.level - 1].name
    )


def _override_cautions(situation: Situation, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return that the stage was opened against the proposal, why, and what is still open."""
    moved = situation.history.last(StageMoved)
    if moved is None or moved.stage <= moved.proposed or moved.stage != stage:
        return ()
    said = _(
        "{stage} was opened against the proposal on day {day}: {why}. The likely return counts"
        " it as reached."
    ).format(
        stage=protocol.stages[stage - 1].name,
        day=(moved.on - situation.history.case.on).days,
        why=moved.why.strip().rstrip("."),
    )
    return (said, *passed_over(situation, protocol))


def passed_over(situation: Situation, protocol: Protocol) -> tuple[str, ...]:
    """Return what is open still of the gates that somebody opened against the proposal.

    An override in one week is no proposal of the program in the next: nobody is ready for
    sign-off before it was met once.
    """
    skipped = {
        number
        for moved in situation.history.of(StageMoved)
        for number in range(max(moved.proposed, 1), moved.stage)
    }
    gates = [c for n in sorted(skipped) if n < len(protocol.stages) for c in protocol.gate(n)]
    open_still = [
        criterion.sentence
        for criterion in {one.key: one for one in gates}.values()
        if judge(criterion, situation).verdict in (Verdict.NOT_MET, Verdict.NEVER_TESTED)
    ]
    if not open_still:
        return ()
    return (_("Still open from before: {criteria}.").format(criteria="; ".join(open_still)),)


def _emphasis(known: History, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return what weighs most for the muscle that is hurt, in the last stage."""
    muscle = "" if known.diagnosis is None else known.diagnosis.muscle
    if not muscle or stage < len(protocol.stages):
        return ()
    return tuple(i.sentence for i in protocol.guidance.checklist if i.muscle == muscle)


def match_day_caution(fixtures: Sequence[Fixture], today: date) -> str:
    """Return that nothing is tested to the limit today, the day before a match or its day.

    "" on every other day. Common practice.
    """
    if days_to_match(today, fixtures) not in (-1, 0):
        return ""
    return _("No maximal test today: MD-1 and MD are for the match. Test on another day.")


def _standing_cautions(situation: Situation, protocol: Protocol, stage: int) -> tuple[str, ...]:
    """Return what is to be borne in mind of the protocol and of the athlete."""
    known, young = situation.history, situation.minor
    caution = protocol.stages[stage - 1].caution
    said = [
        *version_cautions(known, protocol),
        *protocol.cautions,
        *([caution] if caution else []),
        *([_("Starter protocol: review before use.")] if protocol.starter else []),
        *(_young_cautions(protocol) if young else ()),
        _("The program proposes; the clinician decides."),
    ]
    return tuple(said)


def _young_cautions(protocol: Protocol) -> tuple[str, ...]:
    said = _("Under 18: numbers and likely returns of adults are not applied.")
    return (said, *protocol.cautions_under_18)


def version_cautions(known: History, protocol: Protocol) -> tuple[str, ...]:
    """Return that the criteria may not be those the case was started with."""
    chosen = known.protocol
    if chosen is None or (chosen.protocol, chosen.version) == (protocol.key, protocol.version):
        return ()
    said = _(
        "The case was started with version {chosen} of this protocol, the criteria below are"
        " those of version {shipped}: check what was agreed."
    )
    return (said.format(chosen=chosen.version, shipped=protocol.version),)
