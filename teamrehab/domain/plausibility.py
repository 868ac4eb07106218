"""Is a value fit to be written down? Asked on entry and on import, never of a stored fact."""

from dataclasses import dataclass

from typing_extensions import override


@dataclass(frozen=True, slots=True, kw_only=True)
class Implausible:
    """One thing that cannot stand: field, value as typed, what is allowed, the remedy."""

    field: str
    value: str
    allowed: str
    remedy: str

    @override
    def __str__(self) -> str:
        """Return one sentence fit to be shown beside the field."""
        return f"{self.field}: {self.value} - {self.allowed}. {self.remedy}"
