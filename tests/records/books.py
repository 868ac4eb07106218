"""Casebooks to test with: made quickly, and written to from a second laptop."""

from pathlib import Path

from teamrehab.domain.athletes import Role, StaffMember, Team
from teamrehab.domain.days import Clock
from teamrehab.records import Casebook, Cost, create_casebook, new_fact_id, open_casebook
from teamrehab.records.facts import Fact
from teamrehab.records.marks import EnteredInError
from teamrehab.records.stamps import Stamp
from teamrehab.records.stored import stored_facts
from teamrehab.records.writing import ChainEnd, Entry, Pen, Seen, by_id
from tests import builders

CHEAP = Cost(memory_kib=64, passes=1, lanes=1)
TEAM = Team(name="Riverside", sport="football", zone="Europe/Rome")
FOUNDER = StaffMember(staff_id="s1", name="Kim Vale", role=Role.PHYSIO)
SECRET = "heel and toe"


def new_book(folder: Path, clock: Clock | None = None, passphrase: str = SECRET) -> Casebook:
    """Return a new casebook with a cheap key."""
    return create_casebook(
        folder,
        team=TEAM,
        founder=FOUNDER,
        passphrase=passphrase,
        clock=clock or builders.clock(),
        cost=CHEAP,
    )


def reopened(book: Casebook) -> Casebook:
    """Close a casebook and open it again."""
    book.close()
    return open_casebook(book.folder, passphrase=SECRET, clock=book.clock)


def values(book: Casebook, kind) -> list:
    """Return the values of a kind that stand."""
    return [standing.value for standing in book.all_of(kind)]


def facts_of(book: Casebook) -> list[Fact]:
    """Return every fact kept, as it is kept."""
    with book._store.reading.connect() as connection:
        return list(stored_facts(connection))


def tamper(book: Casebook, *statements: str) -> None:
    """Change the file behind the program's back, as a person with the key could."""
    with book._store.fresh() as raw:
        triggers = raw.execute("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
        for (name,) in triggers.fetchall():
            raw.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            raw.execute(statement)


class OtherLaptop:
    """A second laptop of the team; what it writes has not seen what we wrote since."""

    def __init__(self, book: Casebook, clock: Clock | None = None) -> None:
        team = facts_of(book)[0].header.team
        end = ChainEnd(stamp=Stamp(device="another"))
        self.pen = Pen(team_id=team, author="s2", clock=clock or book.clock, end=end)

    def writes(self, value, replaced: tuple[Seen, ...] = ()) -> Fact:
        """Return a fact of the other laptop."""
        entry = Entry(id=new_fact_id(self.pen.clock), value=value, replaced=replaced)
        return self.pen.fact(entry)

    def withdraws(self, target: Seen) -> Fact:
        """Return the other laptop's mark that one of our facts was entered in error."""
        mark = EnteredInError(fact_id=target.id)
        id_ = new_fact_id(self.pen.clock)
        return self.pen.fact(Entry(id=id_, value=mark, replaced=(target,), about=target))


def seen(book: Casebook, fact_id: str) -> Seen:
    """Return what the other laptop knows of one of our facts."""
    with book._store.look() as connection:
        return by_id(connection, [fact_id])[0]
