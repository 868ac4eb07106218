"""The coach's sheet on paper, read back from its bytes."""

import ast
import re
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from arabic_reshaper import reshape
from bidi import get_display  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader
from reportlab.pdfbase.ttfonts import TTFontFile

from teamrehab.domain.availability import Match, Training
from teamrehab.domain.injuries import ReturnDecision
from teamrehab.locations import RESOURCES
from teamrehab.reports.paper import page
from teamrehab.reports.paper.coach_sheet import ONE_PAGE, draw_coach_sheet
from teamrehab.reports.paper.letters import can_print, marked, plain, register_fonts
from teamrehab.reports.sheet import coach_sheet, issued
from teamrehab.reports.sheet_text import sheet_text
from teamrehab.reports.wording import match_outlook_words
from teamrehab.reports.wording_sheet import may_not_words, may_words, return_words
from tests.contrast import contrast
from tests.reports.squads import (
    MARKER,
    MONDAY,
    NAMES,
    NOW,
    club,
    estimate,
    hurt,
    limited,
    people,
    rows_of,
)

PAPER = Path(page.__file__).parent


def sheet_of(squad, **options):
    rows = rows_of(squad)
    return coach_sheet(squad, rows, now=NOW, **({"signed": "Ines Duarte"} | options))


def read(pdf):
    return PdfReader(BytesIO(pdf))


def text_of(pdf):
    """Return all the text of a PDF on one line, spaces as single ones."""
    text = " ".join(p.extract_text() for p in read(pdf).pages)
    return re.sub(r"\s+", " ", text)


def on_paper(text):
    """Return a text as the eye reads it on paper."""
    return re.sub(r"\s+", " ", get_display(reshape(text), base_dir="L"))


def assert_printed(text, pdf_text):
    """Hold that every word of ``text`` is printed (lines may break between them)."""
    words = [word.strip(":") for word in on_paper(text).split()]
    missing = [w for w in words if w not in pdf_text and w[::-1] not in pdf_text]
    assert missing == [], text


def test_every_line_of_the_finding_is_on_paper():
    sheet = sheet_of(club())
    text = text_of(draw_coach_sheet(sheet))
    for line in sheet.lines:
        assert_printed(line.name, text)
        for said in (may_words(line), may_not_words(line), line.reason):
            assert_printed(said, text)
        if line in sheet.not_training:
            assert_printed(return_words(line), text)
        if line.match is not Match.AVAILABLE:
            for chance in line.chances:
                assert_printed(chance.words.replace(",", ""), text)
    for match in sheet.today.matches:
        assert match_outlook_words(match) in text
        assert match.fixture.opponent in text
    for sentence in (sheet.team, sheet.caution, "Signed: Ines Duarte", "page 1 of 1"):
        assert_printed(sentence, text)


def test_a_match_ruled_out_is_on_paper_for_who_trains_fully_and_may_play_today():
    decision = ReturnDecision(case_id="c-a1", athlete_id="a1", on=MONDAY, ruled_out=("m1",))
    free = {"training": Training.FULL, "match": Match.AVAILABLE}
    squad = club(3, open_cases=(hurt(people(1)[0], 20, decision, **free),), absences=())
    text = text_of(draw_coach_sheet(sheet_of(squad)))
    assert "Full training, matches in words (1)" in text
    assert "Sam Okafor medical ruled out decided available available" in text


def test_changes_and_decisions_are_on_paper():
    squad = club()
    last = issued(sheet_of(squad), squad, rows_of(squad, {}))
    lines = tuple(replace(line, limits="", window="x") for line in last.lines)
    sheet = sheet_of(squad, last=replace(last, lines=lines))
    text = text_of(draw_coach_sheet(sheet))
    assert sheet.changed
    for sentence in (*sheet.changed, *(who for who, _when in sheet.decisions)):
        assert_printed(sentence, text)


def streams(pdf):
    """Return the drawing orders of every page, unpacked."""
    return [page.get_contents().get_data() for page in read(pdf).pages]


def test_no_clinical_word_is_in_text_metadata_or_raw_bytes():
    squad = club()
    pdf = draw_coach_sheet(sheet_of(squad))
    reader = read(pdf)
    assert repr(squad).count(MARKER) > 20
    assert MARKER not in text_of(pdf)
    assert MARKER not in str(reader.metadata) + str(reader.xmp_metadata)
    assert all(MARKER.encode() not in raw for raw in (pdf, *streams(pdf)))
    assert not reader.attachments
    assert not reader.outline
    assert all("/Annots" not in p for p in reader.pages)


def test_the_same_search_finds_a_marker_that_does_stand_on_the_sheet():
    squad = club(team=replace(club().team, name=MARKER))
    pdf = draw_coach_sheet(sheet_of(squad))
    assert MARKER in text_of(pdf)
    assert any(b"Tj" in raw for raw in streams(pdf)), "the pages were unpacked"


