"""The published figures: every number has a source, derived ones follow from their formula."""

import tomllib
from math import exp, log, sqrt
from pathlib import Path

import pytest
from scipy.stats import lognorm

from teamrehab import forecast
from teamrehab.forecast import (
    NoPublishedFigureError,
    PublishedFiguresError,
    published_figures,
)
from teamrehab.locations import RESOURCES

FILE = RESOURCES / "published.toml"
PUBLISHED = published_figures()


def mixture(*rows: tuple[float, float, float]) -> tuple[float, float]:
    """Return mean and SD of groups given as (share, mean, sd)."""
    mean = sum(w * m for w, m, _ in rows)
    return mean, sqrt(sum(w * (m * m + sd * sd) for w, m, sd in rows) - mean**2)


def from_quartiles(median: float, low: float, high: float) -> tuple[float, float]:
    sigma = log(high / low) / 1.349
    mean = median * exp(sigma**2 / 2)
    return mean, mean * sqrt(exp(sigma**2) - 1)


def test_soleus_and_gastrocnemius_stand_as_printed():
    """Scand J Med Sci Sports 2020;30:174-184, doi 10.1111/sms.13552."""
    soleus = PUBLISHED.figure("calf_strain", "soleus")
    other = PUBLISHED.figure("calf_strain", "gastrocnemius")
    assert (soleus.mean, soleus.sd, other.mean, other.sd) == (25.4, 16.2, 19.1, 14.1)


def test_soleus_as_a_log_normal_agrees_with_a_reference_library():
    """Same source; values computed with scipy.stats and by hand to the digits below."""
    mu, sigma = PUBLISHED.figure("calf_strain", "soleus").log_normal
    total = lognorm(sigma, scale=exp(mu))
    assert (round(mu, 3), round(sigma, 3)) == (3.064, 0.584)
    assert (total.mean(), total.std()) == pytest.approx((25.4, 16.2))
    assert total.median() == pytest.approx(21.42, abs=0.005)
    assert total.ppf(0.9) == pytest.approx(45.28, abs=0.005)
    assert total.cdf(21) == pytest.approx(0.4866, abs=5e-5)
    assert total.isf(total.sf(21) / 2) == pytest.approx(31.37, abs=0.005)


@pytest.mark.parametrize(
    ("injury", "expected"),
    [
        ("calf_strain", mixture((0.846, 25.4, 16.2), (0.154, 19.1, 14.1))),
        (
            "hamstring_strain",
            mixture((0.13, 8, 3), (0.57, 17, 10), (0.27, 22, 11), (0.03, 73, 60)),
        ),
        ("adductor_strain", from_quartiles(18, 14, 27)),
        ("quadriceps_strain", tuple(12 / 4 * x for x in from_quartiles(4, 2, 6))),
        ("ankle_sprain", (15.92, 15.92 * 21.9 / 20.0)),
    ],
)
def test_a_derived_figure_follows_from_the_printed_ones(injury, expected):
    figure = PUBLISHED.figure(injury)
    assert (figure.mean, figure.sd) == pytest.approx(expected, abs=0.051)


@pytest.mark.parametrize(
    ("injury", "printed"),
    [
        ("calf_strain", (8, 17, 25, 48)),
        ("hamstring_strain", (8, 17, 22, 73)),
    ],
)
def test_a_graded_injury_comes_out_at_the_mean_printed_for_its_grade(injury, printed):
    """Br J Sports Med 2018;52:929-933 and 2012;46:112-117."""
    means = [PUBLISHED.mean(injury, grade=grade) for grade in range(4)]
    assert means == pytest.approx(printed, rel=0.02)


def test_what_is_unknown_changes_nothing():
    plain = PUBLISHED.mean("calf_strain")
    assert PUBLISHED.mean("calf_strain", "a muscle nobody wrote about") == plain
    assert PUBLISHED.mean("ankle_sprain", grade=3) == PUBLISHED.mean("ankle_sprain")
    assert PUBLISHED.mean("calf_strain", age=25) == plain
    assert PUBLISHED.mean("calf_strain", age=35, recurrence=True) == pytest.approx(
        plain * 1.1 * 1.2
    )


def test_an_injury_without_a_figure_is_refused_by_name():
    with pytest.raises(NoPublishedFigureError, match="broken_heart"):
        PUBLISHED.mean("broken_heart")


def numbers_without_source(table: dict, where: str = "") -> list[str]:
    """Return the tables of a file that hold numbers and no source."""
    bare = []
    own = [v for k, v in table.items() if k != "ratios" and not isinstance(v, dict | str)]
    if (own or "ratios" in table) and not table.get("source"):
        bare.append(where)
    for key, value in table.items():
        if isinstance(value, dict) and key != "ratios":
            bare += numbers_without_source(value, f"{where}.{key}")
    return bare


def test_every_number_of_the_file_has_a_source():
    table = tomllib.loads(FILE.read_text())
    assert numbers_without_source(table) == []
    del table["injury"]["calf_strain"]["grades"]["source"]
    assert numbers_without_source(table) == [".injury.calf_strain.grades"]


@pytest.mark.parametrize(
    ("wrong", "named"),
    [
        (("mean = 25.4", "mean = -1"), "calf_strain.soleus"),
        (("mean = 23.0\n", ""), "mean"),
        (("0.20, 0.25", "0.30, 0.25"), "stage_shares"),
        (("ratio = 1.2", 'ratio = "much"'), "much"),
        (("[age]", "[age"), "published.toml"),
        (('source = "common practice; ', 'sauce = "'), "stage_shares: source"),
    ],
)
def test_a_wrong_entry_is_named(tmp_path, wrong, named):
    text = FILE.read_text()
    assert wrong[0] in text
    path = tmp_path / "published.toml"
    path.write_text(text.replace(wrong[0], wrong[1], 1))
    with pytest.raises(PublishedFiguresError, match=named):
        published_figures(path)


def test_a_missing_file_is_a_sentence(tmp_path):
    with pytest.raises(PublishedFiguresError, match=r"nowhere\.toml cannot be read"):
        published_figures(tmp_path / "nowhere.toml")


def test_the_engine_knows_no_injury_and_no_muscle():
    keys = {*PUBLISHED.injuries, *(m for i in PUBLISHED.injuries.values() for m in i.muscles)}
    words = {word for key in keys for word in key.split("_")} - {"strain", "sprain"}
    code = "\n".join(p.read_text() for p in Path(forecast.__file__).parent.glob("*.py")).lower()
    # one citation tells of a joint; it is a source, not a rule
    code = code.replace("ankle sprain run from 9.6", "")
    assert {word for word in words if word in code} == set()
