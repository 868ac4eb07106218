"""The cells of one athlete on the coach's sheet: sign, name, limits or return, matches."""

from reportlab.platypus import Flowable

from teamrehab.domain.availability import Training
from teamrehab.language import _
from teamrehab.reports.findings import CoachLine
from teamrehab.reports.paper.discs import Disc
from teamrehab.reports.paper.page import MUTED, Size, words
from teamrehab.reports.wording_sheet import (
    expected_words,
    may_not_words,
    may_words,
    return_words,
    shirt_words,
    until_words,
    update_words,
)

Cell = Flowable | list[Flowable] | str


def who(line: CoachLine, training: Training | None, size: Size) -> list[Cell]:
    """Draw sign, number and name; below it until when, or the one reason a sheet knows."""
    name = [words(line.name, size.style(11.2, heavy=True, lead=1.18))]
    note = "" if training is None else _note(line)
    name += [words(note, size.style(8.5, colour=MUTED))] if note else []
    return [Disc(training, size.of(10)), words(shirt_words(line), size.style(11.5)), [*name]]


def _note(line: CoachLine) -> str:
    if line.training is Training.WITH_LIMITS:
        return until_words(line)
    return "" if line.plays else line.reason


def middle(line: CoachLine, size: Size) -> list[Flowable]:
    """Draw limits of who trains with some, the likely return of who does not train."""
    body, small = size.style(9.5), size.style(8.5, colour=MUTED)
    if line.training is Training.NONE:
        update = _("Next update: {when}").format(when=update_words(line))
        said = [(_unbroken(return_words(line)), size.style(9.5, heavy=True)), (update, small)]
    elif line.training is Training.WITH_LIMITS:
        said = [
            (may_words(line), body),
            (may_not_words(line), size.style(9.5, heavy=True)),
            (expected_words(line.expected), small),
        ]
    else:
        said = [(expected_words(line.expected), small)]
    said.append((line.disclosed, body))
    return [words(text, style) for text, style in said if text]


def match_cells(line: CoachLine, matches: int, size: Size) -> list[Cell]:
    """Draw the chance for each match, or the one answer that holds for all of them."""
    if not line.chances:
        return [words(line.match_words, size.style(9.5)), *[""] * (matches - 1)]
    return [_chance(chance.words, size) for chance in line.chances]


def _chance(said: str, size: Size) -> list[Flowable]:
    """Draw a chance: the word large, its tenths below."""
    word, _comma, numbers = said.partition(", ")
    drawn: list[Flowable] = [words(word, size.style(9, heavy=True, lead=1.2))]
    return [*drawn, words(numbers, size.style(8, colour=MUTED))] if numbers else drawn


def _unbroken(text: str) -> str:
    """Return a range whose "(8 in 10)" stays on one line."""
    before, bracket, rest = text.partition(" (")
    return before + bracket + rest.replace(" ", "\N{NO-BREAK SPACE}")
