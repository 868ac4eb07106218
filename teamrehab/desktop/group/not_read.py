"""The lines of a pasted list that could not be read: each with its reason, as it came."""

from PySide6.QtWidgets import QFrame, QHBoxLayout, QPlainTextEdit, QVBoxLayout

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.buttons import quiet_button
from teamrehab.exchange.attendance import AttendancePreview, line_of
from teamrehab.language import _, counted

_SHOWN = 200
_LINES = 5


class NotRead(QFrame):
    """Hidden while there is nothing to tell; a save leaves it, another paste replaces it."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("notice", True)  # noqa: FBT003  Qt's own signature
        self.field = QPlainTextEdit()
        self.field.setReadOnly(True)
        self.field.setTabChangesFocus(True)
        self.field.setAccessibleName(_("Lines that were not filled in"))
        head = QHBoxLayout()
        head.addWidget(text(_("From the pasted list"), Type.LEAD))
        head.addStretch(1)
        head.addWidget(text(_("Tab comes here, Up and Down show all of it"), Type.SMALL))
        self.away = quiet_button(_("Put away"), self._put_away)
        head.addWidget(self.away)
        column = QVBoxLayout(self)
        column.setContentsMargins(Space.APART, Space.NEAR, Space.APART, Space.NEAR)
        column.setSpacing(Space.TIGHT)
        column.addLayout(head)
        column.addWidget(self.field)
        self.hide()

    @property
    def words(self) -> str:
        """Return what is told, "" while it is hidden."""
        return self.field.toPlainText()

    def show_words(self, words: str) -> None:
        """Tell these words; none hides the notice."""
        self.field.setPlainText(words)
        lines = min(words.count("\n") + 1, _LINES)
        self.field.setFixedHeight(lines * self.fontMetrics().lineSpacing() + Space.WIDE)
        self.setVisible(bool(words))

    def show_paste(self, found: AttendancePreview, pasted: str) -> None:
        """Tell what of a paste was not filled in."""
        self.show_words("\n".join(_told(found, pasted)))

    def _put_away(self) -> None:
        self.show_words("")


def _told(found: AttendancePreview, pasted: str) -> list[str]:
    """Return a sentence on each line that has no row, with the line as it came."""
    said = []
    if found.problems:
        count = len(found.problems)
        said.append(
            counted("{count} line was not read:", "{count} lines were not read:", count)
        )
    for problem in found.problems[:_SHOWN]:
        as_it_came = " | ".join(line_of(pasted, problem.line).split("\t"))
        said.append(_("{problem}  [{line}]").format(problem=problem, line=as_it_came[:_SHOWN]))
    if silent := [row for row in found.rows if row.says_nothing]:
        words = _("No minutes and no effort, so still not entered: {names}")
        said.append(words.format(names=", ".join(row.athlete.name for row in silent)))
    if found.not_recognised:
        words = _("Columns that are not read: {names}")
        said.append(words.format(names=", ".join(found.not_recognised)))
    return said
