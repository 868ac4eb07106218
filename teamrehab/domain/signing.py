"""What a clearance asks of a case before it may be signed without a reason."""

from teamrehab.domain.decision import CriterionResult, Decision
from teamrehab.domain.injuries import Scope
from teamrehab.domain.protocol import Protocol


def open_for(
    scope: Scope, decision: Decision, protocol: Protocol
) -> tuple[CriterionResult, ...]:
    """Return the criteria that are open for a clearance of that scope; empty: it is proposed.

    Full team training asks for what leaves the last stage (a clean session with limits); a
    match, with a limit too, asks for all that sign-off does. In an earlier stage it is the gate
    ahead that is open, whatever stands of it.
    """
    last = decision.stage == decision.stages
    if last and scope is Scope.TEAM_TRAINING:
        leaving = protocol.stages[-1].exit
        return tuple(one for one in decision.missing if one.criterion in leaving)
    return decision.missing if last else (decision.missing or decision.criteria)
