"""Free words for the coach: what is found, and what may pass."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from demo_roster.seasons import OPPONENTS
from teamrehab.locations import RESOURCES
from teamrehab.reports.disclosure import check_free_words, fit_for_coach, warning_words

WORDS = """
hospital hospitalised diagnosed thrombosis thrombus clot clots blood bloods pectoral abductor
oblique obliques scapula scapular psoas iliopsoas peroneal talus calcaneus disc discs vertebra
vertebrae sciatic sciatica appendix appendicitis tonsillitis tonsils throat tumour tumor
operation operated bandage bandaged brace HIA mental menstrual menstruation coronavirus covid
inhaler ITB osteitis ACL ACLR vertebral intercostal disease
diagnóstico ciática apendicitis garganta sangre fratura perna Knorpel Bandscheibe Gips hôpital
"""
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
    ("after the X-ray", "X-ray"),
    ("x ray today", "x ray"),
    ("xrays clear", "xrays"),
    ("awaiting diagnosis", "diagnosis"),
    ("stressfracture suspected", "stressfracture"),
    ("stress fracture suspected", "fracture"),
    ("stress reaction", "stress reaction"),
    ("shinsplints again", "shinsplints"),
    ("shin splints again", "shin"),
    ("lo de su sóleo", "sóleo"),
    ("resonancia mañana", "resonancia"),
    ("opéré, IRM demain", "IRM"),
    ("mal de gorge", "mal de gorge"),
    ("zum Röntgen", "Röntgen"),
    ("Rückenschmerzen", "Rückenschmerzen"),
    ("rotura do gémeo, ressonância", "ressonância"),
    *((word, word) for word in WORDS.split()),
]
ROLES = """role, bench, from the bench, impact substitute, wing, left wing back, left back, \
right back, full back, half back, back four, back row, back three, back to goal, fly half, \
scrum half, second row, prop, hooker, flanker, number eight, centre back, centre forward, \
holding midfielder, box to box, striker, winger, sweeper, goalkeeper, second goalkeeper, \
point guard, shooting guard, small forward, power forward, pivot, libero, setter, \
outside hitter, opener, bowler, wicketkeeper, header, headers, no headers, heading, hand ball, \
hand-ball, left-hand side, head coach, head-to-head, head physiotherapist, set pieces only, \
corners and free kicks, penalty taker, captain, starting eleven, up to 60 minutes, \
first half only, last 30 minutes, extra time, warm-up only, rondo, pressing, counter attack, \
discipline, mentality, cooperation, clothes, lunges, raise the tempo, stay compact, \
long balls, Kopfballspezialist, Rückennummer 9, Leistungstest, \
Fußball, Linksaußen, Ersatzbank, Kapitän, extremo izquierdo, portero, suplente, cobertura, \
lateral derecho, gardien, remplaçant, milieu, défenseur central, ailier, guarda-redes, \
banco, Pernambuco, médio centro, ponta de lança"""
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
    *ROLES.split(", "),
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


def entries():
    lines = (
        (RESOURCES / "words" / "clinical_words.txt").read_text(encoding="utf-8").splitlines()
    )
    return [line for line in lines if line and not line.startswith(("#", "="))]


def test_every_entry_of_the_list_is_found_and_is_written_as_it_is_looked_for():
    assert len(entries()) > 500
    missed = [e for e in entries() if not check_free_words(f"after {e.rstrip('-')}, again")]
    assert missed == []


def test_the_opponents_of_the_demo_are_words_of_the_pitch():
    assert [name for name in OPPONENTS if check_free_words(name)] == []
