"""The columns of the squad table: what a cell says, sorts by, and says aloud."""

from collections.abc import Callable
from datetime import date

from teamrehab.desktop.row_table import Column
from teamrehab.domain.availability import Match, Training
from teamrehab.domain.estimates import NoEstimate
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.wording import (
    chance_words,
    day_words,
    days_words,
    match_words,
    training_words,
)
from teamrehab.reports.wording_clinical import likely_words

CLINICAL = frozenset({"problem", "stage", "missing", "likely", "bar", "days"})
"""What the covering key hides from somebody standing behind the desk."""

BY_NEED = ("likely", "problem", "stage", "bar", "days", "missing", "last")
"""Columns that come beside name and availability, the most needed first."""


Flagged = Callable[[SquadRow], bool]
"""Says whether a red flag is open for the athlete of a row."""


def squad_columns(flagged: Flagged) -> tuple[Column[SquadRow], ...]:
    """Return the columns in reading order; who has a red flag stands before all others."""
    return (*_who(), *_availability(flagged), *_clinical(flagged))


_FIRST = len(Training)
"""Sorts before every training answer."""


def _who() -> tuple[Column[SquadRow], ...]:
    return (
        Column(
            key="number",
            title=lambda: _("No."),
            text=lambda row: "" if row.number is None else str(row.number),
            sort=lambda row: row.number,
            number=True,
            searched=True,
        ),
        Column(
            key="name",
            title=lambda: _("Athlete"),
            text=_name,
            sort=lambda row: f"{row.surname} {row.name}",
            searched=True,
        ),
    )


def _availability(flagged: Flagged) -> tuple[Column[SquadRow], ...]:
    return (
        Column(
            key="training",
            title=lambda: _("Training"),
            text=lambda row: training_words(row.training),
            sort=lambda row: list(Training).index(row.training) + _FIRST * flagged(row),
        ),
        Column(
            key="match",
            title=lambda: _("Match"),
            text=lambda row: _match(row.match),
            spoken=lambda row: match_words(row.match),
            sort=lambda row: list(Match).index(row.match),
        ),
    )


def _clinical(flagged: Flagged) -> tuple[Column[SquadRow], ...]:
    return (
        Column(
            key="problem",
            title=lambda: _("Problem"),
            text=lambda row: _flagged_problem(row) if flagged(row) else _problem(row),
            searched=True,
        ),
        Column(key="stage", title=lambda: _("Stage"), text=_stage, sort=_stage_order),
        Column(
            key="days",
            title=lambda: _("Days"),
            text=lambda row: "" if row.days is None else str(row.days),
            sort=lambda row: row.days,
            help=lambda: _("Days since onset"),
            number=True,
        ),
        Column(
            key="likely",
            title=lambda: _("Likely return"),
            text=likely_text,
            sort=_likely_order,
            spoken=_likely_aloud,
        ),
        Column(
            key="bar",
            title=lambda: _("Next matches"),
            text=likely_text,
            sort=_likely_order,
            spoken=_likely_aloud,
        ),
        Column(
            key="missing",
            title=lambda: _("Missing next"),
            text=lambda row: row.missing_next,
        ),
        Column(
            key="last",
            title=lambda: _("Last entry"),
            text=lambda row: "" if row.last_entry is None else day_words(row.last_entry),
            sort=lambda row: _order(row.last_entry),
        ),
    )


def likely_text(row: SquadRow) -> str:
    """Return the likely return as short as it can be said: "14–23 Dec".

    A clinician's opinion says whose it is within the width of the column.
    """
    likely = row.likely
    if likely is None:
        return _none_yet(row.no_estimate)
    if likely.expected is not None and likely.not_before is None:
        day = day_words(likely.expected)
        return _("{day} (staff)").format(day=day)
    if likely.earliest is None:
        return likely_words(likely, row.no_estimate)
    if likely.latest is None:
        return _("{day} or later").format(day=day_words(likely.earliest))
    return days_words(likely.earliest, likely.latest)


def _none_yet(why: NoEstimate | None) -> str:
    """Return that there is no range in a word or two; the athlete's page says why."""
    if why is None:
        return ""
    return _("being assessed") if why is NoEstimate.TOO_YOUNG else _("no range")


def _likely_aloud(row: SquadRow) -> str:
    words = likely_words(row.likely, row.no_estimate)
    chances = [
        _("{day}: {chance}").format(
            day=day_words(c.on), chance=chance_words(c.chance, decided=c.decided)
        )
        for c in (row.likely.chances if row.likely else ())
    ]
    return "; ".join([words, *chances]) if words else ""


def _name(row: SquadRow) -> str:
    return _("{name} (under 18)").format(name=row.name) if row.minor else row.name


def _match(match: Match) -> str:
    """Return the match answer in a word that fits a narrow column."""
    return {
        Match.AVAILABLE: _("available"),
        Match.LIMITED: _("limited"),
        Match.UNDECIDED: _("undecided"),
        Match.NOT_AVAILABLE: _("not available"),
    }[match]


def short_training(training: Training) -> str:
    """Return the training answer where there is little room."""
    return {
        Training.FULL: _("full"),
        Training.WITH_LIMITS: _("limits"),
        Training.NONE: _("none"),
    }[training]


def short_match(match: Match) -> str:
    """Return the match answer where there is little room."""
    return {
        Match.AVAILABLE: _("yes"),
        Match.LIMITED: _("limits"),
        Match.UNDECIDED: _("undecided"),
        Match.NOT_AVAILABLE: _("no"),
    }[match]


def _flagged_problem(row: SquadRow) -> str:
    return _("red flag: {problem}").format(problem=_problem(row))


def _problem(row: SquadRow) -> str:
    words = row.problem
    if row.side:
        words = _("{problem}, {side}").format(problem=row.problem, side=row.side)
    return f"{words} +{len(row.other_cases)}" if row.other_cases else words


def _stage(row: SquadRow) -> str:
    if row.decision is None:
        return ""
    return _("{n} of {m} {stage}").format(
        n=row.decision.stage, m=row.decision.stages, stage=row.decision.stage_name
    )


def _stage_order(row: SquadRow) -> float | None:
    return None if row.decision is None else row.decision.stage / row.decision.stages


def _likely_order(row: SquadRow) -> int | None:
    likely = row.likely
    return (
        None
        if likely is None
        else _order(likely.expected or likely.median or likely.not_before)
    )


def _order(day: date | None) -> int | None:
    return None if day is None else day.toordinal()
