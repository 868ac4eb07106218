"""The likely return: range, chances for matches, what decided; or why there is none."""

from datetime import datetime

from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.domain.estimates import NoEstimate
from teamrehab.language import _
from teamrehab.reports.findings import FixtureChance, LikelyReturn, SquadRow
from teamrehab.reports.wording import assessed_words, chance_words, day_words
from teamrehab.reports.wording_clinical import behind_words, likely_words


class LikelySection(QWidget):
    """Says no more than is known; what a person decided is said to be decided."""

    def __init__(self) -> None:
        super().__init__()
        self.range, self.median = text("", Type.LEAD), text("")
        self.behind = text("", Type.SMALL)
        for label in (self.range, self.median, self.behind):
            label.setWordWrap(True)
        self._told: list[QLabel] = []
        self._chances = QGridLayout()
        self._chances.setHorizontalSpacing(Space.APART)
        self._chances.setColumnStretch(1, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.TIGHT)
        column.addWidget(text(_("Likely return to matches"), Type.SMALL))
        column.addWidget(self.range)
        column.addWidget(self.median)
        column.addLayout(self._chances)
        column.addWidget(self.behind)

    def show_row(self, row: SquadRow) -> None:
        """Show what is known of the athlete's return, over all open cases."""
        likely = row.likely
        self.range.setText(range_sentence(row))
        median = likely.median if likely is not None else None
        self.median.setText(
            _("as likely as not by {day}").format(day=day_words(median)) if median else ""
        )
        self.median.setVisible(median is not None)
        self._show_chances(likely.chances if likely is not None else ())
        self.behind.setText(" ".join(_behind(likely, row)))
        self.behind.setVisible(bool(self.behind.text()))

    def words(self) -> str:
        """Return everything it says."""
        return "\n".join(
            [self.range.text(), self.median.text(), *self.chances(), self.behind.text()]
        )

    def chances(self) -> list[str]:
        """Return the chances for the coming matches as they stand."""
        return [label.text() for label in self._told]

    def _show_chances(self, chances: tuple[FixtureChance, ...]) -> None:
        for label in self._told:
            self._chances.removeWidget(label)
            label.deleteLater()
        self._told = []
        for line, chance in enumerate(chances):
            match = _("{day}, {opponent}").format(
                day=day_words(chance.on), opponent=chance.opponent
            )
            told = chance_words(chance.chance, decided=chance.decided)
            for column, words in enumerate((match, told)):
                label = text(words)
                self._chances.addWidget(label, line, column)
                self._told.append(label)


def range_sentence(row: SquadRow) -> str:
    """Return the range, or why there is none."""
    if row.no_estimate in {NoEstimate.TOO_YOUNG, NoEstimate.SENSITIVE} and row.likely is None:
        return _next(row.availability.next_update)
    words = likely_words(row.likely, row.no_estimate)
    return words or _("being worked out")


def _next(update: datetime | None) -> str:
    return assessed_words(update)


def _behind(likely: LikelyReturn | None, row: SquadRow) -> list[str]:
    """Return what the estimate rests on and which way this case leans."""
    if likely is None or likely.earliest is None:
        return []
    told = [behind_words(likely)]
    if row.decision is not None:
        told.append(_("Counted from {stage}.").format(stage=row.decision.stage_name))
    if likely.pace > 1.05:
        told.append(_("This case has gone slower than usual so far."))
    elif likely.pace < 0.95:
        told.append(_("This case has gone faster than usual so far."))
    if row.other_cases:
        told.append(_("The open case that takes longest decides."))
    return told
