"""Keys where words are typed: the reason of a session not done, and the note."""

from dataclasses import replace

from teamrehab.desktop.evening.cell_moves import back, bad
from teamrehab.desktop.evening.enter_key import enter
from teamrehab.desktop.evening.typed import Cell, Tonight, TypedRow
from teamrehab.domain.measures import Missed
from teamrehab.language import _

REASONS = {
    "s": Missed.SYMPTOM,
    "i": Missed.ILL,
    "a": Missed.AWAY,
    "d": Missed.STAFF,
    "t": Missed.ATHLETE,
    "o": Missed.OTHER,
}
"""Why a session was not done, by the letter that says so."""

LONGEST = 2000
"""As many signs as a note may have."""

_STEPS = ("Left", "Right", "Up", "Down")


def reason(row: TypedRow, key: str, _tonight: Tonight) -> TypedRow:
    """Take the letter of a reason; the words of another one follow."""
    if key in ("Backspace", "Escape"):
        return back(row)
    why = REASONS.get(key.lower())
    if why is None:
        return bad(row, key)
    return replace(row, missed=why, cell=Cell.WORDS if why is Missed.OTHER else Cell.DONE)


def reason_words(row: TypedRow, key: str, tonight: Tonight) -> TypedRow:
    """Take the words of another reason; Enter saves them."""
    if key == "Enter":
        if not row.words.strip():
            return replace(row, said=_("Not done: the reason is not typed. Type a few words."))
        return enter(row, tonight)
    if key == "Escape" or (key == "Backspace" and not row.words):
        return back(replace(row, missed=None, words=""))
    return _room(replace(row, words=_typed(row.words, key)), row.words, key)


def note(row: TypedRow, key: str, _tonight: Tonight) -> TypedRow:
    """Take the words of a note; Enter and Esc go back to the row and keep them."""
    if key in ("Enter", "Escape"):
        return back(replace(row, note=row.note.strip()))
    return _room(replace(row, note=_typed(row.note, key)), row.note, key)


def tests(row: TypedRow, key: str, _tonight: Tonight) -> TypedRow:
    """Go back to the row; every other key belongs to the test fields."""
    return back(row) if key in ("Enter", "Escape") else row


def _typed(words: str, key: str) -> str:
    """Return words with one more sign, or without their last one."""
    if key == "Backspace":
        return words[:-1]
    if key in _STEPS or not key.isprintable():
        return words
    return (words + key)[:LONGEST]


def _room(new: TypedRow, words: str, key: str) -> TypedRow:
    """Say that a sign had no room any more."""
    if len(words) < LONGEST or key == "Backspace":
        return new
    said = _("Words: {count} signs - that is the most. Backspace makes room.")
    return replace(new, said=said.format(count=LONGEST))