def test_the_file_says_nothing_of_itself_but_its_title():
    data = read(draw_coach_sheet(sheet_of(club(), number=7))).metadata
    assert data is not None
    assert data.title == "Availability sheet 7"
    others = {
        str(v) for k, v in data.items() if k not in {"/Title", "/CreationDate", "/ModDate"}
    }
    assert not [v for v in others if any(a.surname in v for a in people(30))]
    assert (data.author or "", data.subject or "") == ("", "")
    assert "2000" in str(data["/CreationDate"]), "a fixed date: the clock is not in the file"


@pytest.mark.parametrize(
    "name",
    [
        "<b>Bold</b>",
        '<img src="/etc/passwd"/>',
        "Rowe & Sons <a href='x'>",
        "</para><para>",
        "O'Brien-Łukasz \\ %s {0}",
        "&lt;tag&gt;",
    ],
)
def test_a_name_with_markup_is_printed_as_typed_and_draws_nothing(name):
    first, *others = people(30)
    named = replace(first, first_name=name, surname="")
    pdf = draw_coach_sheet(
        sheet_of(club(athletes=(named, *others), team=replace(club().team, name=name)))
    )
    assert_printed(name, text_of(pdf))
    assert b"/Subtype /Image" not in pdf
    assert not any(p.images for p in read(pdf).pages)


def test_paragraphs_are_made_in_one_place_only():
    made = []
    for file in PAPER.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            called = node.func if isinstance(node, ast.Call) else None
            name = getattr(called, "id", getattr(called, "attr", ""))
            if name in {"Paragraph", "XPreformatted", "ParaLines"}:
                made.append(file.name)
    assert made == ["page.py"]


@pytest.mark.parametrize("length", [200, 10_000])
@pytest.mark.parametrize("letter", ["x", "x "])
def test_a_very_long_name_fits_on_paper(length, letter):
    first, *others = people(30)
    named = replace(first, first_name=(letter * length)[:length].strip(), surname="")
    text = text_of(draw_coach_sheet(sheet_of(club(athletes=(named, *others)))))
    shown = text.count("x")
    assert shown >= min(len(plain(named.first_name).replace(" ", "")), 200)
    assert "Ben Hargrove" in text


def test_right_to_left_names_are_shaped_and_in_the_order_of_the_eye():
    arabic, hebrew = people(30)[6].name, people(30)[7].name
    assert re.sub("<.*?>", "", marked(hebrew)) == hebrew[::-1]
    drawn = re.sub("<.*?>", "", marked(arabic))
    assert drawn == on_paper(arabic)
    assert all(ord(letter) >= 0xFE70 for letter in drawn.replace(" ", "")), "joined forms"
    text = text_of(draw_coach_sheet(sheet_of(club())))
    assert_printed(arabic, text)
    assert_printed(hebrew, text)


def test_a_name_our_fonts_cannot_print_is_printed_in_its_latin_spelling():
    first, *others = people(30)
    hangul = replace(first, first_name="흥민", surname="손", printed_name="Son Heung-min")
    squad = club(athletes=(hangul, *others))
    last = issued(sheet_of(club()), squad, ())
    text = text_of(draw_coach_sheet(sheet_of(squad, last=last)))
    assert "Son Heung-min" in text
    assert "Son Heung-min: new on the sheet" in text
    assert "?" not in text


def test_every_glyph_printed_exists_in_the_font():
    sheet = sheet_of(club())
    pdf = draw_coach_sheet(sheet)
    held = set().union(*register_fonts().values())
    printed = {letter for p in read(pdf).pages for letter in p.extract_text()} - set("\n")
    assert {letter for letter in printed if ord(letter) not in held} == set()
    assert "\N{REPLACEMENT CHARACTER}" not in printed
    assert all(can_print(athlete.name) for athlete in people(30))


def test_our_own_words_use_no_letter_the_fonts_lack():
    said = []
    for file in PAPER.parent.rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and getattr(node.func, "id", "") in {"_", "counted"}:
                said += [a.value for a in node.args if isinstance(a, ast.Constant)]
    lacking = [text for text in said if isinstance(text, str) and not can_print(text)]
    assert len(said) > 100
    assert lacking == []


def test_regular_and_heavy_hold_the_same_letters():
    fonts = [
        frozenset(TTFontFile(str(RESOURCES / "fonts" / f"NotoSans-{cut}.ttf")).charToGlyph)
        for cut in ("Regular", "SemiBold")
    ]
    assert fonts[0] == fonts[1]


@given(st.text(max_size=60))
def test_any_text_becomes_markup_that_holds_only_our_own_font_tags(text):
    rest = re.sub(r'</?font( name="[\w-]+")?>', "", marked(text))
    assert "<" not in rest
    assert ">" not in rest
    assert not re.search(r"&(?!amp;|lt;|gt;)", rest)


