"""The squad at a glance: who can train today, and who is likely there for the next match."""

from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.marks import Fill, Mark
from teamrehab.domain.days import Fixture
from teamrehab.language import _, counted
from teamrehab.reports.findings import MatchOutlook, Outlook
from teamrehab.reports.wording import (
    day_words,
    expected_words,
    fixture_words,
    match_day_words,
)


class OutlookStrip(QWidget):
    """Two lines: today with its counts beside their discs, and the next match in words."""

    def __init__(self) -> None:
        super().__init__()
        self.day = text("", Type.TITLE)
        self.counts = {fill: text("", Type.LEAD) for fill in _COUNTED}
        self.away = text("", Type.LEAD)
        self.match = text("", Type.BODY)
        self.match.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(Space.TIGHT)
        layout.addWidget(self.day)
        layout.addLayout(self._counts_line())
        layout.addWidget(self.match)

    def show_outlook(self, outlook: Outlook) -> None:
        """Show what the squad looks like on its day."""
        fixtures = [match.fixture for match in outlook.matches]
        self.day.setText(_today_words(outlook, fixtures))
        self.counts[Fill.FULL].setText(_full_words(outlook.full))
        self.counts[Fill.HALF].setText(_limits_words(outlook.with_limits))
        self.counts[Fill.RING].setText(_none_words(outlook.none))
        self.away.setText(_away_words(outlook.away) if outlook.away else "")
        self.match.setText(next_match_words(outlook))

    def _counts_line(self) -> QGridLayout:
        line = QGridLayout()
        line.setHorizontalSpacing(Space.TIGHT)
        for column, (fill, label) in enumerate(self.counts.items()):
            line.addWidget(Mark(fill), 0, 3 * column)
            line.addWidget(label, 0, 3 * column + 1)
            line.setColumnMinimumWidth(3 * column + 2, Space.APART)
        line.addWidget(self.away, 0, 3 * len(self.counts))
        line.setColumnStretch(3 * len(self.counts) + 1, 1)
        return line

    def words(self) -> tuple[QLabel, ...]:
        """Return the labels in reading order."""
        return (self.day, *self.counts.values(), self.away, self.match)


_COUNTED = (Fill.FULL, Fill.HALF, Fill.RING)


def next_match_words(outlook: Outlook) -> str:
    """Return the next match in one sentence; says so where no match is known."""
    if not outlook.matches:
        return _("No match is known. Import fixtures to see who is likely there.")
    return _("{match}: {numbers}").format(
        match=fixture_words(outlook.matches[0].fixture), numbers=_numbers(outlook.matches[0])
    )


def _numbers(match: MatchOutlook) -> str:
    parts = [_("{count} available").format(count=match.available)]
    if match.possible:
        parts.append(expected_words(match.possible, match.expected_of_possible))
    parts.append(_("{count} out").format(count=match.out))
    if match.being_assessed:
        parts.append(_("{count} being assessed").format(count=match.being_assessed))
    return ", ".join(parts)


def _today_words(outlook: Outlook, fixtures: list[Fixture]) -> str:
    to_match = match_day_words(outlook.day, fixtures)
    day = day_words(outlook.day)
    return _("{day} · {to_match}").format(day=day, to_match=to_match) if to_match else day


def _full_words(count: int) -> str:
    return counted("{count} trains fully", "{count} train fully", count)


def _limits_words(count: int) -> str:
    return counted("{count} with limits", "{count} with limits", count)


def _none_words(count: int) -> str:
    return counted("{count} does not train", "{count} do not train", count)


def _away_words(count: int) -> str:
    return counted("{count} away", "{count} away", count)
