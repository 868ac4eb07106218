"""What the program proposes for a case, with every reason as a value."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from teamrehab.domain.injuries import Side
from teamrehab.domain.protocol import Criterion, Passed


class Verdict(StrEnum):
    """How a criterion stands."""

    MET = "met"
    NOT_MET = "not met"
    DUE_AGAIN = "due again"
    NEVER_TESTED = "never tested"


class Proposal(StrEnum):
    """What the program proposes; a person decides."""

    MOVE_UP = "move up"
    STAY = "stay"
    READY_FOR_SIGN_OFF = "ready for sign-off"
    STOP_AND_REVIEW = "stop and review"


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """One number behind a verdict: what was measured, when, and how sure it is.

    ``error`` is the published minimal detectable change in the same unit.
    """

    measure: str
    on: date
    value: float | None
    unit: str = ""
    side: Side | None = None
    error: float | None = None
    error_source: str = ""
    test_id: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CriterionResult:
    """A criterion and how it stands.

    ``needed`` is the number asked for; ``inside_error`` says the gap to it is smaller than
    the error of the measure; ``remark`` is a plain sentence where one is due (height missing,
    painkiller taken, good leg lost strength). ``waits`` are the levels that come first: until
    they are passed it is not asked for, and nothing of it counts.
    """

    criterion: Criterion
    verdict: Verdict
    needed: float | None = None
    unit: str = ""
    evidence: tuple[Evidence, ...] = ()
    inside_error: bool = False
    remark: str = ""
    waits: tuple[Passed, ...] = ()

    @property
    def met(self) -> bool:
        """Return whether the criterion is met today."""
        return self.verdict is Verdict.MET


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """Where a case stands and what is proposed. Stages count from 1.

    ``held`` says in sentences what keeps it from going up though no criterion does; they
    stand among the ``cautions``, too.
    """

    stage: int
    stage_name: str
    stages: int
    proposal: Proposal
    criteria: tuple[CriterionResult, ...]
    proposed_stage: int
    next_name: str = ""
    cautions: tuple[str, ...] = ()
    held: tuple[str, ...] = ()

    @property
    def missing(self) -> tuple[CriterionResult, ...]:
        """Return the criteria that are not met today."""
        return tuple(result for result in self.criteria if not result.met)
