"""When a symptom is not accepted silently, what is asked, and what the answers mean."""

from dataclasses import dataclass

from teamrehab.domain.injuries import Urgency


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """What the four answers mean: a red flag of an urgency, or None for stop and review.

    ``what`` words the red flag for the medical staff, ``sentence`` says what to do now.
    """

    urgency: Urgency | None
    what: str
    sentence: str
