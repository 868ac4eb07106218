"""One row with what is saved of it: typed for the first time, corrected, or added to."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from teamrehab.desktop.evening.looked_at import exercises_of
from teamrehab.desktop.evening.pressing import press
from teamrehab.desktop.evening.row_values import typed_again
from teamrehab.desktop.evening.row_words import typed_words
from teamrehab.desktop.evening.typed import MAIN, Draft, Tonight, TypedRow
from teamrehab.domain.history import Standing
from teamrehab.domain.measures import SessionEntry, Test
from teamrehab.domain.plans import PlannedExercise
from teamrehab.language import _

_CORRECT, _GONE = "correct", "gone"
_ADDS = ("t", "j")
_WHILE_ADDING = (*_ADDS, "k")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A row of the evening: what is typed in it, and what stands of it in the casebook.

    ``looked_at`` are the exercises it was begun with, ``tests`` what can be read of those
    typed. ``replaces`` is the fact a correction replaces, of the session of that id;
    ``adding``: tests or a note beside a saved session; ``saving``: on its way to the disk.
    ``kept`` was acknowledged at ``kept_at`` and is
    not read back yet. ``saved_at`` is the hour of the newest entry in the casebook.
    """

    tonight: Tonight
    typed: TypedRow = field(default_factory=TypedRow)
    looked_at: tuple[PlannedExercise, ...] = ()
    tests: tuple[Test, ...] = ()
    replaces: str = ""
    session: str = ""
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
    def asked(self) -> Tonight:
        """Return what the keys of the row answer to: a plan may change while one types."""
        return replace(
            self.tonight,
            looked_at=self.looked_at,
            session=self.session,
            tests=self.tests,
        )

    @property
    def corrected(self) -> Standing[Any] | None:
        """Return the entry that is being corrected, None once it stands no more."""
        noted = self.tonight.line.noted
        return next((fact for fact in noted if fact.fact_id == self.replaces), None)

    @property
    def newer(self) -> Standing[Any] | None:
        """Return what stands of the session that is being corrected, None without one."""
        noted = reversed(self.tonight.line.noted)
        return next((fact for fact in noted if fact.value.session_id == self.session), None)

    @property
    def is_overtaken(self) -> bool:
        """Return whether what is being corrected was changed or taken back meanwhile."""
        return bool(self.replaces) and self.corrected is None

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
    session = entry.kept
    if entry.typed.is_session:  # tests and words are no part of what the cells show
        session = replace(entry.typed.content, tests=(), note="")
    return replace(
        entry,
        typed=TypedRow(),
        looked_at=(),
        tests=(),
        replaces="",
        session="",
        adding=False,
        saving=False,
        kept=session,
        kept_at=hour,
    )


def shown_anew(entry: Entry, tonight: Tonight, saved_at: str) -> Entry:
    """Return the row over the line as it stands now; what is typed stays.

    Over what was changed while it was being corrected it says so.
    """
    session_kept = entry.kept is not None or bool(tonight.line.noted)
    kept_at = "" if session_kept else entry.kept_at
    now = replace(entry, tonight=tonight, saved_at=saved_at, kept=None, kept_at=kept_at)
    if now.is_overtaken and not now.saving and now.newer != entry.newer:
        return _say(now, overtaken_words(now))
    return now


def draft_of(entry: Entry, ids: Mapping[str, str]) -> Draft | None:
    """Return what is typed and not saved with the ids made for it, None where nothing is."""
    if not entry.is_typed or entry.saving:
        return None
    plain = replace(entry.typed, said="", asked="", ready=False)
    return Draft(typed=plain, ids=dict(ids), replaces=entry.replaces, looked_at=entry.looked_at)


def typed_from(entry: Entry, draft: Draft) -> Entry:
    """Return the row with what was kept of it typed again."""
    return replace(
        entry,
        typed=draft.typed,
        looked_at=draft.looked_at,
        replaces=draft.replaces,
        session=draft.ids.get("session", "") if draft.replaces else "",
        adding=entry.is_entered and not draft.typed.is_session,
    )


