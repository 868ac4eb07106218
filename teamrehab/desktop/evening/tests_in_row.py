"""Where the test cells of a row open, and close again with what was typed in them."""

from typing import Any

from PySide6.QtWidgets import QVBoxLayout

from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.entry.typed import TypedError
from teamrehab.desktop.evening.row_tests import RowTests, Texts
from teamrehab.desktop.evening.row_values import Ids
from teamrehab.domain.measures import Test


class TestsInRow:
    """``tests`` are the cells, None while they are closed; they stand at the end of a row."""

    __test__ = False  # a class of the product, whatever its name begins with

    def __init__(self, column: QVBoxLayout) -> None:
        self._column = column
        self.tests: RowTests | None = None

    @property
    def readable(self) -> tuple[Test, ...]:
        """Return the tests typed so far, () while one of them cannot be read."""
        return () if self.tests is None else self.tests.readable

    def values(self, *, painkiller: bool | None) -> tuple[Any, ...]:
        """Return the tests as values; ``painkiller`` is the answer of the row.

        Raises:
            TypedError: one cannot be read, as its field then says.
        """
        if self.tests is None:
            return ()
        self.tests.painkiller = painkiller
        try:
            return self.tests.values()
        except TypedError as trouble:
            self.tests.show_trouble(trouble.found)
            raise

    def make(self, desk: Desk, ids: Ids, texts: Texts) -> RowTests:
        """Make the cells with what was typed in them before."""
        self.tests = RowTests(desk, ids, texts)
        self.tests.retype(texts)
        self._column.addWidget(self.tests)
        return self.tests

    def show(self, *, painkiller: bool | None, seen: bool) -> None:
        """Show or hide the cells, if they are made."""
        if self.tests is not None:
            self.tests.painkiller = painkiller
            self.tests.setVisible(seen)

    def go_to_first(self) -> None:
        """Put the cursor into the first cell."""
        if self.tests is not None:
            self.tests.go_to_first()

    def close(self) -> None:
        """Take the cells away."""
        if self.tests is not None:
            self._column.removeWidget(self.tests)
            self.tests.hide()
            self.tests.deleteLater()
            self.tests = None
