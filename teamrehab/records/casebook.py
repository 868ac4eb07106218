"""The open casebook: what the rest of the program notes and asks."""

from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from datetime import date, datetime
from functools import partial
from pathlib import Path
from typing import Any, Self, TypeVar

from filelock import FileLock
from sqlalchemy.engine import Connection

from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.domain.days import Clock
from teamrehab.domain.history import History, Squad, Standing
from teamrehab.records import checking, drafts, keys, reading, undoing
from teamrehab.records.backing_up import back_up_what_is_new, last_backup
from teamrehab.records.checking import CasebookCheck
from teamrehab.records.drawing import Receipt, entries_of, erased, marks_of, noted, withdrawn
from teamrehab.records.errors import BackupFailedError, NotSavedError, UnknownCaseError
from teamrehab.records.facts import Fact, new_fact_id
from teamrehab.records.refusals import refusals
from teamrehab.records.saving import Holder, Saving
from teamrehab.records.store import Store
from teamrehab.records.taking_in import Taken
from teamrehab.records.withdrawals import Withdrawn, withdrawn_of

T = TypeVar("T")


class Casebook:
    """One team's casebook, open. One thread uses it (a one-thread executor).

    Only ``background_check`` may be called from another.

    Every save is one transaction that is on the disk before the call returns. A save that
    fails raises NotSavedError (full disk, read-only folder, I/O error) and leaves nothing of
    itself; the same values may be noted again with the same ``fact_ids``.
    """

    def __init__(
        self, folder: Path, store: Store, lock: FileLock, clock: Clock, holder: Holder
    ) -> None:
        self.folder, self.protected = folder, holder.protected
        self._store, self._lock, self._holder = store, lock, holder
        self._saving = Saving(store, folder, holder)
        self._know_people(clock)

    def _know_people(self, clock: Clock) -> None:
        """Read who the team is and who writes; days are counted in the team's own zone."""
        staff_id = self._holder.staff_id
        with self._looking() as connection:
            team = reading.the_one(connection, Team, "team")
            me = reading.the_one(connection, StaffMember, f"staff:{staff_id}")
        self.team = team or Team(name="")
        self.me = me or StaffMember(staff_id=staff_id, name=self._holder.label)
        self.clock = Clock(clock.now, self.team.zone if team else clock.zone)

    # --- writing

    def note(
        self,
        *values: Any,
        replaces: Sequence[str] | None = None,
        why: str = "",
        fact_ids: Sequence[str] | None = None,
        drops_draft: str = "",
    ) -> Receipt:
        """Write values as facts, all or none of them.

        Args:
            values: values of the registered kinds.
            replaces: ids of the facts the author saw and replaces; None: whatever stands
                about the same thing; (): nothing, a second version beside the first.
            why: the reason, for a correction.
            fact_ids: ids made beforehand with ``new_fact_id``, one a value. Noting the same
                values again under the same ids writes nothing twice.
            drops_draft: the place of the draft that these values were typed in: it goes in
                the same transaction, so that no crash offers saved words again.

        Raises:
            NotSavedError, UnwritableTextError: nothing was written.
            ValueError: ids that do not fit the values, which is our mistake.
        """
        entries, again = entries_of(self.clock, values, why, fact_ids), fact_ids is not None
        receipt = self._saving.save(
            self.clock,
            tuple(entry.id for entry in entries),
            lambda connection, pen: noted(connection, pen, entries, replaces, again=again),
            drops_draft,
        )
        if any(isinstance(value, Team | StaffMember) for value in values):
            self._know_people(self.clock)
        return receipt

    def withdraw(self, *fact_ids: str, why: str) -> Receipt:
        """Mark standing facts as entered in error, all or none; nothing stands in their place.

        Raises:
            ReplacedMeanwhileError: one of them no longer stands; nothing was written.
            NotSavedError: nothing was written.
            ValueError: no fact is named, or one twice, which is our mistake.
        """
        entries = marks_of(self.clock, fact_ids, why)
        return self._saving.save(
            self.clock,
            tuple(entry.id for entry in entries),
            lambda connection, pen: withdrawn(connection, pen, entries),
        )

    def undo(self, *fact_ids: str, why: str, cancelled: Collection[str] = ()) -> Receipt:
        """Take facts of one save back by a correcting step: what stood before stands again.

        A fact that replaced nothing is marked as entered in error. ``cancelled`` are the facts
        of later saves that were taken back and of the steps that did so: they do not count.

        Raises:
            ReplacedMeanwhileError: one of them no longer stands.
            NotUndoneError: one settled two versions, or what it replaced is erased.
            NotSavedError: nothing was written, as after the others.
        """
        new_id = partial(new_fact_id, self.clock)
        with self._looking() as connection:  # nobody else writes until the save below
            entries = undoing.taking_back(connection, fact_ids, why, new_id, cancelled)
        ids = tuple(entry.id for entry in entries)
        receipt = self._saving.save(self.clock, ids, lambda _, pen: [*map(pen.fact, entries)])
        self._know_people(self.clock)
        return receipt

    def erase(self, fact_id: str, why: str) -> Receipt:
        """Remove the body of a fact, lawfully and for good; its header stays, marked erased.

        Only this one body goes: what it replaced and what replaced it are facts of their own.
        Backups made before still hold it until they are rotated out.

        Raises:
            ReplacedMeanwhileError: there is no such fact.
            NotSavedError: nothing was erased.
        """
        id_ = new_fact_id(self.clock)
        receipt = self._saving.save(
            self.clock,
            (id_,),
            lambda connection, pen: erased(connection, pen, id_, fact_id, why),
        )
        with refusals(self.folder):
            self._store.fold()
        self._know_people(self.clock)
        return receipt

    def take_in(self, facts: Sequence[Fact]) -> Taken:
        """Write another laptop's facts beside our own, all or none of them.

        Raises:
            NotSavedError: nothing was written.
        """
        taken = self._saving.take_in(self.clock, facts)
        self._know_people(self.clock)
        return taken

    def keep_draft(self, place: str, text: str) -> None:
        """Keep what is typed and not saved, as durable as a save; raises as ``note`` does."""
        self._saving.change(lambda connection: drafts.keep(connection, place, text))

    def drop_draft(self, place: str) -> None:
        """Drop what was typed at a place, if anything was; raises NotSavedError."""
        self._saving.change(lambda connection: drafts.drop(connection, place))

    # --- reading

    def drafts(self) -> dict[str, str]:
        """Return what was typed on this laptop and not saved, by place."""
        with self._looking() as connection:
            return drafts.kept(connection)

    def case(self, case_id: str) -> History:
        """Return everything that stands for one case; raises UnknownCaseError."""
        with self._looking() as connection:
            found = reading.histories(connection, [case_id])
        if not found:
            raise UnknownCaseError(case_id)
        return found[0]

    def squad(self, day: date) -> Squad:
        """Return the squad on a day, with every open case."""
        with self._looking() as connection:
            return reading.squad(connection, self.team, day)

    def cases_of(self, athlete_id: str) -> tuple[History, ...]:
        """Return every case of one athlete, closed and open, by onset."""
        with self._looking() as connection:
            return reading.cases_of(connection, athlete_id)

    def values_of(self, *fact_ids: str) -> tuple[Any, ...]:
        """Return what these facts say, standing or not."""
        with self._looking() as connection:
            return tuple(undoing.value_of(connection, one) for one in fact_ids)

    def withdrawn(self, case_id: str) -> tuple[Withdrawn, ...]:
        """Return what was entered in error about a case, oldest withdrawal first."""
        with self._looking() as connection:
            return withdrawn_of(connection, case_id)

    def past_cases(self) -> tuple[History, ...]:
        """Return every case, closed and open, with the facts of its course only."""
        with refusals(self.folder), self._store.reading.connect() as connection:
            return reading.past_cases(connection)

    def all_of(self, kind: type[T]) -> tuple[Standing[T], ...]:
        """Return every standing fact of one kind, oldest first."""
        with self._looking() as connection:
            return reading.all_of(connection, kind)

    def since(self, kind: type[T], day: date) -> tuple[Standing[T], ...]:
        """Return every standing fact of one kind of ``day`` and after, oldest first.

        For kinds of which a season has thousands: what lies before is not read.
        """
        with self._looking() as connection:
            return reading.since(connection, kind, day)

    @contextmanager
    def _looking(self) -> Iterator[Connection]:
        with refusals(self.folder), self._store.look() as connection:
            yield connection

    def check(self) -> CasebookCheck:
        """Return what a full check of pages, hashes and chains finds; seconds on a big file."""
        with refusals(self.folder):
            return checking.check(self._store)

    def check_due(self, today: date) -> bool:
        """Return whether no check has found the casebook sound for a week."""
        with self._looking() as connection:
            return checking.check_due(connection, today)

    def background_check(self) -> CasebookCheck | None:
        """Return what a check beside the saves finds, None if closing cut it short.

        The one call that may come from another thread than the casebook's: it only reads, and
        no save waits for it. Give a result to ``remember_check``, on the casebook's thread.
        """
        with refusals(self.folder):
            return checking.check_aside(self._store)

    def remember_check(self, found: CasebookCheck) -> None:
        """Remember on this laptop that a check was made today; one with troubles stays due."""
        with refusals(self.folder), self._store.notes.begin() as connection:
            checking.remember_check(connection, found, self.clock.today())

    # --- keys and closing

    def give_key(
        self, member: StaffMember, passphrase: str, cost: keys.Cost | None = None
    ) -> None:
        """Let another member of staff open the casebook, with a passphrase of their own.

        Raises:
            EmptyPassphraseError, NotSavedError: no key was given.
        """
        with refusals(self.folder):
            opened = keys.Opened(key=self._store.key, staff_id=member.staff_id)
            sealed = (member.name, passphrase, cost or keys.Cost())
            slot = keys.seal(opened, *sealed, protected=self.protected)
            keys.write_slot(self.folder, keys.fresh_name(), slot)

    @property
    def last_backup(self) -> datetime | None:
        """Return the instant of the newest checked backup, None before the first."""
        return last_backup(self.folder)

    def close(self) -> None:
        """Make a checked backup unless the last one holds everything; leave one closed file.

        Raises:
            BackupFailedError: everything is saved and closed, but there is no new backup.
        """
        if self._store.closed:
            return
        try:
            self._back_up()
        finally:
            try:
                with refusals(self.folder):
                    self._store.close()
            finally:
                self._lock.release()

    def _back_up(self) -> None:
        try:
            back_up_what_is_new(self._store, self.folder, self.clock)
        except NotSavedError as error:
            raise BackupFailedError(self.folder) from error

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_error: object) -> None:
        self.close()
