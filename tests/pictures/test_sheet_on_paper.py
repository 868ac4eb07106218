"""The coach's sheet as it is seen: drawn from the bytes of the PDF, also in grey."""

from dataclasses import replace
from io import BytesIO
from itertools import combinations

import pytest
from PIL import Image
from reportlab.pdfgen.canvas import Canvas

from teamrehab.domain.availability import Training
from teamrehab.reports.paper.coach_sheet import draw_coach_sheet
from teamrehab.reports.paper.discs import Disc
from teamrehab.reports.paper.preview import pages_as_png
from teamrehab.reports.sheet import coach_sheet
from tests.reports.squads import NOW, club, rows_of

pytestmark = pytest.mark.picture


def picture(squad):
    sheet = coach_sheet(squad, rows_of(squad), now=NOW, signed="Ines Duarte")
    (png,) = pages_as_png(draw_coach_sheet(sheet), 1.0)
    return Image.open(BytesIO(png)).convert("L")


def ink_box(grey):
    """Return left, top, right, bottom of what is not white."""
    return grey.point(lambda value: 255 * (value < 250)).getbbox()


def test_a_page_is_a4_and_nothing_touches_its_edges():
    grey = picture(club(30))
    assert grey.size == (596, 842)
    left, top, right, bottom = ink_box(grey)
    assert left >= 28
    assert top >= 28
    assert right <= grey.width - 28
    assert bottom <= grey.height - 20


def test_a_very_long_name_stays_in_its_column():
    first, *others = club(30).athletes
    long = replace(first, first_name="Maximiliana" * 18, surname="")
    _left, _top, right, _bottom = ink_box(picture(club(30, athletes=(long, *others))))
    assert right <= 596 - 28


def sign(training, diameter=40):
    """Return a sign as a grey picture: shares of ink above, below and in its middle."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(diameter, diameter))
    Disc(training, diameter).drawOn(canvas, 0, 0)
    canvas.save()
    (png,) = pages_as_png(out.getvalue(), 2.0)
    grey = Image.open(BytesIO(png)).convert("L")
    above, below, middle = (0.3, 0.2, 0.7, 0.42), (0.3, 0.58, 0.7, 0.8), (0.44, 0.4, 0.56, 0.48)
    return tuple(darkness(grey, box) for box in (above, below, middle))


def darkest(training):
    """Return how dark the darkest part of a sign is."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(40, 40))
    Disc(training, 40).drawOn(canvas, 0, 0)
    canvas.save()
    (png,) = pages_as_png(out.getvalue(), 2.0)
    return 1 - min(Image.open(BytesIO(png)).convert("L").tobytes()) / 255


def darkness(grey, box):
    """Return how dark a part is, 0 (white) to 1 (black); ``box`` in shares of the width."""
    x, y, to_x, to_y = (round(edge * grey.width) for edge in box)
    values = grey.crop((x, y, to_x, to_y)).tobytes()
    return 1 - sum(values) / len(values) / 255


def test_the_signs_differ_in_grey_by_shape_and_not_only_by_shade():
    signs = {training: sign(training) for training in (*Training, None)}
    full, half, ring = (signs[t] for t in Training)
    assert min(full) > 0.8, "filled above and below"
    assert half[1] > 0.8 > 0.1 > half[0], "filled below only"
    assert max(ring) < 0.1 < darkest(Training.NONE), "open in the middle, with a rim"
    for one, other in combinations(signs.values(), 2):
        assert max(abs(a - b) for a, b in zip(one, other, strict=True)) > 0.15
