"""Facts about facts: an entry withdrawn, a body removed."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class EnteredInError:
    """The fact it replaces should never have been written.

    ``beside`` names the other versions its author saw and left standing.
    """

    fact_id: str
    beside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Erasure:
    """The body of a fact is lawfully removed; wherever this arrives, that body goes."""

    fact_id: str
    body_hash: str
