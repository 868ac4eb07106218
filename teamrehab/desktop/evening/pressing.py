"""What each key does to a row: a pure function, every key answered, none taken silently."""

from collections.abc import Callable
from dataclasses import replace

from teamrehab.desktop.evening import exercise_keys, questions_keys, word_keys
from teamrehab.desktop.evening.cell_moves import bad, clear_before, emptied, go, next_cell
from teamrehab.desktop.evening.enter_key import enter
from teamrehab.desktop.evening.typed import Cell, Tonight, TypedExercise, TypedRow
from teamrehab.domain.measures import Done, Feeling, Missed, SessionKind
from teamrehab.domain.plausible_entries import MINUTES
from teamrehab.language import _

ENTER, BACKSPACE, ESCAPE = "Enter", "Backspace", "Escape"
LEFT, RIGHT, UP, DOWN = "Left", "Right", "Up", "Down"
NAMED = frozenset({ENTER, BACKSPACE, ESCAPE, LEFT, RIGHT, UP, DOWN})
"""Keys that have a name; every other key is the sign it types."""

_DONE = {"y": Done.AS_PLANNED, "p": Done.PARTLY, "m": Done.MORE}

Answer = Callable[[TypedRow, str, Tonight], TypedRow]


def press(row: TypedRow, key: str, tonight: Tonight) -> TypedRow:
    """Return the row after one key: a name of ``NAMED``, or the sign typed.

    What a key cannot mean where the cursor is leaves the row as it was; ``said`` tells what
    may be typed there.
    """
    before = replace(row, said="", asked="", letter_may_follow=False, ready=False)
    if row.cell in _WITHIN:
        return _WITHIN[row.cell](before, key, tonight)
    if key in NAMED:
        return _named(row, before, key, tonight)
    sign = key.lower()
    if row.letter_may_follow and sign in set(Feeling):
        return _feel(before, sign)
    if sign in _ANYWHERE:
        return _ANYWHERE[sign](before, sign, tonight)
    if row.cell is Cell.DONE:
        return _done(row, before, sign, tonight)
    return _number(before, sign)


def _named(row: TypedRow, before: TypedRow, key: str, tonight: Tonight) -> TypedRow:
    if key == ENTER:
        return enter(before, tonight)
    if key == BACKSPACE:
        return clear_before(before)
    if key == ESCAPE:
        return _empty(row, before)
    if key in (LEFT, RIGHT):
        return go(before, 1 if key == RIGHT else -1)
    return before


def _empty(row: TypedRow, before: TypedRow) -> TypedRow:
    """Empty the row; words and tests, which take long to type, only when asked twice."""
    if (row.note or row.tests or row.words) and row.asked != ESCAPE:
        said = _("Words or tests are typed here. Esc again empties the row.")
        return replace(before, said=said, asked=ESCAPE)
    return TypedRow()


def _feel(before: TypedRow, sign: str) -> TypedRow:
    if before.symptom == 0:
        said = _("Symptom 0 has no kind: {key}. Type the effort first.")
        return replace(before, said=said.format(key=sign), letter_may_follow=True)
    return replace(before, feeling=Feeling(sign))


def _done(row: TypedRow, before: TypedRow, sign: str, tonight: Tonight) -> TypedRow:
    if sign in ("n", "x"):
        return _not_done(before, sign)
    if sign not in _DONE:
        return bad(before, sign)
    if tonight.line.stopped and row.asked != sign:
        said = _("{stopped} No loading is planned. The same key again notes a session.")
        return replace(before, said=said.format(stopped=tonight.line.stopped), asked=sign)
    planned = tonight.exercises
    opened = _DONE[sign] is Done.PARTLY and bool(planned)
    lines = before.exercises or tuple(TypedExercise() for _planned in planned)
    new = replace(
        before,
        done=_DONE[sign],
        missed=None,
        words="",
        exercises=lines if opened else (),
        line=0,
        in_faults=False,
    )
    return replace(new, cell=Cell.EXERCISES if opened else next_cell(new))


def _not_done(before: TypedRow, sign: str) -> TypedRow:
    if before.has_session:
        said = _("A symptom, effort or other answer is typed. Esc empties the row first.")
        return replace(before, said=said)
    if sign == "x":
        return replace(before, done=None, missed=Missed.NOT_SEEN, words="")
    return replace(before, done=None, missed=None, words="", cell=Cell.REASON)


def _number(before: TypedRow, sign: str) -> TypedRow:
    if before.cell is Cell.MINUTES:
        return _minutes(before, sign)
    value, empty = _scored(sign), emptied(before, before.cell)
    if sign == "-":
        skipped = replace(empty, not_asked=(*empty.not_asked, before.cell))
        return replace(skipped, cell=next_cell(skipped))
    if value is None:
        return bad(before, sign)
    if before.cell is Cell.EFFORT:
        new = replace(empty, effort=value)
        return replace(new, cell=next_cell(new))
    new = replace(empty, symptom=value)
    return replace(new, cell=next_cell(new), letter_may_follow=True)


def _minutes(before: TypedRow, sign: str) -> TypedRow:
    if not (sign.isascii() and sign.isdigit()):
        return bad(before, sign)
    value = 10 * (before.minutes or 0) + int(sign)
    if value not in MINUTES:
        return bad(before, str(value))
    return replace(before, minutes=value)


def _scored(sign: str) -> int | None:
    if sign == "+":
        return 10
    return int(sign) if len(sign) == 1 and sign.isascii() and sign.isdigit() else None


_FOLLOWING = {None: True, True: False, False: None}
"""Not asked, yes, no, and not asked again."""


def _painkiller(before: TypedRow, _sign: str, _tonight: Tonight) -> TypedRow:
    if before.missed is not None:
        return _not_of_a_session(before)
    return replace(before, painkiller=_FOLLOWING[before.painkiller])


def _limp(before: TypedRow, _sign: str, _tonight: Tonight) -> TypedRow:
    if before.missed is not None:
        return _not_of_a_session(before)
    return replace(before, limp=_FOLLOWING[before.limp], safety=())


def _not_of_a_session(before: TypedRow) -> TypedRow:
    return replace(before, said=_("No session is noted: this belongs to a session."))


def _kind(before: TypedRow, _sign: str, tonight: Tonight) -> TypedRow:
    if before.missed is not None:
        return _not_of_a_session(before)
    kinds = list(SessionKind)
    planned = tonight.line.plan.kind
    chosen = kinds[(kinds.index(before.kind or planned) + 1) % len(kinds)]
    return replace(before, kind=None if chosen is planned else chosen)


def _open(cell: Cell) -> Answer:
    return lambda before, _sign, _tonight: replace(before, cell=cell)


_ANYWHERE: dict[str, Answer] = {
    "k": _painkiller,
    "l": _limp,
    "s": _kind,
    "j": _open(Cell.NOTE),
    "t": _open(Cell.TESTS),
}

_WITHIN: dict[Cell, Answer] = {
    Cell.REASON: word_keys.reason,
    Cell.WORDS: word_keys.reason_words,
    Cell.NOTE: word_keys.note,
    Cell.EXERCISES: exercise_keys.exercise,
    Cell.SAFETY: questions_keys.question,
    Cell.TESTS: word_keys.tests,
}
"""Cells that answer every key themselves, until they are left."""
