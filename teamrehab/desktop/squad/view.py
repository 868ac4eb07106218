"""The squad page as values: outlook, search, filters, table; what to do when it is empty."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.squad.columns import CLINICAL
from teamrehab.desktop.squad.filters import KEEPS, FilterBar, Keep
from teamrehab.desktop.squad.outlook_strip import OutlookStrip
from teamrehab.desktop.squad.table import SquadTable
from teamrehab.domain.history import Squad
from teamrehab.language import _
from teamrehab.reports.findings import Outlook, SquadRow


class SquadView(QWidget):
    """Everything of the squad on one page.

    ``opened`` carries an athlete id, ``covered`` whether the clinical columns are hidden;
    ``roster_asked`` and ``athlete_asked`` come from an empty squad.
    """

    opened = Signal(str)
    covered = Signal(bool)
    roster_asked = Signal()
    athlete_asked = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.outlook, self.table, self.filters = OutlookStrip(), SquadTable(), FilterBar()
        self.search, self._words_before = QLineEdit(), ""
        self.cover = QPushButton(_("Cover for a passer-by (F8)"))
        self.nobody = text("", Type.LEAD)
        self.elsewhere = text("", Type.SMALL)
        self.pages = QStackedWidget()
        self._dress_tools()
        self._lay_out()
        self._connect()

    def show_squad(self, squad: Squad, rows: tuple[SquadRow, ...], outlook: Outlook) -> None:
        """Show the squad; called again when estimates arrive, no row moves then."""
        self.outlook.show_outlook(outlook)
        self.filters.count(rows)
        self.table.show_squad(squad, rows)
        self._keep()

    def _dress_tools(self) -> None:
        self.search.setPlaceholderText(_search_hint(covered=False))
        self.search.setAccessibleName(_("Search the squad"))
        self.search.setClearButtonEnabled(True)
        self.cover.setCheckable(True)
        self.cover.setProperty("quiet", True)  # noqa: FBT003  Qt's own signature
        self.elsewhere.setWordWrap(True)
        self.elsewhere.hide()
        self.nobody.setAlignment(Qt.AlignmentFlag.AlignCenter)

    def _lay_out(self) -> None:
        tools = QHBoxLayout()
        tools.addWidget(self.search, 1)
        tools.addWidget(self.cover)
        self._tools = (self.outlook, self.search, self.cover, self.filters)
        self.pages.addWidget(self.table)
        self.pages.addWidget(self.nobody)
        self.pages.addWidget(self._empty_squad())
        layout = QVBoxLayout(self)
        layout.setContentsMargins(Space.APART, Space.APART, Space.NEAR, Space.NEAR)
        layout.setSpacing(Space.NEAR)
        layout.addWidget(self.outlook)
        layout.addLayout(tools)
        layout.addWidget(self.filters)
        layout.addWidget(self.elsewhere)
        layout.addWidget(self.pages, 1)

    def _empty_squad(self) -> QWidget:
        page = QWidget()
        roster = QPushButton(_("&Import a roster..."))
        roster.setProperty("main", True)  # noqa: FBT003  Qt's own signature
        athlete = QPushButton(_("Add an a&thlete..."))
        roster.clicked.connect(self.roster_asked)
        athlete.clicked.connect(self.athlete_asked)
        column = QVBoxLayout(page)
        column.addStretch(1)
        column.addWidget(text(_("Nobody is in the squad yet."), Type.TITLE))
        column.addWidget(text(_("Bring the athletes from a CSV or XLSX file, or add one.")))
        buttons = QHBoxLayout()
        buttons.addWidget(roster)
        buttons.addWidget(athlete)
        buttons.addStretch(1)
        column.addLayout(buttons)
        column.addStretch(3)
        return page

    def _connect(self) -> None:
        self.table.opened.connect(self._open)
        self.search.textChanged.connect(self._search)
        self.search.returnPressed.connect(self._open_first)
        self.filters.chosen.connect(self._keep)
        self.cover.toggled.connect(self._cover)
        QShortcut(QKeySequence(Qt.Key.Key_F8), self).activated.connect(self.cover.toggle)
        find = QShortcut(QKeySequence(QKeySequence.StandardKey.Find), self)
        find.activated.connect(self._go_to_search)

    def _go_to_search(self) -> None:
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def _search(self, words: str) -> None:
        hidden = CLINICAL if self.cover.isChecked() else ()
        self.table.shown.search(words, without=hidden)
        self._show_page()

    def _keep(self) -> None:
        keep = self.filters.keep
        self.table.shown.keep(None if keep is Keep.ALL else KEEPS[keep])
        self._show_page()

    def _show_page(self) -> None:
        for tool in self._tools:
            tool.setVisible(bool(self.table.rows.rows))
        if not self.table.rows.rows:
            self.pages.setCurrentIndex(2)
        elif self.table.shown.rowCount():
            self.pages.setCurrentIndex(0)
        else:
            self.nobody.setText(_("Nobody fits. Clear the search or choose All."))
            self.pages.setCurrentIndex(1)
        self.mark_open(self.table.open)

    def _open(self, athlete_id: str) -> None:
        self.mark_open(athlete_id)
        self.opened.emit(athlete_id)

    def mark_open(self, athlete_id: str) -> None:
        """Say who is open where the list hides the row, so that nobody is mistaken."""
        self.table.mark_open(athlete_id)
        names = {row.athlete_id: row.name for row in self.table.rows.rows}
        hidden = athlete_id in names and not self.table.chosen()
        told = _("Open: {name}. The search or the choice above hides this row.")
        self.elsewhere.setText(told.format(name=names[athlete_id]) if hidden else "")
        self.elsewhere.setVisible(hidden)

    def _open_first(self) -> None:
        """Enter in the search opens the first athlete found."""
        first = self.table.shown.index(0, 0)
        if first.isValid():
            self.table.setCurrentIndex(first)
            self.table.setFocus()
            self._open(self.table.shown.row_at(first).athlete_id)

    def _cover(self, covered: bool) -> None:  # noqa: FBT001  a slot of a toggled button
        self.cover.setText(_("Uncover (F8)") if covered else _("Cover for a passer-by (F8)"))
        self.table.cover(covered)
        self.search.setPlaceholderText(_search_hint(covered=covered))
        if covered:
            self._words_before = self.search.text()
        self.search.setText("" if covered else self._words_before)
        self._search(self.search.text())
        self.filters.cover(covered)
        self.covered.emit(covered)


def _search_hint(*, covered: bool) -> str:
    """Return what can be searched; while covered nobody learns what else there is."""
    if covered:
        return _("Search name or number (Ctrl+F)")
    return _("Search name, number or problem (Ctrl+F)")
