from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teamrehab.domain.athletes import Athlete
from teamrehab.exchange.headings import Column, split_name
from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.exchange.roster import preview_roster, who
from teamrehab.exchange.roster_out import roster_csv

TODAY = date(2026, 10, 5)


@pytest.fixture
def preview(tmp_path):
    def read(content, **options):
        path = tmp_path / "roster.csv"
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
        return preview_roster(path, TODAY, **options)

    return read


def only(preview):
    assert not preview.problems
    (athlete,) = preview.athletes
    return athlete


@pytest.mark.parametrize(
    "headings",
    [
        "Number,Surname,First name,Born,Position,Weight,Joined,Left",
        "Dorsal;Apellidos;Nombre;Fecha de nacimiento;Posición;Peso (kg);Alta;Baja",
        "Numéro;Nom;Prénom;Date de naissance;Poste;Poids;Arrivée;Départ",
        "Rückennummer\tName\tVorname\tGeburtsdatum\tPosition\tGewicht\tEintritt\tAustritt",
        "Nº;Apelido;Nome;Data de nascimento;Posição;Peso;Entrada;Saída",
    ],
)
def test_a_row_reads_alike_under_the_headings_of_five_languages(preview, headings):
    sign = next(sign for sign in ";\t," if sign in headings)
    row = sign.join(["8", "Okafor", "Sam", "31.01.2004", "wing", "72.5", "2023-07-01", ""])
    found = only(preview(f"{headings}\n{row}\n"))
    assert found == Athlete(
        athlete_id="",
        surname="Okafor",
        first_name="Sam",
        number=8,
        born=date(2004, 1, 31),
        position="wing",
        weight_g=72_500,
        joined=date(2023, 7, 1),
    )


def test_a_number_that_stands_twice_is_named_and_both_athletes_are_kept(preview):
    found = preview(
        "Number,Surname,Left\n8,Okafor,\n9,Bae,\n8,Menon,\n,Silva,\n,Duarte,\n9,Rossi,2020-01-01\n"
    )
    assert len(found.athletes) == 6
    (doubt,) = found.doubtful
    assert (doubt.line, doubt.column, doubt.what.value) == (4, "Number", "8")
    assert "line 2 has the same number" in str(doubt)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16", "utf-16-le"])
@pytest.mark.parametrize("sign", [",", ";", "\t"])
def test_any_common_encoding_and_delimiter_reads_alike(preview, encoding, sign):
    text = f"Surname{sign}First name\r\nMüller-Peña{sign}Zoë\r\n"
    found = only(preview(text.encode(encoding)))
    assert (found.surname, found.first_name) == ("Müller-Peña", "Zoë")


def test_a_decimal_comma_and_a_unit_are_read(preview):
    assert only(preview('Name;kg\nSam Okafor;"72,5 kg"\n')).weight_g == 72_500


def test_titles_above_and_a_named_delimiter_do_not_shift_the_lines(preview):
    found = preview("sep=;\nSquad list\n\nSurname;No\nOkafor;8\nBae;x\n")
    assert [a.number for a in found.athletes] == [8]
    assert [p.line for p in found.problems] == [6]


def test_headings_are_told_apart_into_recognised_and_not(preview):
    found = preview("No,Surname,Boots\n8,Okafor,red\n")
    assert found.recognised == (("No", Column.NUMBER), ("Surname", Column.SURNAME))
    assert found.not_recognised == ("Boots",)


def test_a_bad_row_is_named_and_the_good_ones_are_kept(preview):
    found = preview("Surname,Born,No\nOkafor,2001-03-01,8\nBae,2003-02-31,x9\nLind,,7\n")
    assert [a.surname for a in found.athletes] == ["Okafor", "Lind"]
    assert [(p.line, p.column, p.what.value) for p in found.problems] == [
        (3, "Born", "2003-02-31"),
        (3, "No", "x9"),
    ]
    assert "Line 3" in str(found.problems[0])
    assert all(p.what.remedy for p in found.problems)


