"""One thing that cannot be written down, and how numbers, days and texts are found to be so."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from typing_extensions import override

from teamrehab.domain.history import History
from teamrehab.domain.written import blank, shortened, unfit_text
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class Implausible:
    """One thing that cannot stand: field, value as typed, what is allowed, the remedy."""

    field: str
    value: str
    allowed: str
    remedy: str

    @override
    def __str__(self) -> str:
        """Return one sentence fit to be shown beside the field."""
        return f"{self.field}: {self.value} - {self.allowed}. {self.remedy}"


Found = Iterator[Implausible]


@dataclass(frozen=True, slots=True)
class Moment:
    """When a value is written down, and for which case if there is one already."""

    today: date
    history: History | None = None

    @property
    def onset(self) -> date | None:
        """Return the day of onset of the case, if there is a case."""
        return None if self.history is None else self.history.case.on


def number(field: str, value: int | None, allowed: range, unit: str, side: str = "") -> Found:
    """Yield a number outside ``allowed`` (both ends belong to it); None was not typed."""
    if value is None or value in allowed:
        return
    said = _("{low} to {high} {unit} is possible")
    yield Implausible(
        field=field,
        value=f"{side} {value}".strip(),
        allowed=said.format(low=allowed[0], high=allowed[-1], unit=unit).replace("  ", " "),
        remedy=_("Check the number, and type it again."),
    )


def day_between(
    field: str, day: date | None, earliest: date | None, latest: date | None
) -> Found:
    """Yield a day outside the two ends, which belong to it; None was not typed."""
    if day is None:
        return
    if latest is not None and day > latest:
        said = _("{day} is the latest day possible").format(day=latest.isoformat())
        yield _wrong_day(field, day, said)
    elif earliest is not None and day < earliest:
        said = _("{day} is the earliest day possible").format(day=earliest.isoformat())
        yield _wrong_day(field, day, said)


def _wrong_day(field: str, day: date, allowed: str) -> Implausible:
    remedy = _("Check the day, and type it again.")
    return Implausible(field=field, value=day.isoformat(), allowed=allowed, remedy=remedy)


def needed(field: str, text: str, why: str) -> Found:
    """Yield a text in which nothing can be seen; ``why`` says what belongs there."""
    if blank(text):
        nothing = _("nothing typed")
        yield Implausible(field=field, value=nothing, allowed=why, remedy=_("Fill it in."))


def unfit(field: str, text: str, longest: int, *, one_line: bool) -> Found:
    """Yield a text that is too long or holds signs that cannot be seen."""
    problem = unfit_text(text, longest, one_line=one_line)
    if problem:
        remedy = _("Shorten it, or type it again by hand.")
        yield Implausible(field=field, value=shortened(text), allowed=problem, remedy=remedy)
