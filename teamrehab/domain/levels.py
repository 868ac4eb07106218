"""At which level of each ladder an athlete works, and what the program proposes."""

from dataclasses import dataclass

from teamrehab.domain.protocol import Ladder


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelProposal:
    """What is proposed for one ladder worked at today; ``reason`` is a sentence with numbers.

    ``proposed`` equals ``level`` where the athlete is to stay.
    """

    ladder: Ladder
    level: int
    proposed: int
    reason: str