def test_one_clear_row_decides_how_the_column_writes_its_dates(preview):
    british = preview("Surname,Born\nOkafor,03/04/2001\nBae,31/12/2002\n")
    american = preview("Surname,Born\nOkafor,03/04/2001\nBae,12/31/2002\n")
    assert british.athletes[0].born == date(2001, 4, 3)
    assert american.athletes[0].born == date(2001, 3, 4)


def test_a_date_that_could_be_two_is_named_until_a_person_decides(preview):
    text = "Surname,Born\nOkafor,03/04/2001\n"
    assert "either way round" in preview(text).problems[0].what.allowed
    assert only(preview(text, day_first=True)).born == date(2001, 4, 3)
    assert only(preview(text, day_first=False)).born == date(2001, 3, 4)


def test_a_column_that_contradicts_itself_names_only_the_open_rows(preview):
    found = preview("Surname,Born\nA,31/12/2001\nB,12/31/2001\nC,03/04/2001\nD,05/05/2001\n")
    assert [p.line for p in found.problems] == [4]


def test_a_year_of_two_figures_is_not_guessed(preview):
    assert "four figures" in preview("Surname,Born\nA,03/04/01\n").problems[0].what.allowed


@pytest.mark.parametrize("sign", ["\x00", "\x07", "\u202e", "\u2066"])
def test_a_name_with_an_unprintable_or_turning_sign_is_refused_and_not_echoed(preview, sign):
    (problem,) = preview(f"Surname,No\nOka{sign}for,8\n").problems
    assert sign not in str(problem)
    assert problem.column == "Surname"


def test_a_name_of_ten_thousand_letters_is_refused_with_a_short_echo(preview):
    (problem,) = preview("Surname\n" + "x" * 10_000 + "\n").problems
    assert len(str(problem)) < 200
    assert "at most 200" in str(problem)


@pytest.mark.parametrize(
    "name", ["O'Brien-Łukasz", "الحداد", "כהן 7", "김", "<b>x</b>", "'; DROP", "👩‍⚕️ Ito"]
)
def test_names_of_every_script_are_kept_as_typed(preview, name):
    assert only(preview(f'Surname\n"{name}"\n')).surname == name


def test_combining_accents_become_one_letter(preview):
    assert only(preview("Surname\nPen\u0303a\n")).surname == "Peña"


def test_the_second_row_of_one_athlete_is_named_with_the_line_of_the_first(preview):
    text = "Surname,First name,Born\nOkafor,Sam,2001-03-01\nBae,Ji,\nOKAFOR,sam,01.03.2001\n"
    found = preview(text)
    assert [a.surname for a in found.athletes] == ["Okafor", "Bae"]
    assert [p.line for p in found.problems] == [4]
    assert "line 2" in str(found.problems[0])


def test_namesakes_with_other_birth_dates_are_two_people(preview):
    found = preview("Name,Born\nAna Silva,2001-03-01\nAna Silva,2003-03-01\n")
    assert len(found.athletes) == 2


def test_an_athlete_born_tomorrow_is_named(preview):
    tomorrow = TODAY + timedelta(days=1)
    assert preview(f"Surname,Born\nOkafor,{tomorrow}\n").problems[0].line == 2


def test_five_hundred_athletes_are_read(preview):
    rows = "".join(f"{i},Name{i},First\n" for i in range(500))
    assert len(preview(f"No,Surname,First name\n{rows}").athletes) == 500


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "empty"),
        (b" \r\n\r\n", "empty"),
        (b"Surname,No\n", "no athletes"),
        (b"a,b\n1,2\n", "no heading"),
        (b"\xd0\xcf\x11\xe0old", "Save it as .xlsx"),
        (b"\x81\x8d,\xff", "letters"),
        (b"Surname\n" + b"a\n" * 10_001, "rows"),
        (b'Surname\n"' + b"a" * 200_000, "Line 2"),
    ],
)
def test_a_file_that_cannot_be_read_is_answered_with_one_sentence(preview, content, says):
    with pytest.raises(UnreadableFileError, match=says) as refusal:
        preview(content)
    assert "\n" not in str(refusal.value)


