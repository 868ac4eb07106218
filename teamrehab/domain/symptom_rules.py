"""How much symptom a protocol allows in its work: the one place where that is worked out."""

from teamrehab.domain.guidance import KindOfWork, SymptomRule
from teamrehab.domain.measures import SessionKind
from teamrehab.domain.protocol import Ladder, Protocol
from teamrehab.domain.safety import HIGH


def rule_for(protocol: Protocol, work: KindOfWork | None, stage: int) -> SymptomRule | None:
    """Return the symptom rule for a kind of work in a stage (from 1); None without one.

    Of several the one of the latest stage counts that is open by then.
    """
    rules = (r for r in protocol.guidance.symptom_rules if r.work is work and r.stage <= stage)
    return max(rules, key=lambda rule: rule.stage, default=None)


def allowed(protocol: Protocol, work: Ladder | KindOfWork, stage: int) -> int:
    """Return the most symptom (0 to 10) allowed in a ladder or a kind of work in a stage.

    The least of the symptom rule for that kind of work, the limit of the ladder and the limit
    of the stage. A kind of work nobody set anything for allows less than what always stops.
    """
    number = min(max(stage, 1), len(protocol.stages))
    cap = protocol.stages[number - 1].symptom
    kind = work if isinstance(work, KindOfWork) else work.work
    rule = rule_for(protocol, kind, number)
    own = work.symptom if isinstance(work, Ladder) else None
    limits = [cap, own, None if rule is None else rule.most]
    said = [limit for limit in limits if limit is not None]
    if rule is None and own is None:
        said.append(HIGH - 1)
    return min(said)


def allowed_in_team(protocol: Protocol, kind: SessionKind, stage: int) -> int | None:
    """Return the most symptom allowed in a team session; None for a rehab session.

    What a rehab session allows depends on the ladders it was spent on.
    """
    if kind is SessionKind.REHAB:
        return None
    return allowed(protocol, KindOfWork.TEAM, stage)


def most_allowed(protocol: Protocol, stage: int) -> int:
    """Return the most symptom that any work open in a stage allows, team training included.

    A symptom above it was too much whatever was done that day.
    """
    ladders = [ladder for ladder in protocol.ladders if ladder.open_at(stage)]
    return max(allowed(protocol, work, stage) for work in (*ladders, *KindOfWork))
