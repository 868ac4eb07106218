"""What a task answers when it cannot be done: sentences, and nothing written."""

from collections.abc import Sequence
from datetime import date
from typing import Any

from teamrehab.domain.history import History
from teamrehab.domain.plausibility import Implausible, check


class RefusedError(Exception):
    """The task was not done; its message is fit to be shown."""


class ImplausibleError(RefusedError):
    """Something typed cannot stand; ``found`` names every field."""

    def __init__(self, found: Sequence[Implausible]) -> None:
        self.found = tuple(found)
        super().__init__("\n".join(str(one) for one in found))


def insist(today: date, history: History | None, *values: Any) -> None:
    """Raise ImplausibleError with everything that is wrong with these values."""
    found = [one for value in values for one in check(value, today, history)]
    if found:
        raise ImplausibleError(found)
