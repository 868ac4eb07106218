"""The squad's rows as plain words, one value a column: for a terminal, JSON and CSV alike."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from teamrehab.language import _
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.wording import day_words, match_sentence, training_words
from teamrehab.reports.wording_clinical import likely_words, stage_words


@dataclass(frozen=True, slots=True)
class TextColumn:
    """One column: its key in files, its heading for people, what it says of a row."""

    key: str
    heading: str
    says: Callable[[SquadRow], str]


def columns() -> tuple[TextColumn, ...]:
    """Return the columns in the order they are read."""
    return (
        TextColumn("number", _("No."), lambda row: _or_blank(row.number)),
        TextColumn("name", _("Name"), lambda row: row.name),
        TextColumn("training", _("Training"), lambda row: training_words(row.training)),
        TextColumn("match", _("Match"), lambda row: match_sentence(row.availability)),
        TextColumn("problem", _("Problem"), _problem),
        TextColumn(
            "stage", _("Stage"), lambda r: stage_words(r.decision) if r.decision else ""
        ),
        TextColumn("days", _("Days"), lambda row: _or_blank(row.days)),
        TextColumn("likely_return", _("Likely return"), _likely),
        TextColumn("missing_next", _("Missing next"), lambda row: row.missing_next),
        TextColumn(
            "last_entry",
            _("Last entry"),
            lambda r: day_words(r.last_entry) if r.last_entry else "",
        ),
    )


def squad_values(rows: Sequence[SquadRow]) -> list[Mapping[str, str]]:
    """Return one mapping a row, from column key to words; the order of ``rows`` is kept."""
    return [{column.key: column.says(row) for column in columns()} for row in rows]


def _or_blank(number: int | None) -> str:
    return "" if number is None else str(number)


def _problem(row: SquadRow) -> str:
    if not row.side:
        return row.problem
    return _("{problem}, {side}").format(problem=row.problem, side=row.side)


def _likely(row: SquadRow) -> str:
    return likely_words(row.likely, row.no_estimate)
