"""What makes a file no protocol is refused alike by the reader, the command and the casebook.

The window shows what taking in says (see ``tests/desktop/test_protocol_files.py``).
"""

import pytest

from teamrehab.command_line.app import run
from teamrehab.protocols import check_file, check_text
from teamrehab.tasks.own_protocols import protocols_here, take_in_protocol
from teamrehab.tasks.refusals import RefusedError
from tests.builders import clock, day
from tests.protocols.test_guidance import FULL
from tests.records.books import SECRET, new_book

CIRCLE = 'dose = "12 repetitions"\nafter = { hang = 2 }'

BAD = {
    # what is wrong: what is changed, where it is said to be, and the remedy or what is allowed
    "a level without a name": (
        'name = "both hands", sets = 3',
        "sets = 3",
        "ladder 2, level 1, name",
        "a text",
    ),
    "a level that is not there": (
        "after = { grip = 2 }",
        "after = { grip = 9 }",
        "after",
        "a level of that ladder",
    ),
    "an unknown check": (
        '"symptom_at_most"',
        '"symptom_atmost"',
        "check",
        "Did you mean symptom_at_most?",
    ),
    "an unknown measure": ('"hop_test"', '"hop_tst"', "informs 1, test", "mean hop_test?"),
    "a circle of gates": ('dose = "12 repetitions"', CIRCLE, "ladder", "hang"),
    "a dose of nothing": ('dose = "20 s"', 'dose = "0 s"', "ladder 2", "numbers over 0"),
    "a wrong unit": ('dose = "20 s"', 'dose = "20 seconds"', "ladder 2", "Did you mean s?"),
    "a newer format": ("format = 1", "format = 2", "format", "Update the program"),
    "an unknown key": ("[watch]", "[wach]", "wach", "Did you mean watch?"),
    "5 MB of text": ("format = 1", "#" * 5_000_000, "the whole file", "at most 1 MB"),
}


@pytest.fixture
def good(tmp_path):
    path = tmp_path / "finger.toml"
    path.write_text(FULL, encoding="utf-8")
    return path


@pytest.mark.parametrize("why", BAD)
def test_a_bad_file_is_refused_by_reader_command_and_casebook(why, good, tmp_path, capsys):
    before, after, key, said = BAD[why]
    assert before in FULL
    bad = tmp_path / "bad.toml"
    bad.write_text(FULL.replace(before, after, 1), encoding="utf-8")
    first = str(check_file(bad)[0])
    assert str(check_text(bad.read_text(encoding="utf-8"), "bad.toml")[0]) == first
    where, _colon, rest = first.partition(": ")
    assert where.startswith("bad.toml, ")
    assert key in where
    assert said in rest

    assert run(["protocol", "check", str(bad)], clock(day(0))) == 1
    assert first in capsys.readouterr().err

    with new_book(tmp_path / "book", clock(day(0))) as book:
        take_in_protocol(book, good)
        in_force = protocols_here(book)
        with pytest.raises(RefusedError) as refused:
            take_in_protocol(book, bad)
        assert first in str(refused.value).splitlines()
        assert protocols_here(book) == in_force


def test_the_command_takes_a_file_in_and_refuses_the_next_with_the_old_one_in_force(
    good, tmp_path, capsys
):
    new_book(tmp_path / "book", clock(day(0))).close()
    secret = tmp_path / "secret"
    secret.write_text(SECRET, encoding="utf-8")
    words = ["protocol", "adopt", str(tmp_path / "book"), str(good)]
    words += ["--passphrase-file", str(secret)]
    assert run(words, clock(day(0))) == 0
    assert "was taken in" in capsys.readouterr().out
    assert run(words, clock(day(1))) == 0
    assert "word by word" in capsys.readouterr().out
    good.write_text(FULL + "\n# another thought\n", encoding="utf-8")
    assert run(words, clock(day(2))) == 1
    assert "raise the version" in capsys.readouterr().err
