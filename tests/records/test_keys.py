"""Key slots: passphrases of any script, and every kind of damage told apart."""

import shutil
import unicodedata

import pytest

from teamrehab.domain.athletes import StaffMember
from teamrehab.records import (
    Cost,
    EmptyPassphraseError,
    SlotDamagedError,
    WrongPassphraseError,
    create_casebook,
    is_protected,
    open_casebook,
    people_of,
)
from teamrehab.records.keys import Opened, Slot, _box_key, read_slot, seal, slot_bytes, unseal
from tests.builders import case, clock
from tests.records.books import CHEAP, FOUNDER, SECRET, TEAM, new_book, values

PASSPHRASES = [
    "caf\u00e9",
    " leading",
    "\"quoted'",
    "100 %",
    "a:b/c@d?e#f",
    "\u2705 \U0001f9b5",
    "\u05e9\u05dc\u05d5\u05dd",
]
OPENED = Opened(key=bytes(range(32)), staff_id="s1")


def slots(folder):
    return sorted((folder / "keys").iterdir())


def flip(path, place):
    data = bytearray(path.read_bytes())
    data[place % len(data)] ^= 1
    path.write_bytes(data)


@pytest.mark.parametrize("passphrase", PASSPHRASES)
def test_a_passphrase_opens_what_it_closed_however_its_letters_are_composed(passphrase):
    slot = seal(OPENED, "Kim", unicodedata.normalize("NFC", passphrase), CHEAP, protected=True)
    assert unseal(slot, unicodedata.normalize("NFD", passphrase)) == OPENED
    with pytest.raises(WrongPassphraseError):
        unseal(slot, passphrase + " ")


def test_the_full_cost_of_a_try_is_that_of_the_standard_s_second_choice():
    """RFC 9106, section 4: 3 passes, 4 lanes, 64 MiB."""
    assert Cost() == Cost(memory_kib=64 * 1024, passes=3, lanes=4)
    assert unseal(seal(OPENED, "Kim", "x", Cost(), protected=True), "x") == OPENED


def test_the_key_is_derived_as_the_reference_implementation_of_argon2id_does():
    """The vector (2 passes, 64 MiB, 1 lane) of the reference implementation's own tests."""
    key = _box_key("password", b"somesalt", Cost(memory_kib=1 << 16, passes=2, lanes=1))
    assert key.hex() == "09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7"


def test_every_flipped_bit_of_a_slot_is_noticed():
    data = slot_bytes(seal(OPENED, "Kim", "x", CHEAP, protected=True))
    for place in range(len(data)):
        broken = bytearray(data)
        broken[place] ^= 1 << place % 8
        assert read_slot(bytes(broken)) is None
    assert all(read_slot(data[:size]) is None for size in range(len(data)))


@pytest.mark.parametrize("field", ["memory_kib", "passes", "lanes"])
def test_a_slot_that_asks_for_too_much_work_is_not_tried(field):
    cost = Cost(**{field: 1 << 22})
    slot = Slot(label="Kim", protected=True, cost=cost, salt=b"s" * 16, box=b"")
    assert read_slot(slot_bytes(slot)) is None


def test_a_wrong_passphrase_changes_no_byte_however_often(tmp_path):
    book = new_book(tmp_path / "book")
    book.close()
    before = {path: path.read_bytes() for path in book.folder.rglob("*") if path.is_file()}
    for number in range(100):
        with pytest.raises(WrongPassphraseError):
            open_casebook(book.folder, passphrase=f"guess {number}", clock=clock())
    assert before == {path: path.read_bytes() for path in before}


def test_one_damaged_copy_of_a_slot_still_opens_and_is_mended(tmp_path):
    book = new_book(tmp_path / "book")
    book.close()
    whole = [path.read_bytes() for path in slots(book.folder)]
    flip(slots(book.folder)[0], 30)
    open_casebook(book.folder, passphrase=SECRET, clock=clock()).close()
    assert [path.read_bytes() for path in slots(book.folder)] == whole


def test_two_damaged_copies_are_said_to_be_damaged_and_not_a_wrong_passphrase(tmp_path):
    book = new_book(tmp_path / "book")
    book.close()
    for path in slots(book.folder):
        flip(path, 30)
    with pytest.raises(SlotDamagedError, match="not lost"):
        open_casebook(book.folder, passphrase=SECRET, clock=clock())
    assert people_of(book.folder) == ()
    assert is_protected(book.folder)


def test_a_folder_whose_keys_are_gone_is_not_a_matter_of_the_passphrase(tmp_path):
    book = new_book(tmp_path / "book")
    book.close()
    shutil.rmtree(book.folder / "keys")
    with pytest.raises(SlotDamagedError):
        open_casebook(book.folder, passphrase=SECRET, clock=clock())


def test_two_people_open_the_same_casebook_each_as_oneself(tmp_path):
    ana = StaffMember(staff_id="s2", name="Ana Ruiz")
    with new_book(tmp_path / "book") as book:
        book.note(ana, case())
        book.give_key(ana, "another secret", CHEAP)
    assert people_of(book.folder) == ("Ana Ruiz", "Kim Vale")
    with open_casebook(
        book.folder, passphrase="another secret", clock=clock(), person="Ana Ruiz"
    ) as opened:
        assert opened.me == ana
        assert len(values(opened, type(case()))) == 1
    with pytest.raises(WrongPassphraseError):
        open_casebook(book.folder, passphrase=SECRET, clock=clock(), person="Ana Ruiz")


def test_a_damaged_slot_of_one_person_does_not_keep_the_other_out(tmp_path):
    with new_book(tmp_path / "book") as book:
        first = slots(book.folder)
        book.give_key(StaffMember(staff_id="s2", name="Ana Ruiz"), "two", CHEAP)
    for path in first:
        flip(path, 50)
    with open_casebook(book.folder, passphrase="two", clock=clock()) as opened:
        assert opened.me.staff_id == "s2"
    with pytest.raises(SlotDamagedError):
        open_casebook(book.folder, passphrase=SECRET, clock=clock(), person="Kim Vale")


def test_a_demo_opens_without_a_passphrase_and_says_so(tmp_path):
    book = create_casebook(
        tmp_path / "demo",
        team=TEAM,
        founder=FOUNDER,
        passphrase="",
        clock=clock(),
        protected=False,
    )
    book.close()
    assert not is_protected(book.folder)
    with open_casebook(book.folder, passphrase="", clock=clock()) as demo:
        assert not demo.protected


def test_a_protected_casebook_without_a_passphrase_is_not_made(tmp_path):
    with pytest.raises(EmptyPassphraseError):
        new_book(tmp_path / "book", passphrase="")
    assert list(tmp_path.iterdir()) == []
