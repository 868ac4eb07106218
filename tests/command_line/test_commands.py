"""The headless commands: what they print, write and refuse, and never with Qt."""

import json
import subprocess
import sys
from datetime import UTC, date, datetime
from io import BytesIO

import pytest
from pypdf import PdfReader

from teamrehab.command_line.app import run
from teamrehab.domain.days import Clock
from teamrehab.domain.injuries import Certainty, Diagnosis
from teamrehab.protocols import load_protocols
from teamrehab.records import open_casebook
from teamrehab.tasks import cases
from tests import builders
from tests.records import books

NOW = Clock(lambda: datetime(2026, 10, 20, 19, tzinfo=UTC), "Europe/Rome")
ROSTER = "Number,Surname,First name,Born\n4,Adeyemi,Tolu,2000-05-01\nx,Brandt,Lea,1999-01-31\n"
FIXTURES = """BEGIN:VCALENDAR
VERSION:2.0
PRODID:-//invented//EN
BEGIN:VEVENT
UID:f-1@invented.example
DTSTAMP:20261001T100000Z
DTSTART:20261024T130000Z
SUMMARY:Riverside v Hill Town
END:VEVENT
END:VCALENDAR
"""


@pytest.fixture
def club(tmp_path):
    """A closed casebook with one athlete, two weeks into a calf strain, and its key file."""
    with books.new_book(tmp_path / "club", NOW) as book:
        book.note(builders.athlete())
        case = builders.case(what="CLINICALMARK grabbed")
        stated = builders.stated(case)
        cases.open_case(book, case, stated)
        cases.diagnose(
            book,
            book.case(case.case_id),
            Diagnosis(
                case_id=case.case_id,
                athlete_id=case.athlete_id,
                on=builders.day(2),
                injury="calf_strain",
                muscle="soleus",
                certainty=Certainty.CONFIRMED,
            ),
            load_protocols()["calf_strain"],
        )
    key = tmp_path / "key.txt"
    key.write_text(books.SECRET + "\n", encoding="utf-8")
    return tmp_path / "club", key


def _run(*words):
    return run([str(word) for word in words], NOW)


def _opened(club):
    folder, key = club
    return folder, "--passphrase-file", key


def test_the_squad_table_says_who_can_train_and_when_they_are_likely_back(club, capsys):
    assert _run("squad", *_opened(club)) == 0
    out = capsys.readouterr().out
    assert "Sam Okafor" in out
    assert "(8 in 10)" in out


def test_json_holds_the_same_words_as_the_table(club, capsys):
    assert _run("squad", *_opened(club), "--json") == 0
    (row,) = json.loads(capsys.readouterr().out)
    assert row["name"] == "Sam Okafor"
    assert row["training"] == "none"
    assert "(8 in 10)" in row["likely_return"]


def test_a_signed_sheet_is_written_whole_kept_as_sent_and_numbered_on(club, tmp_path, capsys):
    first, second = tmp_path / "first.pdf", tmp_path / "second.pdf"
    assert _run("sheet", *_opened(club), "--signed", "Kim Vale", "--out", first) == 0
    assert _run("sheet", *_opened(club), "--signed", "Kim Vale", "--out", second) == 0
    text = PdfReader(BytesIO(second.read_bytes())).pages[0].extract_text()
    assert "Okafor" in text
    assert "CLINICALMARK" not in text
    assert "Sheet 2" in " ".join(text.split())


def test_a_signature_that_tells_something_medical_is_refused_before_anything_is_written(
    club, tmp_path, capsys
):
    out = tmp_path / "sheet.pdf"
    unfit = ("--signed", "Kim Vale, calf clinic")
    assert _run("sheet", *_opened(club), *unfit, "--out", out) == 1
    assert "calf" in capsys.readouterr().err
    assert not out.exists()
    assert _run("sheet", *_opened(club), *unfit) == 1
    assert "calf" not in capsys.readouterr().out


def test_a_sheet_without_a_file_is_printed_as_text(club, capsys):
    assert _run("sheet", *_opened(club)) == 0
    assert "Sam Okafor" in capsys.readouterr().out


def test_a_bad_roster_row_is_named_while_the_good_one_is_kept(club, tmp_path, capsys):
    table = tmp_path / "roster.csv"
    table.write_text(ROSTER, encoding="utf-8")
    assert _run("roster", club[0], table, *_opened(club)[1:]) == 0
    told = capsys.readouterr()
    assert "1 new" in told.out
    assert "3" in told.err
    assert "x" in told.err
    assert _run("squad", *_opened(club)) == 0
    assert "Tolu Adeyemi" in capsys.readouterr().out


