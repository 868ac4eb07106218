"""The saved sheet read back from its file, against the finding and against the board."""

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from pypdf import PdfReader

from teamrehab.reports.disclosure import check_free_words
from teamrehab.reports.findings import CoachLine, CoachSheet, SquadRow
from tests.journeys.agreed_words import in_day, in_days, in_moment, in_tenths

CLINICAL = (
    "calf",
    "soleus",
    "strain",
    "lower leg",
    "raise",
    "hop",
    "symptom",
    "pain",
    "illness",
)


def says_what_the_board_says(sheet: CoachSheet, rows: Iterable[SquadRow]) -> None:
    """Hold that the finding has every athlete with the board's own range and chances.

    Of the board's matches, that is: those that have not begun when the sheet is printed.
    """
    coming = {match.fixture.fixture_id for match in sheet.today.matches}
    lines = {line.name: line for line in sheet.lines}
    assert sorted(lines) == sorted(row.name for row in rows)
    for row in rows:
        line, likely = lines[row.name], row.likely
        assert (line.training, line.match) == (row.training, row.match)
        if likely is not None:
            assert (line.earliest, line.latest) == (likely.earliest, likely.latest)
            said = [chance.words for chance in line.chances]
            left = [chance for chance in likely.chances if chance.fixture_id in coming]
            assert said == [in_tenths(chance.chance) for chance in left]


def holds_the_finding(path: Path, sheet: CoachSheet) -> None:
    """Hold that the paper says each athlete's line as a whole and in its group."""
    text = text_of(path)
    for words in (sheet.team, f"Sheet {sheet.number}", f"Signed: {sheet.signed}"):
        assert words in text
    for sentence in sheet.changed:
        assert sentence in text
    for who, when in sheet.decisions:
        assert f"{in_moment(when)}: {who}" in text
    for match in sheet.today.matches:
        assert f"{in_day(match.fixture.on)}, 15:00, {match.fixture.opponent}" in text
    for line in sheet.not_training:
        assert _out(line) in text
    for line in sheet.with_limits:
        assert _with_limits(line) in text
    full = text.partition(f"Full training ({len(sheet.full)})")[2]
    for line in sheet.full:
        assert f"{line.number} {line.name}" in full


def holds_nothing_clinical(path: Path, markers: Iterable[str]) -> None:
    """Hold that no marker and no clinical word is in text, metadata, name or raw bytes."""
    reader = PdfReader(path)
    text = text_of(path)
    told = [text, str(reader.metadata), str(reader.xmp_metadata), path.name]
    told += [raw.decode("latin-1") for raw in _raw(path, reader)]
    for words in told:
        assert [marker for marker in markers if marker in words.casefold()] == []
    for words in told[:4]:
        assert [word for word in CLINICAL if word in words.casefold()] == []
    assert check_free_words(text) == ()


def text_of(path: Path) -> str:
    """Return the text of a file's pages with single spaces."""
    return re.sub(r"\s+", " ", " ".join(p.extract_text() for p in PdfReader(path).pages))


def _out(line: CoachLine) -> str:
    update = in_moment(line.next_update) if line.next_update else "no date set"
    if line.was_due:
        update = f"was due {in_moment(line.was_due)}"
    said = "being assessed"
    if line.earliest is not None and line.latest is not None:
        said = in_days(line.earliest, line.latest)
    words = (str(line.number), line.name, line.reason, said, f"Next update: {update}")
    return " ".join((*words, _chances(line)))


def _with_limits(line: CoachLine) -> str:
    assert line.until is not None
    may, may_not = ", ".join(line.may), ", ".join(line.may_not)
    until = f"until {in_day(line.until)}"
    words = (str(line.number), line.name, until, f"May: {may}", f"May not: {may_not}")
    return " ".join((*words, _chances(line)))


def _chances(line: CoachLine) -> str:
    """Return the chances as they stand beside each other: words above, tenths below."""
    return " ".join(chance.words.replace(",", "") for chance in line.chances)


def _raw(path: Path, reader: PdfReader) -> Iterator[bytes]:
    """Yield the file as it lies on the disk, and what its pages draw, unpacked."""
    yield path.read_bytes()
    for page in reader.pages:
        contents = page.get_contents()
        assert contents is not None
        yield contents.get_data()