def refused(entry: Entry, sentence: str) -> Entry:
    """Return the row after a save that failed: all that was typed is still there."""
    typed = replace(entry.typed, said=sentence, ready=False)
    return replace(entry, typed=typed, saving=False)


def _pressed(entry: Entry, key: str) -> Entry:
    typed = press(entry.typed, key, entry.asked)
    if not entry.replaces:
        looked_at = entry.asked.exercises if typed.exercises else ()
        return replace(entry, typed=typed, looked_at=looked_at)
    if typed.ready and entry.is_overtaken:
        return _pressed_overtaken(entry, typed)
    if typed.is_empty or (typed.ready and _unchanged(entry, typed)):
        return _left(entry)
    return replace(entry, typed=typed)


def _pressed_overtaken(entry: Entry, typed: TypedRow) -> Entry:
    """Take an Enter over what was changed meanwhile only after it was shown."""
    newer = entry.newer
    fact_id = newer.fact_id if newer is not None else _GONE
    if entry.typed.asked != fact_id:
        said = overtaken_words(entry)
        return replace(entry, typed=replace(typed, said=said, asked=fact_id, ready=False))
    if newer is None:
        return replace(entry, typed=typed, replaces="", session="")
    entry = replace(entry, replaces=newer.fact_id)
    return _left(entry) if _unchanged(entry, typed) else replace(entry, typed=typed)


def overtaken_words(entry: Entry) -> str:
    """Return what stands now in the place of the entry that is being corrected."""
    newer = entry.newer
    if newer is None:
        return _(
            "Meanwhile the saved entry was taken back or moved. What you typed is kept: Enter"
            " again saves it as a new entry, Esc leaves it."
        )
    words = _(
        "Meanwhile this was saved: {words} What you typed is kept: Enter again replaces it,"
        " Esc leaves it."
    )
    return words.format(words=typed_words(typed_again(newer.value, entry.asked)))


def _left(entry: Entry) -> Entry:
    """Return the row of a correction that is given up."""
    said = _("Nothing was changed: what was saved stays.")
    return replace(entry, typed=TypedRow(said=said), replaces="", session="", looked_at=())


def _unchanged(entry: Entry, typed: TypedRow) -> bool:
    saved = entry.corrected
    return saved is not None and typed_again(saved.value, entry.asked) == typed.content


def _pressed_saved(entry: Entry, key: str) -> Entry:
    if key.lower() in _ADDS:
        return replace(entry, adding=True, typed=press(TypedRow(), key, entry.tonight))
    if key.lower() == "y" and entry.typed.asked == _CORRECT and entry.noted is not None:
        return corrected_from(entry, entry.noted)
    said = _("Saved at {hour}. Y again starts a correction. T adds tests, J a note.")
    said = said.format(hour=entry.kept_at or entry.saved_at)
    return replace(entry, typed=TypedRow(said=said, asked=_CORRECT))


def corrected_from(entry: Entry, saved: Standing[Any]) -> Entry:
    """Return the row in which a saved entry is corrected, typed as it stands."""
    value, looked_at = saved.value, entry.tonight.exercises
    if isinstance(value, SessionEntry):
        looked_at = exercises_of(entry.tonight, value)
    entry = replace(
        entry, looked_at=looked_at, replaces=saved.fact_id, session=value.session_id
    )
    return replace(entry, typed=typed_again(value, entry.asked))


def _pressed_added(entry: Entry, key: str) -> Entry:
    """Take tests and a note beside a saved session; the session itself stays."""
    is_main = entry.typed.cell in MAIN
    if is_main and len(key) == 1 and key.lower() not in _WHILE_ADDING:
        said = _("The session is saved. T tests, J note, K painkiller; Enter saves them.")
        return _say(entry, said)
    typed = press(entry.typed, key, entry.asked)
    left = typed.is_empty and typed.cell in MAIN
    return replace(entry, typed=typed, adding=not left)


def _say(entry: Entry, said: str) -> Entry:
    return replace(entry, typed=replace(entry.typed, said=said, ready=False))
