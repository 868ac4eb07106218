"""The commands about protocol files: what they print, and how they end."""

from datetime import UTC, datetime

import pytest

from teamrehab.command_line.app import run
from teamrehab.domain.days import Clock
from tests.protocols.test_reading import SMALL

NOW = Clock(lambda: datetime(2026, 10, 20, 19, tzinfo=UTC), "Europe/Rome")


def _run(*words):
    return run([str(word) for word in words], NOW)


@pytest.fixture
def finger(tmp_path):
    file = tmp_path / "finger.toml"
    file.write_text(SMALL, encoding="utf-8")
    return file


def test_every_fault_of_every_file_is_told_and_a_sound_one_is_said_to_be_sound(
    finger, tmp_path, capsys
):
    bad = tmp_path / "bad.toml"
    bad.write_text(SMALL.replace("phase = 5", "phase = 6").replace("score = 2", "score = 99"))
    assert _run("protocol", "check", finger, bad, tmp_path / "none.toml") == 1
    told = capsys.readouterr()
    assert told.out == "finger.toml: a sound protocol file.\n"
    faults = told.err.splitlines()
    assert [line.split(":")[0] for line in faults] == [
        "bad.toml, stage 2, phase",
        "bad.toml, stage 2, entry 1, parameters.score",
        "none.toml, the whole file",
    ]


def test_sound_files_end_well(finger, capsys):
    assert _run("protocol", "check", finger) == 0
    assert capsys.readouterr().err == ""


def test_a_file_of_five_megabytes_is_refused(tmp_path, capsys):
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 5_000_000)
    assert _run("protocol", "check", large) == 1
    assert "1 MB" in capsys.readouterr().err


@pytest.mark.parametrize("which", ["achilles_tendinopathy", "file"])
def test_a_protocol_is_shown_by_its_key_or_from_a_file(which, finger, capsys):
    assert _run("protocol", "show", finger if which == "file" else which) == 0
    out = capsys.readouterr().out
    assert ("Finger\n------\n" in out) is (which == "file")
    assert "Ready for sign-off when" in out


def test_a_faulty_file_is_not_shown_but_told_what_is_wrong(finger, capsys):
    finger.write_text(SMALL.replace("phase = 5", "phase = 6"), encoding="utf-8")
    assert _run("protocol", "show", finger) == 1
    told = capsys.readouterr()
    assert (told.out, "stage 2, phase" in told.err) == ("", True)


def test_a_key_that_is_not_there_is_refused_with_the_nearest(capsys):
    assert _run("protocol", "show", "calf_strian") == 1
    assert "Did you mean calf_strain?" in capsys.readouterr().err
    assert _run("protocol", "show", "zzz") == 1
    told = capsys.readouterr().err
    assert "Did you mean" not in told
    assert "calf_strain" in told
