"""The hand that writes: one transaction a save, looked at again after a fault."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import sqlcipher3.dbapi2 as driver
from sqlalchemy.engine import Connection
from sqlalchemy.exc import DBAPIError

from teamrehab.domain.days import Clock
from teamrehab.records import drafts
from teamrehab.records.drawing import Receipt, receipt_for
from teamrehab.records.facts import Fact
from teamrehab.records.refusals import refusal, refusals
from teamrehab.records.store import Store
from teamrehab.records.taking_in import Taken, take_in
from teamrehab.records.writing import ChainEnd, Pen, by_id, chain_end, insert_facts


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """Who opened the casebook, on which laptop, through which slot."""

    staff_id: str
    label: str
    team_id: str
    device: str
    protected: bool


class Saving:
    """Writes facts; between saves it keeps the end of this laptop's chain in hand."""

    def __init__(self, store: Store, folder: Path, holder: Holder) -> None:
        self._store = store
        self._folder = folder
        self._holder = holder
        self._end: ChainEnd | None = None

    def save(
        self,
        clock: Clock,
        ids: tuple[str, ...],
        draw: Callable[[Connection, Pen], list[Fact]],
        drops_draft: str = "",
    ) -> Receipt:
        """Write what ``draw`` returns, all or nothing; on the disk before this returns.

        The draft of that place goes with it.

        Raises:
            NotSavedError: nothing was written.
        """
        try:
            with self._store.notes.begin() as connection:
                pen = self._pen(connection, clock)
                insert_facts(connection, draw(connection, pen))
                if drops_draft:
                    drafts.drop(connection, drops_draft)
                receipt = receipt_for(connection, ids)
        except (DBAPIError, driver.Error, OSError) as error:
            return self._after_fault(error, ids)
        self._end = pen.end
        return receipt

    def change(self, act: Callable[[Connection], None]) -> None:
        """Change what only this laptop keeps; on the disk before this returns.

        Raises:
            NotSavedError: nothing was changed.
        """
        try:
            with self._store.notes.begin() as connection:
                act(connection)
        except (DBAPIError, driver.Error, OSError) as error:
            shown = refusal(error, self._folder)
            self._store.drop_connections()
            raise shown or error from error

    def _pen(self, connection: Connection, clock: Clock) -> Pen:
        end = self._end or chain_end(connection, self._holder.device)
        return Pen(
            team_id=self._holder.team_id, author=self._holder.staff_id, clock=clock, end=end
        )

    def _after_fault(self, error: Exception, ids: tuple[str, ...]) -> Receipt:
        """Look again before saying "not saved": a save whose sync failed may be there."""
        shown = refusal(error, self._folder)
        self._end = None
        self._store.drop_connections()
        if shown is None:
            raise error
        try:
            with self._store.look() as connection:
                if len({seen.id for seen in by_id(connection, ids)}) == len(ids):
                    return receipt_for(connection, ids)
        except (DBAPIError, driver.Error, OSError):
            self._store.drop_connections()
        raise shown from error

    def take_in(self, clock: Clock, facts: Sequence[Fact]) -> Taken:
        """Write another laptop's facts beside our own, all or nothing; see ``save``."""
        with refusals(self._folder), self._store.notes.begin() as connection:
            taken = take_in(connection, facts, clock.instant())
        self._end = None
        return taken
