"""The published figures an estimate starts from, read from a data file with its sources."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, field
from math import log, sqrt
from pathlib import Path
from typing import Any

from teamrehab.language import _
from teamrehab.locations import RESOURCES

REFERENCE_AGE = 25
"""Age at which the published means hold as printed (most cohorts: mid twenties)."""


class PublishedFiguresError(Exception):
    """The file of published figures cannot be used; says which entry and why."""


class NoPublishedFigureError(LookupError):
    """An injury without a published figure was asked for one."""

    def __init__(self, injury: str) -> None:
        super().__init__(_("There is no published figure for {injury}.").format(injury=injury))


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A published mean and standard deviation in days, and where it was printed."""

    mean: float
    sd: float
    source: str

    @property
    def log_normal(self) -> tuple[float, float]:
        """Return mu and sigma of the log-normal with this mean and SD (method of moments)."""
        variance = log(1 + (self.sd / self.mean) ** 2)
        return log(self.mean) - variance / 2, sqrt(variance)


@dataclass(frozen=True, slots=True, kw_only=True)
class InjuryFigures:
    """What is published on one injury: overall, by muscle, and ratios by grade."""

    overall: Figure
    muscles: Mapping[str, Figure] = field(default_factory=dict)
    grades: Mapping[int, float] = field(default_factory=dict)
    grades_source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """All published figures: ratios multiply a mean, ``stage_shares`` divide it over stages."""

    injuries: Mapping[str, InjuryFigures]
    recurrence_ratio: float
    age_ratio: float
    stage_shares: tuple[float, ...]
    sources: Mapping[str, str] = field(default_factory=dict)

    def figure(self, injury: str, muscle: str = "") -> Figure:
        """Return the figure of a muscle, or the injury's overall one where it has none."""
        known = self.injuries.get(injury)
        if known is None:
            raise NoPublishedFigureError(injury)
        return known.muscles.get(muscle, known.overall)

    def mean(
        self,
        injury: str,
        muscle: str = "",
        *,
        grade: int | None = None,
        recurrence: bool = False,
        age: int | None = None,
    ) -> float:
        """Return the mean days to clearance; what is unknown changes nothing."""
        mean = self.figure(injury, muscle).mean
        if grade is not None:
            mean *= self.injuries[injury].grades.get(grade, 1.0)
        if recurrence:
            mean *= self.recurrence_ratio
        if age is not None:
            mean *= self.age_ratio ** ((age - REFERENCE_AGE) / 10)
        return mean


def published_figures(path: Path = RESOURCES / "published.toml") -> Published:
    """Return the figures of a file; PublishedFiguresError names the entry that is wrong."""
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
        return _published(table)
    except (OSError, tomllib.TOMLDecodeError) as trouble:
        raise PublishedFiguresError(
            _("The published figures in {file} cannot be read: {why}").format(
                file=path.name, why=trouble
            )
        ) from trouble
    except (KeyError, TypeError, ValueError, AttributeError) as trouble:
        raise PublishedFiguresError(
            _("The published figures in {file} lack or misstate this: {why}").format(
                file=path.name, why=trouble
            )
        ) from trouble


def _published(table: Mapping[str, Any]) -> Published:
    shares = tuple(
        _positive(share, "stage_shares") for share in table["stage_shares"]["values"]
    )
    if len(shares) != 5 or abs(sum(shares) - 1) > 1e-6:
        raise ValueError("stage_shares: five numbers that add up to 1")
    return Published(
        injuries={key: _injury(key, entry) for key, entry in table["injury"].items()},
        recurrence_ratio=_positive(table["recurrence"]["ratio"], "recurrence"),
        age_ratio=_positive(table["age"]["ratio_per_ten_years"], "age"),
        stage_shares=shares,
        sources={
            part: _source(part, table[part]) for part in ("stage_shares", "recurrence", "age")
        },
    )


def _injury(key: str, entry: Mapping[str, Any]) -> InjuryFigures:
    muscles = entry.get("muscles", {})
    grades = entry.get("grades")
    return InjuryFigures(
        overall=_figure(key, entry),
        muscles={name: _figure(f"{key}.{name}", row) for name, row in muscles.items()},
        grades={int(g): _positive(r, key) for g, r in grades["ratios"].items()}
        if grades
        else {},
        grades_source=_source(key, grades) if grades else "",
    )


def _figure(key: str, entry: Mapping[str, Any]) -> Figure:
    return Figure(
        mean=_positive(entry["mean"], key),
        sd=_positive(entry["sd"], key),
        source=_source(key, entry),
    )


def _source(key: str, entry: Mapping[str, Any]) -> str:
    source = str(entry.get("source", "")).strip()
    if not source:
        raise ValueError(f"{key}: source")
    return source


def _positive(number: float, key: str) -> float:
    if not 0 < float(number) < 10_000:
        raise ValueError(f"{key}: {number}")
    return float(number)
