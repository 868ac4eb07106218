"""What is typed and not saved: kept through a crash, gone with the save, nobody else's."""

import shutil

import pytest

from teamrehab.domain.injuries import Case
from teamrehab.records import NotSavedError, UnwritableTextError, new_fact_id, open_casebook
from tests.builders import athlete, case, clock
from tests.records.books import (
    SECRET,
    facts_of,
    new_book,
    reopened,
    values,
)
from tests.records.test_faults import fail_once_at_commit

ROW = "evening/2026-11-24/c1"


@pytest.fixture
def book(tmp_path):
    with new_book(tmp_path / "book") as book:
        yield book


def crashed(book):
    """Return the casebook as a kill at this moment would leave its files, opened again."""
    left = book.folder.with_name(f"{book.folder.name}-")
    shutil.copytree(book.folder, left)
    book._store.drop_connections()
    book._store.closed = True
    book._lock.release()
    return open_casebook(left, passphrase=SECRET, clock=book.clock)


def test_a_draft_is_there_after_a_crash_and_in_the_words_typed_last(book):
    book.keep_draft(ROW, "Y 1")
    book.keep_draft(ROW, "Y 1 4 – sore")
    book.keep_draft("team session", "Łukasz, 75")
    with crashed(book) as again:
        assert again.drafts() == {ROW: "Y 1 4 – sore", "team session": "Łukasz, 75"}
        again.drop_draft(ROW)
        again.drop_draft("nowhere")
        assert reopened(again).drafts() == {"team session": "Łukasz, 75"}


def test_a_draft_is_no_fact_and_can_be_read_in_no_file(book):
    before = facts_of(book)
    book.keep_draft(ROW, "tender over the soleus")
    assert facts_of(book) == before
    book.close()
    assert all(b"soleus" not in path.read_bytes() for path in files(book))


def files(book):
    return [path for path in book.folder.rglob("*") if path.is_file()]


def test_a_save_takes_the_draft_it_was_typed_in_with_it_and_no_other(book):
    book.keep_draft(ROW, "typed")
    book.keep_draft("another", "stays")
    book.note(case(), drops_draft=ROW)
    with crashed(book) as again:
        assert (values(again, Case), again.drafts()) == ([case()], {"another": "stays"})


def test_a_save_that_fails_leaves_its_draft(book):
    book.keep_draft(ROW, "typed")
    fail_once_at_commit(book, after=False)
    with pytest.raises(NotSavedError):
        book.note(case(), drops_draft=ROW)
    assert (values(book, Case), book.drafts()) == ([], {ROW: "typed"})


def test_a_save_repeated_under_the_same_id_drops_a_draft_kept_in_between(book):
    ids = [new_fact_id(book.clock)]
    book.note(case(), fact_ids=ids)
    book.keep_draft(ROW, "typed")
    book.note(case(), fact_ids=ids, drops_draft=ROW)
    assert book.drafts() == {}


@pytest.mark.parametrize(
    "act", [lambda b: b.keep_draft(ROW, "new"), lambda b: b.drop_draft(ROW)]
)
def test_a_disk_that_fails_is_told_and_the_draft_before_is_kept(book, act):
    book.keep_draft(ROW, "old")
    fail_once_at_commit(book, after=False)
    with pytest.raises(NotSavedError, match="still here"):
        act(book)
    assert book.drafts() == {ROW: "old"}
    act(book)


def test_words_that_cannot_be_kept_are_refused_and_those_before_stay(book):
    book.keep_draft(ROW, "old")
    with pytest.raises(UnwritableTextError, match="draft"):
        book.keep_draft(ROW, "half \ud83d a face")
    assert book.drafts() == {ROW: "old"}


def typed_about_two(book):
    """Note two athletes with a case each; keep drafts about both."""
    ids = book.note(
        athlete(), case(), athlete(athlete_id="a10"), case(case_id="c10", athlete_id="a10")
    ).fact_ids
    drafts = {
        ROW: "Y",
        "note/a1": "words",
        "list": '{"a1": 75, "a10": 75}',
        "list of others": '{"a10": 75}',
        "evening/2026-11-24/c10": "Y",
        "note/x-a1": "another id that holds this one",
    }
    for place, words in drafts.items():
        book.keep_draft(place, words)
    return ids


LEFT = {"list of others", "evening/2026-11-24/c10", "note/x-a1"}


def test_an_erasure_takes_the_drafts_about_its_athlete_and_leaves_the_others(book):
    ids = typed_about_two(book)
    book.erase(ids[1], "the athlete's lawful wish")
    assert set(book.drafts()) == LEFT


def test_an_erasure_from_another_laptop_takes_them_as_well(book, tmp_path):
    typed_about_two(book)
    before = set(book.drafts())
    with new_book(tmp_path / "other", clock()) as other:
        other.take_in([fact for fact in facts_of(book) if fact.header.athlete])
        (wrong,) = [f for f in other.all_of(Case) if f.value.case_id == "c1"]
        other.erase(wrong.fact_id, "the athlete's lawful wish")
        (erasure,) = [fact for fact in facts_of(other) if fact.header.kind == "erasure"]
    assert set(book.drafts()) == before
    book.take_in([erasure])
    assert set(book.drafts()) == LEFT
