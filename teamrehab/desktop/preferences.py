"""What a person likes on this computer: nothing personal, nothing of any athlete."""

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from pathlib import Path
from typing import Any

from PySide6.QtCore import QByteArray, QSettings

from teamrehab.desktop.appearance import Scheme
from teamrehab.desktop.logbook import Event, write

RECENT = 6
"""How many casebooks the start page remembers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Preferences:
    """All preferences. ``recent`` are folders of casebooks, the last used first.

    ``window`` and ``split`` are Qt's own notes of where the window and its divider stood.
    """

    scheme: Scheme = Scheme.SYSTEM
    recent: tuple[str, ...] = ()
    window: bytes = b""
    split: bytes = b""

    def with_recent(self, folder: Path) -> "Preferences":
        """Return the same with ``folder`` first among the recent casebooks."""
        first = str(folder.absolute())
        others = tuple(path for path in self.recent if path != first)
        return replace(self, recent=(first, *others)[:RECENT])


def settings() -> QSettings:
    """Return where preferences are kept on this computer."""
    return QSettings(
        QSettings.Format.IniFormat, QSettings.Scope.UserScope, "teamrehab", "teamrehab"
    )


def read(store: QSettings) -> Preferences:
    """Return what is kept; what cannot be understood is replaced by its default."""
    kept: dict[str, Any] = {}
    for field in fields(Preferences):
        if store.contains(field.name):
            try:
                kept[field.name] = _READ[field.name](store.value(field.name))
            except (TypeError, ValueError):
                write(Event.BAD_PREFERENCE, kind=field.name)
    return Preferences(**kept)


def keep(store: QSettings, preferences: Preferences) -> None:
    """Keep everything, now."""
    store.setValue("scheme", preferences.scheme.value)
    store.setValue("recent", list(preferences.recent))
    store.setValue("window", QByteArray(preferences.window))
    store.setValue("split", QByteArray(preferences.split))
    store.sync()


def _paths(value: object) -> tuple[str, ...]:
    found = [value] if isinstance(value, str) else value
    if not isinstance(found, list) or not all(isinstance(path, str) for path in found):
        raise TypeError("not a list of paths")
    return tuple(path for path in found if path)[:RECENT]


def _bytes(value: object) -> bytes:
    if not isinstance(value, QByteArray):
        raise TypeError("not bytes")
    return bytes(value.data())


_READ: dict[str, Callable[[Any], Any]] = {
    "scheme": Scheme,
    "recent": _paths,
    "window": _bytes,
    "split": _bytes,
}
