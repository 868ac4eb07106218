"""The club's own protocol files are checked in full, kept in the casebook, and followed."""

from dataclasses import replace

import pytest

from teamrehab.domain.injuries import Certainty, Diagnosis, ProtocolAdopted
from teamrehab.domain.protocol import followed
from teamrehab.locations import RESOURCES
from teamrehab.protocols import load_protocols
from teamrehab.tasks import cases
from teamrehab.tasks.board import own_protocols, protocol_of, squad_board
from teamrehab.tasks.own_protocols import protocols_here, take_in_protocol, taken_words
from teamrehab.tasks.refusals import RefusedError
from tests.builders import athlete, case, day, stated
from tests.protocols.test_reading import SMALL
from tests.records.books import new_book, reopened, values

CALF = (RESOURCES / "protocols" / "calf_strain.toml").read_text(encoding="utf-8")


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


@pytest.fixture
def file(tmp_path):
    def write(text=SMALL, name="finger.toml"):
        path = tmp_path / name
        path.write_text(text, encoding="utf-8")
        return path

    return write


def refused(book, path):
    before = protocols_here(book)
    with pytest.raises(RefusedError) as told:
        take_in_protocol(book, path)
    assert protocols_here(book) == before
    return str(told.value)


def test_a_file_that_was_taken_in_is_at_hand_after_the_casebook_was_opened_again(book, file):
    done = take_in_protocol(book, file())
    assert "was taken in" in taken_words(done)
    again = reopened(book)
    assert protocols_here(again)["finger"] == done.protocol
    assert set(load_protocols()) < set(protocols_here(again))
    again.close()


def test_the_same_file_twice_is_kept_once_and_said_to_be_known(book, file):
    take_in_protocol(book, file())
    known = take_in_protocol(book, file())
    assert known.receipt is None
    assert "word by word" in taken_words(known)
    assert len(own_protocols(book)) == 1


@pytest.mark.parametrize("text", [SMALL, CALF])
def test_another_text_of_the_same_version_is_refused_with_raise_the_version(book, file, text):
    take_in_protocol(book, file())
    said = refused(book, file(f"{text}\n# reviewed\n"))
    assert "finger.toml, version: " in said
    assert "raise the version" in said


def test_a_refused_file_leaves_the_old_one_in_force_and_says_the_first_five_faults(book, file):
    take_in_protocol(book, file())
    worse = SMALL + "".join(f"unknown{n} = 1\n" for n in range(9))
    said = refused(book, file(worse)).splitlines()
    assert said[0] == "The file was not taken in; what was in force stays in force."
    assert len(said) == 7
    assert "more faults" in said[-1]


def test_five_megabytes_are_refused_before_they_are_read(book, tmp_path):
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * 5_000_000)
    assert "at most 1 MB" in refused(book, large)


def follows(book, protocol):
    book.note(athlete())
    of = case()
    cases.open_case(book, of, stated(of))
    held = Diagnosis(
        case_id="c1", athlete_id="a1", on=day(0), injury="other", certainty=Certainty.WORKING
    )
    cases.diagnose(book, book.case("c1"), held, protocol)
    return book.case("c1")


def test_a_case_follows_the_club_s_own_file_and_keeps_it_when_a_newer_one_comes(book, file):
    first = take_in_protocol(book, file()).protocol
    known = follows(book, first)
    newer = SMALL.replace(f'version = "{first.version}"', 'version = "99"')
    take_in_protocol(book, file(newer))
    assert protocol_of(book.case("c1")) == first
    board = squad_board(book, day(0))
    assert board.rows[0].decision is not None
    assert followed(known, board.protocols).protocol == first
    assert board.protocols["finger"].version == "99"


def test_a_newer_version_of_a_shipped_protocol_is_offered_with_the_shipped_beside_it(
    book, file
):
    take_in_protocol(book, file(CALF.replace('version = "2"', 'version = "2 club"')))
    newest = protocols_here(book)["calf_strain"]
    assert [one.version for one in (newest, *newest.earlier)] == ["2 club", "2", "1"]
    assert list(protocols_here(book))[: len(load_protocols())] == list(load_protocols())


def test_a_file_that_this_program_cannot_read_takes_nothing_else_with_it(book):
    torn = ProtocolAdopted(key="calf_strain", version="9", on=day(0), text="format = 7")
    book.note(torn)
    assert protocols_here(book) == load_protocols()
    assert values(book, ProtocolAdopted) == [torn]
    follows(book, replace(load_protocols()["calf_strain"]))
    assert squad_board(book, day(0)).rows[0].decision is not None
