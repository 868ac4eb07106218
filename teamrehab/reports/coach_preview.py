"""What the coach would read of one athlete if something were decided: the sheet's own words."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time
from typing import Any

from teamrehab.domain.availability import AvailabilityStated
from teamrehab.domain.history import History, Squad, Standing
from teamrehab.domain.injuries import StageMoved
from teamrehab.domain.protocol import InjuryKind
from teamrehab.language import _
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.review import squad_row
from teamrehab.reports.sheet import coach_sheet
from teamrehab.reports.sheet_text import said_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """The sheet of a day to come, ``day``, for one athlete after another.

    Likely returns are taken over from ``rows`` as they stand: nothing is estimated anew.
    """

    squad: Squad
    rows: Sequence[SquadRow]
    catalogue: Mapping[str, InjuryKind]
    day: date

    def words(self, history: History, value: Any = None) -> str:
        """Return what the sheet says of the athlete of a case, once ``value`` is noted."""
        case_id = history.case.case_id
        cases = tuple(
            _with(h, value) if value is not None and h.case.case_id == case_id else h
            for h in self.squad.open_cases
        )
        squad = replace(self.squad, day=self.day, open_cases=cases)
        row = self._row(history, squad)
        midnight = datetime.combine(self.day, time.min)
        sheet = coach_sheet(squad, [row], now=midnight)
        said = said_of(sheet, sheet.lines[0])
        moved = isinstance(value, StageMoved) and row.estimate is not None
        return _("{words}; range worked out anew").format(words=said) if moved else said

    def _row(self, history: History, squad: Squad) -> SquadRow:
        athlete_id = history.athlete.athlete_id
        known = next(row for row in self.rows if row.athlete_id == athlete_id)
        # without protocols nothing is decided: no decision by one reaches the coach
        row = squad_row(history.athlete, squad, {}, self.catalogue, {})
        return replace(row, likely=known.likely, estimate=known.estimate)


def _with(history: History, value: Any) -> History:
    """Return a case with one more value; of availability it replaces that of the same day."""
    stated = isinstance(value, AvailabilityStated)
    facts = [
        fact
        for fact in history.facts
        if not (stated and isinstance(fact.value, AvailabilityStated))
        or fact.value.on != value.on
    ]
    noted = datetime.combine(value.on, time.max, UTC)
    proposed = Standing(fact_id="", value=value, author="", noted_at=noted, stamp="~")
    return replace(history, facts=(*facts, proposed))
