"""What a red flag asks for at once, and what it means until a doctor has closed it."""

from teamrehab.domain.injuries import Urgency
from teamrehab.language import _


def what_to_do(urgency: Urgency) -> str:
    """Return what is done now (common practice)."""
    if urgency is Urgency.EMERGENCY:
        return _(
            "Emergency: call emergency medical care now and stay with the athlete. Do not move "
            "on to anything else before."
        )
    return _("A doctor sees the athlete today: reach one now, and say what was seen.")


def meanwhile_words() -> str:
    """Return what holds from the moment it is raised."""
    return _("not available, and no loading, until a named doctor closes it.")
