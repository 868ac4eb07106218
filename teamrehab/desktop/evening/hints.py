"""Which keys work where the cursor is, and what each one does."""

from html import escape

from teamrehab.desktop.evening.entry import Entry
from teamrehab.desktop.evening.typed import QUESTIONS, Cell, TypedRow
from teamrehab.language import _

Keys = tuple[tuple[str, str], ...]
"""Keys, each with what it does."""

_PAIR = '<span style="font-weight: 600">{key}</span>&nbsp;{words}'


def keys_of(entry: Entry) -> Keys:
    """Return the keys of a row that is being typed, or of one that is saved."""
    if entry.saving:
        return ((_("Down"), _("next row")),)
    if not entry.is_open and not entry.adding:
        return (
            (_("Down"), _("next row")),
            ("Y", _("correct")),
            ("T", _("tests")),
            ("J", _("note")),
            ("Ctrl+M", _("to another athlete")),
            ("Ctrl+B", _("availability")),
            ("F2", _("the athlete's page")),
        )
    return _of_cell(entry.typed)


def as_markup(keys: Keys) -> str:
    """Return keys in bold with what they do, as one line of markup."""
    pairs = (_PAIR.format(key=escape(key), words=escape(words)) for key, words in keys)
    return "&nbsp;&nbsp;&nbsp; ".join(pairs)


def _of_cell(row: TypedRow) -> Keys:
    back, enter = (_("Backspace"), _("clears")), _("Enter")
    if row.cell is Cell.DONE:
        return (*_done(row), *_more(), (_("Down"), _("next row")))
    if row.cell in (Cell.SYMPTOM, Cell.EFFORT):
        return (*_score(row), ("+", "10"), ("-", _("nobody asked")), back, *_more())
    if row.cell is Cell.MINUTES:
        digits = _("minutes, if not as planned")
        return ((enter, _("saves")), ("0-9", digits), back, *_more())
    return {
        Cell.REASON: ((_("Esc"), _("back")),),
        Cell.WORDS: ((enter, _("saves")), (_("Esc"), _("back"))),
        Cell.EXERCISES: (
            ("0-9", _("sets done, then the numbers of faults seen")),
            (enter, _("next exercise")),
            (_("Esc"), _("back")),
        ),
        Cell.TESTS: ((_("Tab"), _("next field")), (enter, _("back to the row"))),
        Cell.NOTE: ((enter, _("back to the row")),),
        Cell.SAFETY: (
            *_questions(row),
            (_("Backspace"), _("the question before")),
            (_("Esc"), _("back")),
        ),
    }[row.cell]


def _done(row: TypedRow) -> Keys:
    if row.missed is not None:
        return ((_("Enter"), _("saves")), (_("Backspace"), _("clears")))
    return (
        *(("Y", _("as planned")), ("P", _("partly")), ("M", _("more"))),
        *(("N", _("not done")), ("X", _("not seen"))),
    )


def _questions(row: TypedRow) -> Keys:
    if len(row.safety) == QUESTIONS:
        return ((_("Enter"), _("saves")),)
    return (("Y", _("yes")), ("N", _("no")))


def _score(row: TypedRow) -> Keys:
    if row.cell is Cell.SYMPTOM:
        return (("0-9", _("worst symptom")),)
    if not row.letter_may_follow:
        return (("0-9", _("effort")),)
    letters = (("p", _("pain")), ("t", _("tightness")), ("c", _("cramp")), ("s", _("sharp")))
    return (("0-9", _("effort")), *letters)


def _more() -> Keys:
    return (
        *(("T", _("tests")), ("J", _("note")), ("K", _("painkiller"))),
        *(("L", _("limp")), ("S", _("kind of session"))),
    )