def test_a_missing_file_and_a_folder_are_answered_with_one_sentence(tmp_path):
    for path in (tmp_path / "none.csv", tmp_path):
        with pytest.raises(UnreadableFileError, match="could not be opened"):
            preview_roster(path, TODAY)


def test_a_file_over_twenty_megabytes_is_not_read(tmp_path):
    path = tmp_path / "big.csv"
    with path.open("wb") as file:
        file.truncate(20_000_001)
    with pytest.raises(UnreadableFileError, match="at most 20 MB"):
        preview_roster(path, TODAY)


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("Okafor, Sam", ("Okafor", "Sam")),
        ("Sam Okafor", ("Okafor", "Sam")),
        ("OKAFOR Sam", ("OKAFOR", "Sam")),
        ("Eva van der Meer", ("van der Meer", "Eva")),
        ("Okafor", ("Okafor", "")),
        ("김 민준", ("민준", "김")),
    ],
)
def test_a_name_in_one_cell_is_split(name, parts):
    assert split_name(name) == parts


words = st.text(st.characters(categories=["Lu", "Ll", "Lo"], max_codepoint=0x24F), min_size=1)
signs = st.sampled_from(["", "=", "+", "-", "@", "'", "'=", '"', ";", ",", "#"])
texts = st.builds(lambda sign, word: (sign + word)[:60], signs, words)
days = st.dates(date(1970, 1, 1), date(2010, 1, 1))
people = st.builds(
    Athlete,
    athlete_id=st.just(""),
    surname=texts,
    first_name=texts,
    number=st.none() | st.integers(1, 99),
    born=st.none() | days,
    position=st.just("") | texts,
    weight_g=st.none() | st.integers(400, 1400).map(lambda kg: kg * 100),
    joined=st.none() | st.dates(date(2019, 1, 1), date(2023, 1, 1)),
    left=st.none() | st.dates(date(2024, 1, 1), date(2026, 1, 1)),
)


@given(st.lists(people, min_size=1, max_size=8, unique_by=who))
def test_athletes_written_as_csv_come_back_the_same(tmp_path_factory, athletes):
    path = tmp_path_factory.mktemp("round") / "roster.csv"
    path.write_bytes(roster_csv(athletes))
    found = preview_roster(path, TODAY)
    assert not found.problems
    assert found.athletes == tuple(
        replace(
            a, surname=nfc(a.surname), first_name=nfc(a.first_name), position=nfc(a.position)
        )
        for a in athletes
    )


def nfc(text):
    from unicodedata import normalize

    return normalize("NFC", text)


cells = st.sampled_from(
    [
        "",
        " ",
        "Okafor",
        "x" * 500,
        "1",
        "-1",
        "03/04/2001",
        "31.12.2002",
        "2001-02-30",
        "a\x00",
        "99 kg",
        "\u202eb",
    ]
) | st.text(st.characters(exclude_categories=["Cs"]), max_size=8)


@given(st.lists(st.lists(cells, min_size=5, max_size=5), min_size=1, max_size=12))
def test_every_row_that_is_not_empty_is_an_athlete_or_a_problem(tmp_path_factory, rows):
    path = tmp_path_factory.mktemp("rows") / "roster.csv"
    path.write_bytes(as_csv([["Surname", "First name", "No", "Born", "kg"], *rows]))
    filled = sum(any(cell.strip() for cell in row) for row in rows)
    try:
        found = preview_roster(path, TODAY)
    except UnreadableFileError:
        assert filled == 0
        return
    assert found.rows == filled
    assert len(found.athletes) + len({p.line for p in found.problems}) == filled


def as_csv(rows):
    import csv
    import io

    out = io.StringIO(newline="")
    csv.writer(out).writerows(rows)
    return out.getvalue().encode("utf-8-sig")
