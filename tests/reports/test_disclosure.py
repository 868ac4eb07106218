"""Free words for the coach: what is found, and what may pass."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.reports.disclosure import check_free_words, fit_for_coach, warning_words

CLINICAL = [
    ("Soleus, grade 2", "Soleus"),
    ("calf is sore", "calf"),
    ("after his MRI", "MRI"),
    ("on ibuprofen", "ibuprofen"),
    ("tendinopathy settling", "tendinopathy"),
    ("kein Einsatz: Kreuzbandriss", "Kreuzbandriss"),
    ("dolor en la pantorrilla", "pantorrilla"),
    ("blessure au mollet", "mollet"),
    ("lesão na coxa", "coxa"),
    ("MÚSCULO cansado", "MÚSCULO"),
]
FREE = [
    "off the bench, last 20 minutes",
    "goalkeeper training only",
    "left wing",
    "back on Thursday",
    "agreed with the head coach",
    "medicine ball work",
    "second leg of the tie",
    "football tennis",
    "",
]


@pytest.mark.parametrize(("text", "word"), CLINICAL)
def test_body_illness_and_drug_words_are_found_as_typed(text, word):
    assert word in check_free_words(text)


@pytest.mark.parametrize("text", FREE)
def test_words_of_the_pitch_pass(text):
    assert check_free_words(text) == ()
    assert fit_for_coach(text) == text


def test_a_word_is_found_in_either_form_of_its_accents():
    decomposed = unicodedata.normalize("NFD", "músculo")
    assert len(decomposed) > len("músculo")
    assert check_free_words(decomposed) == ("músculo",)


@given(st.text(max_size=40))
def test_a_clinical_word_is_found_whatever_stands_around_it(around):
    assert "soleus" in check_free_words(f"{around} soleus {around}")
    assert fit_for_coach(f"{around} soleus") == ""


def test_the_writer_is_told_who_reads_it_and_which_word_keeps_it_off():
    assert warning_words(()) == "The coach will read this."
    assert "calf, knee" in warning_words(("calf", "knee"))
