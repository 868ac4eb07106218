"""What is allowed in training sooner than is common at the phase a case has reached."""

from collections.abc import Iterable

from teamrehab.domain.availability import Activity, Limit, Training

COMMON_FROM = {
    Activity.PACE: 4,
    Activity.SPRINT: 4,
    Activity.CHANGE_OF_DIRECTION: 5,
    Activity.JUMP: 3,
    Activity.CONTACT: 5,
}
"""The phase (1 to 5) from which an activity is commonly open (common practice).

What is not named here is no question of the phase.
"""


def allowed_early(
    training: Training | None, limits: Iterable[Limit], phase: int
) -> tuple[Activity, ...]:
    """Return what is allowed, as usual or up to a cap, though ``phase`` is commonly too early.

    Full training allows everything; none, or no answer yet, allows nothing. This warns, it
    never refuses: how far a stage goes is the clinician's decision.
    """
    if training is None or training is Training.NONE:
        return ()
    held = training is Training.WITH_LIMITS
    closed = {limit.activity for limit in limits if held and limit.at_most is None}
    return tuple(
        activity
        for activity, opens in COMMON_FROM.items()
        if phase < opens and activity not in closed
    )