def test_fixtures_are_taken_in_once(club, tmp_path, capsys):
    calendar = tmp_path / "season.ics"
    calendar.write_text(FIXTURES.replace("\n", "\r\n"), encoding="utf-8")
    assert _run("fixtures", club[0], calendar, *_opened(club)[1:]) == 0
    assert _run("fixtures", club[0], calendar, *_opened(club)[1:]) == 0
    assert "0 new" in capsys.readouterr().out.splitlines()[-1]


def test_a_sound_casebook_passes_its_check(club, capsys):
    assert _run("check", *_opened(club)) == 0
    assert "whole" in capsys.readouterr().out


def test_a_casebook_with_troubles_is_never_called_whole(club, capsys):
    with open_casebook(club[0], passphrase=books.SECRET, clock=NOW) as book:
        books.tamper(book, "UPDATE fact SET author = 'x' WHERE seq = 3")
    assert _run("check", *_opened(club)) == 1
    said = capsys.readouterr()
    assert "1 entry is not as it was written" in said.err
    assert "whole" not in said.out


def test_a_wrong_passphrase_is_a_refusal_in_a_sentence(club, tmp_path, capsys):
    wrong = tmp_path / "wrong.txt"
    wrong.write_text("not this one\n", encoding="utf-8")
    assert _run("squad", club[0], "--passphrase-file", wrong) == 1
    assert "passphrase" in capsys.readouterr().err.lower()


@pytest.mark.parametrize("content", [b"", b"\xff\xfe\xfa", None])
def test_a_passphrase_file_that_holds_none_is_named(club, tmp_path, content, capsys):
    file = tmp_path / "broken-key.txt"
    if content is not None:
        file.write_bytes(content)
    assert _run("squad", club[0], "--passphrase-file", file) == 1
    assert "broken-key.txt" in capsys.readouterr().err


def test_a_folder_that_is_no_casebook_is_refused_and_left_as_it_was(tmp_path, capsys):
    (tmp_path / "letters").mkdir()
    assert _run("squad", tmp_path / "letters") == 1
    assert list((tmp_path / "letters").iterdir()) == []
    assert capsys.readouterr().err.strip()


def test_a_sheet_that_cannot_be_written_is_a_refusal_and_is_not_kept_as_sent(club, tmp_path):
    nowhere = tmp_path / "missing" / "sheet.pdf"
    assert _run("sheet", *_opened(club), "--signed", "Kim Vale", "--out", nowhere) == 1
    out = tmp_path / "sheet.pdf"
    assert _run("sheet", *_opened(club), "--signed", "Kim Vale", "--out", out) == 0
    text = PdfReader(BytesIO(out.read_bytes())).pages[0].extract_text()
    assert "Sheet 1" in " ".join(text.split())


def test_an_unknown_word_is_a_refusal(capsys):
    assert _run("fly") == 1
    assert "fly" in capsys.readouterr().err


def test_a_mistake_of_ours_is_a_fault_told_without_values(monkeypatch, club, capsys):
    def broken(*_args):
        raise ZeroDivisionError("CLINICALMARK")

    monkeypatch.setattr("teamrehab.command_line.app.full_board", broken)
    assert _run("squad", *_opened(club)) == 2
    told = capsys.readouterr().err
    assert "ZeroDivisionError" in told
    assert "CLINICALMARK" not in told


def test_help_names_every_command(capsys):
    assert _run("--help") == 0
    out = capsys.readouterr().out
    for command in ("demo", "squad", "sheet", "roster", "fixtures", "check", "protocol"):
        assert command in out


def test_a_headless_command_never_imports_qt():
    program = (
        "import sys; sys.argv[1:] = ['--help']\n"
        "from teamrehab.__main__ import main\n"
        "assert main() == 0\n"
        "assert not [m for m in sys.modules if m.startswith(('PySide6', 'pyqtgraph'))]\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr


def test_the_day_of_the_squad_turns_at_four_in_the_club_zone():
    night = Clock(lambda: datetime(2026, 10, 20, 1, 59, tzinfo=UTC), "Europe/Rome")
    assert night.today() == date(2026, 10, 19)
