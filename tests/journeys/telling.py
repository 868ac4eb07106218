"""How a case ends, and how long each stage took: printed, so that it can be read."""

from itertools import pairwise

from teamrehab.domain.availability import Match
from teamrehab.domain.decision import Proposal
from teamrehab.domain.injuries import StageMoved
from tests.journeys.story import Story


def per_stage(story: Story) -> dict[str, int]:
    """Return how many days each stage lasted, until today."""
    moves = [(moved.on, moved.stage) for moved in story.known.of(StageMoved)]
    steps = [(story.onset, 1), *moves, (story.date, 0)]
    lasted = {stage.name: 0 for stage in story.protocol.stages}
    for (since, stage), (until, _next) in pairwise(steps):
        lasted[story.protocol.stages[stage - 1].name] += (until - since).days
    return lasted


def tells(story: Story, name: str, days: range) -> None:
    """Sign a case that is ready, and print how long each stage took."""
    assert story.decision.proposal is Proposal.READY_FOR_SIGN_OFF
    stages = ", ".join(f"{stage} {count}" for stage, count in per_stage(story).items())
    print(f"\n{name}: {story.today} days ({stages})")
    story.signs()
    closed = story.known.closed
    assert closed is not None
    assert closed.on == story.date
    if not story.row.other_cases and not story.row.case_id:
        assert story.row.match is Match.AVAILABLE
    assert story.today in days
