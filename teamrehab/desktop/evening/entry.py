"""One row with what is saved of it: typed for the first time, corrected, or added to."""

from dataclasses import dataclass, field, replace
from typing import Any

from teamrehab.desktop.evening.pressing import press
from teamrehab.desktop.evening.row_values import typed_again
from teamrehab.desktop.evening.typed import MAIN, Tonight, TypedRow
from teamrehab.domain.history import Standing
from teamrehab.language import _

_CORRECT = "correct"
_ADDS = ("t", "j")
_WHILE_ADDING = (*_ADDS, "k")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A row of the evening: what is typed in it, and what stands of it in the casebook.

    ``replaces`` is the fact a correction replaces; ``adding``: tests or a note beside a saved
    session; ``saving``: on its way to the disk. ``kept`` was acknowledged at ``kept_at`` and is
    not read back yet. ``saved_at`` is the hour of the newest entry in the casebook.
    """

    tonight: Tonight
    typed: TypedRow = field(default_factory=TypedRow)
    replaces: str = ""
    adding: bool = False
    saving: bool = False
    kept: TypedRow | None = None
    kept_at: str = ""
    saved_at: str = ""

    @property
    def noted(self) -> Standing[Any] | None:
        """Return the newest session of this evening that stands, None while there is none."""
        return self.tonight.line.noted[-1] if self.tonight.line.noted else None

    @property
    def is_entered(self) -> bool:
        """Return whether the casebook holds a session of this evening, done or not."""
        return self.noted is not None or self.kept is not None

    @property
    def is_typed(self) -> bool:
        """Return whether something is typed that the casebook does not hold yet."""
        return not self.typed.is_empty

    @property
    def is_open(self) -> bool:
        """Return whether keys are for a row that is still to be entered."""
        typing = self.typed.is_session and not self.adding
        return not self.is_entered or bool(self.replaces) or typing

    @property
    def shown(self) -> TypedRow:
        """Return what the cells show: what is typed, else what is saved."""
        if self.is_open or self.saving:
            return self.typed
        if self.kept is not None:
            return self.kept
        return typed_again(self.noted.value, self.tonight) if self.noted else self.typed


def press_entry(entry: Entry, key: str) -> Entry:
    """Return the row after one key; a saved row asks before it is corrected."""
    if entry.saving:
        return _say(entry, _("Being saved. Wait a moment."))
    if entry.is_open:
        return _pressed(entry, key)
    return _pressed_added(entry, key) if entry.adding else _pressed_saved(entry, key)


def after_save(entry: Entry, hour: str) -> Entry:
    """Return the row after its save was acknowledged at ``hour``."""
    session = entry.typed.content if entry.typed.is_session else entry.kept
    return replace(
        entry,
        typed=TypedRow(),
        replaces="",
        adding=False,
        saving=False,
        kept=session,
        kept_at=hour,
    )


def refused(entry: Entry, sentence: str) -> Entry:
    """Return the row after a save that failed: all that was typed is still there."""
    typed = replace(entry.typed, said=sentence, ready=False)
    return replace(entry, typed=typed, saving=False)


def _pressed(entry: Entry, key: str) -> Entry:
    typed = press(entry.typed, key, entry.tonight)
    if not entry.replaces:
        return replace(entry, typed=typed)
    if typed.is_empty:
        return replace(entry, typed=TypedRow(said=_stays()), replaces="")
    if typed.ready and _unchanged(entry, typed):
        return replace(entry, typed=TypedRow(said=_stays()), replaces="")
    return replace(entry, typed=typed)


def _stays() -> str:
    return _("Nothing was changed: what was saved stays.")


def _unchanged(entry: Entry, typed: TypedRow) -> bool:
    saved = entry.noted
    return saved is not None and typed_again(saved.value, entry.tonight) == typed.content


def _pressed_saved(entry: Entry, key: str) -> Entry:
    if key.lower() in _ADDS:
        return replace(entry, adding=True, typed=press(TypedRow(), key, entry.tonight))
    if key.lower() == "y" and entry.typed.asked == _CORRECT and entry.noted is not None:
        typed = typed_again(entry.noted.value, entry.tonight)
        return replace(entry, typed=typed, replaces=entry.noted.fact_id)
    said = _("Saved at {hour}. Y again starts a correction. T adds tests, J a note.")
    said = said.format(hour=entry.kept_at or entry.saved_at)
    return replace(entry, typed=TypedRow(said=said, asked=_CORRECT))


def _pressed_added(entry: Entry, key: str) -> Entry:
    """Take tests and a note beside a saved session; the session itself stays."""
    is_main = entry.typed.cell in MAIN
    if is_main and len(key) == 1 and key.lower() not in _WHILE_ADDING:
        said = _("The session is saved. T tests, J note, K painkiller; Enter saves them.")
        return _say(entry, said)
    typed = press(entry.typed, key, entry.tonight)
    left = typed.is_empty and typed.cell in MAIN
    return replace(entry, typed=typed, adding=not left)


def _say(entry: Entry, said: str) -> Entry:
    return replace(entry, typed=replace(entry.typed, said=said, ready=False))
