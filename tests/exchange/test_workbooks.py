import io
import tracemalloc
import zipfile
from datetime import date

import pytest
import xlsxwriter

from teamrehab.exchange.problems import UnreadableFileError
from teamrehab.exchange.roster import preview_roster

TODAY = date(2026, 10, 5)
TYPES = "[Content_Types].xml"


def workbook(path, rows, **options):
    with xlsxwriter.Workbook(path, options) as book:
        hidden = book.add_worksheet("hidden")
        sheet = book.add_worksheet("squad")
        sheet.activate()
        sheet.set_first_sheet()
        hidden.write(0, 0, "Surname")
        hidden.write(1, 0, "Wrong")
        hidden.hide()
        as_date = book.add_format({"num_format": "dd/mm/yyyy"})
        for r, row in enumerate(rows):
            for c, value in enumerate(row):
                if isinstance(value, date):
                    sheet.write_datetime(r, c, value, as_date)
                else:
                    sheet.write(r, c, value)
    return path


@pytest.mark.parametrize("since_1904", [False, True])
def test_dates_and_numbers_of_a_spreadsheet_are_read_in_both_date_systems(tmp_path, since_1904):
    rows = [["No", "Surname", "Born", "kg"], [8, "Łukasz", date(2004, 2, 29), 72.5]]
    path = workbook(tmp_path / "r.xlsx", rows, date_1904=since_1904)
    (found,) = preview_roster(path, TODAY).athletes
    assert (found.number, found.surname, found.born, found.weight_g) == (
        8,
        "Łukasz",
        date(2004, 2, 29),
        72_500,
    )


def test_a_plain_number_is_not_taken_for_a_date(tmp_path):
    path = workbook(tmp_path / "r.xlsx", [["Surname", "Born"], ["Okafor", 38000]])
    (problem,) = preview_roster(path, TODAY).problems
    assert (problem.line, problem.column) == (2, "Born")


def refusal(path):
    with pytest.raises(UnreadableFileError) as told:
        preview_roster(path, TODAY)
    return str(told.value)


def with_part(tmp_path, name, content):
    """A good workbook with one part replaced or added."""
    good = workbook(tmp_path / "good.xlsx", [["Surname"], ["Okafor"]]).read_bytes()
    path = tmp_path / "bad.xlsx"
    with (
        zipfile.ZipFile(io.BytesIO(good)) as old,
        zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as new,
    ):
        for part in old.namelist():
            if part != name:
                new.writestr(part, old.read(part))
        new.writestr(name, content)
    return path


def test_a_few_kilobytes_that_unpack_to_megabytes_are_refused_unopened(tmp_path):
    path = with_part(tmp_path, "xl/media/image1.bin", bytes(60_000_000))
    tracemalloc.start()
    assert "unpacks to 60 MB" in refusal(path)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 5_000_000


@pytest.mark.parametrize(
    "place", ['r="XFD1048576"', "r='XFD1048576'", 'r="A1048576"', 'r="XFD1"']
)
def test_one_cell_at_the_far_corner_is_refused(tmp_path, place):
    cells = f'<row r="1"><c r="A1"><v>1</v></c></row><row><c {place}><v>1</v></c></row>'
    sheet = f"<worksheet><sheetData>{cells}</sheetData></worksheet>"
    assert "reaches beyond" in refusal(with_part(tmp_path, "xl/worksheets/sheet2.xml", sheet))


def test_cells_without_a_place_are_counted(tmp_path):
    sheet = f"<worksheet><sheetData><row>{'<c/>' * 300}</row></sheetData></worksheet>"
    assert "reaches beyond" in refusal(with_part(tmp_path, "xl/worksheets/sheet2.xml", sheet))


def test_declared_entities_are_refused(tmp_path):
    bomb = '<!DOCTYPE x [<!ENTITY a "aaaa">]><worksheet>&a;</worksheet>'
    assert "entities" in refusal(with_part(tmp_path, "xl/worksheets/sheet2.xml", bomb))


def test_too_many_parts_are_refused(tmp_path):
    path = with_part(tmp_path, "more", b"")
    with zipfile.ZipFile(path, "a") as book:
        for number in range(1_001):
            book.writestr(f"part{number}", b"")
    assert "parts" in refusal(path)


def test_a_zip_that_is_no_spreadsheet_is_refused(tmp_path):
    path = tmp_path / "x.xlsx"
    with zipfile.ZipFile(path, "w") as book:
        book.writestr("readme.txt", "hello")
    assert "not an .xlsx" in refusal(path)


@pytest.mark.parametrize("cut", [1, 100, 1_000])
def test_a_cut_off_spreadsheet_is_refused(tmp_path, cut):
    data = workbook(tmp_path / "r.xlsx", [["Surname"], ["Okafor"]]).read_bytes()
    path = tmp_path / "cut.xlsx"
    path.write_bytes(data[:-cut])
    assert "damaged" in refusal(path)


def test_a_flipped_bit_is_refused(tmp_path):
    path = workbook(tmp_path / "r.xlsx", [["Surname"], ["Okafor"]])
    with zipfile.ZipFile(path) as book:
        part = book.getinfo("xl/worksheets/sheet2.xml")
    data = bytearray(path.read_bytes())
    data[part.header_offset + 30 + len(part.filename) + 10] ^= 0x10
    path.write_bytes(data)
    assert "damaged" in refusal(path)


@pytest.mark.parametrize(
    "sheet", ['<?xml version="1.0" encoding="UT7-8"?><worksheet/>', "<worksheet><row>", "<"]
)
def test_a_part_that_is_not_whole_or_in_unknown_letters_is_refused(tmp_path, sheet):
    assert "damaged" in refusal(with_part(tmp_path, "xl/worksheets/sheet2.xml", sheet))