@settings(max_examples=25, deadline=None)
@given(st.text(max_size=300))
def test_any_team_name_can_be_drawn(name):
    squad = club(3)
    assert draw_coach_sheet(sheet_of(replace(squad, team=replace(squad.team, name=name))))


@pytest.mark.parametrize("count", [0, 1, 20, 30, 35])
def test_up_to_35_athletes_are_one_page(count):
    assert len(read(draw_coach_sheet(sheet_of(club(count)))).pages) == 1


def hard_week(limited_count, out_count):
    """Return a sheet of 35 with so many limits and so many out."""
    who = people(ONE_PAGE)
    limits = [limited(one) for one in who[:limited_count]]
    out = [hurt(one, 20) for one in who[limited_count:][:out_count]]
    squad = club(ONE_PAGE, open_cases=(*limits, *out))
    ranges = {h.case.case_id: estimate(3, 20) for h in squad.open_cases}
    return coach_sheet(squad, rows_of(squad, ranges), now=NOW, signed="Ines Duarte")


def type_sizes(pdf):
    """Return the sizes of type on the first page."""
    sizes = set()
    first = read(pdf).pages[0]
    first.extract_text(
        visitor_text=lambda text, _cm, _tm, _font, size: sizes.add(size if text.strip() else 12)
    )
    return sizes


def test_a_hard_week_of_35_is_one_page_that_can_still_be_read():
    pdf = draw_coach_sheet(hard_week(12, 8))
    assert len(read(pdf).pages) == 1
    assert min(type_sizes(pdf)) >= 4.8


def test_where_one_page_would_need_unreadable_type_there_are_two_in_full_size():
    pdf = draw_coach_sheet(hard_week(ONE_PAGE, 0))
    assert len(read(pdf).pages) > 1
    assert min(type_sizes(pdf)) >= 8


def test_more_athletes_take_more_pages_whose_heads_repeat():
    squad = club(60, open_cases=tuple(limited(who) for who in people(60)), absences=())
    pages = [p.extract_text() for p in read(draw_coach_sheet(sheet_of(squad))).pages]
    assert len(pages) > 1
    for number, text in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in text
    listed = [text for text in pages if "May not:" in text]
    assert len(listed) > 1
    assert all("Trains with limits (60)" in text for text in listed)
    assert all("Availability sheet 1, Week of 14–20 Dec" in text for text in pages[1:])


def test_500_athletes_all_stand_in_the_rows_on_the_sheet_in_its_text_and_on_paper():
    squad = club(500)
    rows = rows_of(squad)
    sheet = coach_sheet(squad, rows, now=NOW, signed="Ines Duarte")
    names = [athlete.name for athlete in squad.athletes]
    assert [row.name for row in rows] == names
    assert sorted(line.name for line in sheet.lines) == sorted(names)
    said, pages = sheet_text(sheet), read(draw_coach_sheet(sheet)).pages
    on_paper = " ".join(page.extract_text() for page in pages)
    numbered = names[len(NAMES) :]
    assert len(numbered) == 470
    for text in (said, re.sub(r"\s+", " ", on_paper)):
        assert [name for name in numbered if not re.search(rf"\b{name}\b", text)] == []
    assert f"page {len(pages)} of {len(pages)}" in on_paper


def test_a_week_without_any_entry_match_or_case_is_a_whole_sheet():
    squad = club(20, open_cases=(), absences=(), fixtures=())
    rows = rows_of(squad, {})
    sheet = coach_sheet(squad, rows, now=NOW, signed="Ines Duarte")
    text = text_of(draw_coach_sheet(sheet))
    assert {row.last_entry for row in rows} == {None}
    assert len(sheet.full) == 20
    assert [label for _day, label in sheet.days] == [""] * 7
    for said in ("20 full", "No match in the calendar.", "First sheet: nothing to compare"):
        assert said in text
    assert "Full training (20)" in sheet_text(sheet)


@pytest.mark.parametrize(
    "changes", [{"athletes": (), "open_cases": (), "absences": ()}, {"fixtures": ()}]
)
def test_no_athletes_and_no_fixtures_still_print(changes):
    text = text_of(draw_coach_sheet(sheet_of(club(**changes))))
    assert "Harbour Rovers" in text
    assert "Full training" in text


def test_the_same_sheet_gives_the_same_bytes_and_another_gives_others():
    sheet = sheet_of(club())
    assert draw_coach_sheet(sheet) == draw_coach_sheet(sheet)
    assert draw_coach_sheet(replace(sheet, number=9)) != draw_coach_sheet(sheet)


@pytest.mark.parametrize(
    ("text", "ground"),
    [
        (text, ground)
        for text in (page.INK, page.MUTED, page.ACCENT)
        for ground in (page.PAPER, page.TINT)
    ]
    + [(page.PAPER, page.ACCENT)],
)
def test_every_text_on_paper_has_the_contrast_of_wcag(text, ground):
    assert contrast(text, ground) >= 4.5
