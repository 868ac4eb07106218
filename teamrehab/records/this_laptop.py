"""What one laptop remembers for itself: never hashed, never handed over."""

from sqlalchemy import text
from sqlalchemy.engine import Connection

_REMEMBERED = text("SELECT value FROM this_laptop WHERE key = :key")
_REMEMBER = text(
    "INSERT INTO this_laptop (key, value) VALUES (:key, :value) "
    "ON CONFLICT (key) DO UPDATE SET value = excluded.value"
)


def remembered(connection: Connection, key: str) -> str | None:
    """Return what was remembered last under a key, or None."""
    value: str | None = connection.execute(_REMEMBERED, {"key": key}).scalar()
    return value


def remember(connection: Connection, key: str, value: str) -> None:
    """Remember a value under a key in place of the one before."""
    connection.execute(_REMEMBER, {"key": key, "value": value})
