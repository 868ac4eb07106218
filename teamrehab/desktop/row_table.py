"""Tables over frozen rows: columns as values, unknown always last, search in any script."""

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any, Generic, TypeVar

from PySide6.QtCore import (
    QAbstractTableModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
)
from typing_extensions import override

from teamrehab.domain.names import plain
from teamrehab.language import _

Row = TypeVar("Row")
Index = QModelIndex | QPersistentModelIndex
SortKey = int | float | str | None

NOWHERE = QModelIndex()
"""The parent of every row of a table."""

ROW_ROLE = Qt.ItemDataRole.UserRole
"""Gives the whole frozen row, for delegates."""

SORT_ROLE = Qt.ItemDataRole.UserRole + 1
"""Gives the sort key. Qt sorts dates and tuples wrongly without a word, so never those."""


@dataclass(frozen=True, kw_only=True)
class Column(Generic[Row]):
    """One column: what a cell shows, sorts by and says aloud.

    ``sort`` returns None for what is unknown. ``spoken`` is for cells that a delegate paints;
    without it the text is read. ``searched`` cells are found by the search field.
    """

    key: str
    title: Callable[[], str]
    text: Callable[[Row], str]
    sort: Callable[[Row], SortKey] | None = None
    spoken: Callable[[Row], str] | None = None
    tip: Callable[[Row], str] | None = None
    number: bool = False
    searched: bool = False
    help: Callable[[], str] = field(default=str)

    def sort_key(self, row: Row) -> SortKey:
        """Return what the row sorts by here: its text where nothing else is named."""
        return (self.text(row) or None) if self.sort is None else self.sort(row)

    def aloud(self, row: Row) -> str:
        """Return the sentence a screen reader says for the cell."""
        words = self.text(row) if self.spoken is None else self.spoken(row)
        return _("{column}: {value}").format(column=self.title(), value=words or _("unknown"))

    @property
    def alignment(self) -> Qt.AlignmentFlag:
        """Return how the cell stands: numbers right, words left."""
        side = Qt.AlignmentFlag.AlignRight if self.number else Qt.AlignmentFlag.AlignLeft
        return side | Qt.AlignmentFlag.AlignVCenter


class RowTableModel(QAbstractTableModel, Generic[Row]):
    """A table of frozen rows; ``key`` names a row for good, so that a selection survives."""

    def __init__(
        self,
        columns: Sequence[Column[Row]],
        key: Callable[[Row], str],
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self._key = key
        self._rows: tuple[Row, ...] = ()

    @property
    def rows(self) -> tuple[Row, ...]:
        """Return the rows in the order they were given."""
        return self._rows

    def show_rows(self, rows: Iterable[Row]) -> None:
        """Show these rows; where the same rows come again only what changed is repainted."""
        new = tuple(rows)
        if [self._key(row) for row in new] == [self._key(row) for row in self._rows]:
            self._replace(new)
            return
        self.beginResetModel()
        self._rows = new
        self.endResetModel()

    def row_at(self, index: Index) -> Row:
        """Return the row of one of this model's own indexes."""
        return self._rows[index.row()]

    def index_of(self, key: str) -> QModelIndex:
        """Return the first cell of the row with that key; an invalid index if it is gone."""
        keys = (n for n, row in enumerate(self._rows) if self._key(row) == key)
        number = next(keys, None)
        return QModelIndex() if number is None else self.index(number, 0)

    def _replace(self, new: tuple[Row, ...]) -> None:
        old, self._rows = self._rows, new
        last = len(self.columns) - 1
        for number, (before, after) in enumerate(zip(old, new, strict=True)):
            if before != after:
                self.dataChanged.emit(self.index(number, 0), self.index(number, last))

    @override
    def rowCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self._rows)

    @override
    def columnCount(self, parent: Index = NOWHERE) -> int:
        return 0 if parent.isValid() else len(self.columns)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if not index.isValid():
            return None
        column, row = self.columns[index.column()], self._rows[index.row()]
        answer = _CELL.get(role)
        return None if answer is None else answer(column, row)

    @override
    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = Qt.ItemDataRole.DisplayRole,
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not self._has(section):
            return None
        answer = _HEADER.get(role)
        return None if answer is None else answer(self.columns[section])

    def _has(self, section: int) -> bool:
        return 0 <= section < len(self.columns)


_CELL: dict[int, Callable[[Column[Any], Any], Any]] = {
    Qt.ItemDataRole.DisplayRole: lambda column, row: column.text(row),
    Qt.ItemDataRole.TextAlignmentRole: lambda column, _row: column.alignment,
    Qt.ItemDataRole.AccessibleTextRole: lambda column, row: column.aloud(row),
    Qt.ItemDataRole.ToolTipRole: lambda column, row: column.tip(row) if column.tip else None,
    ROW_ROLE: lambda _column, row: row,
    SORT_ROLE: lambda column, row: column.sort_key(row),
}

_HEADER: dict[int, Callable[[Column[Any]], Any]] = {
    Qt.ItemDataRole.DisplayRole: lambda column: column.title(),
    Qt.ItemDataRole.TextAlignmentRole: lambda column: column.alignment,
    Qt.ItemDataRole.ToolTipRole: lambda column: column.help() or None,
}


class SortedRows(QSortFilterProxyModel, Generic[Row]):
    """Sorts and searches a ``RowTableModel``: the unknown stays last in both directions."""

    def __init__(self, model: RowTableModel[Row], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._model = model
        self._words: tuple[str, ...] = ()
        self._searched = [column for column in model.columns if column.searched]
        self._wanted: Callable[[Row], bool] = _every
        self.setSourceModel(model)

    def search(self, words: str, without: Collection[str] = ()) -> None:
        """Keep the rows in which every word is found, whatever its case or accents.

        ``without`` are the keys of columns that must not be searched.
        """
        self.beginFilterChange()
        self._searched = [c for c in self._model.columns if c.searched and c.key not in without]
        self._words = tuple(plain(words).split())
        self.endFilterChange()

    def keep(self, wanted: Callable[[Row], bool] | None) -> None:
        """Keep the rows that ``wanted`` says yes to, besides the search; None: all."""
        self.beginFilterChange()
        self._wanted = wanted or _every
        self.endFilterChange()

    def row_at(self, index: Index) -> Row:
        """Return the row under one of the view's indexes."""
        return self._model.row_at(self.mapToSource(index))

    def index_of(self, key: str) -> QModelIndex:
        """Return the first cell of the row with that key; invalid if hidden or gone."""
        return self.mapFromSource(self._model.index_of(key))

    @override
    def lessThan(self, left: Index, right: Index) -> bool:
        column = self._model.columns[left.column()]
        one = column.sort_key(self._model.row_at(left))
        other = column.sort_key(self._model.row_at(right))
        if one is None or other is None:
            first = one if self.sortOrder() is Qt.SortOrder.DescendingOrder else other
            return first is None and one is not other
        if isinstance(one, str) or isinstance(other, str):
            return (plain(str(one)), str(one)) < (plain(str(other)), str(other))
        return one < other

    @override
    def filterAcceptsRow(self, row: int, parent: Index) -> bool:
        value = self._model.rows[row]
        if not self._wanted(value):
            return False
        cells = (column.text(value) for column in self._searched)
        found = plain(" ".join(cells))
        return all(word in found for word in self._words)


def _every(_row: object) -> bool:
    return True
