"""Saves, the squad and taking in facts, each against the bare driver or a smaller casebook."""

from collections.abc import Iterator
from dataclasses import asdict
from datetime import timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from teamrehab.domain.availability import (
    Absence,
    AbsenceReason,
    AvailabilityStated,
    Match,
    Training,
)
from teamrehab.domain.days import Exposure, Fixture
from teamrehab.domain.injuries import (
    Case,
    CaseClosed,
    Clearance,
    Diagnosis,
    ProtocolChosen,
    Scope,
    StageMoved,
)
from teamrehab.domain.measures import HeelRaiseTest, Raises
from teamrehab.records import Casebook
from teamrehab.records.facts import Fact
from tests.benchmarks.figures import Figure, compare
from tests.builders import ONSET, athlete
from tests.records.books import OtherLaptop, facts_of, new_book

ATHLETES = 60
CASES_A_SEASON = 80
OPEN = 10


def figures() -> Iterator[Figure]:
    """Yield the figures of the casebook; everything happens in a folder of its own."""
    with TemporaryDirectory() as place:
        one, ten = (filled(new_book(Path(place) / f"{n}"), n) for n in (1, 10))
        yield compare(
            f"squad of {ATHLETES} after ten seasons / after one",
            lambda: ten.squad(ONSET),
            lambda: one.squad(ONSET),
            bound=1.3,
            rounds=30,
        )
        yield saving(ten)
        yield taking_in(Path(place))
        for book in (one, ten):
            book.close()


# --- a casebook of so many seasons


def filled(book: Casebook, seasons: int) -> Casebook:
    """Return the casebook with as many closed cases a season, and ten open ones."""
    book.note(*(athlete(athlete_id=f"a{n}", surname=f"No {n}") for n in range(ATHLETES)))
    for season in range(seasons):
        values: list[Any] = []
        for number in range(CASES_A_SEASON):
            values += course(f"s{season}c{number}", number, 365 * season + 30 + number)
        values += [*exposures(season), *fixtures(season), *absences(season)]
        book.note(*values)
    book.note(*(v for n in range(OPEN) for v in course(f"open{n}", n, n, closed=False)))
    return book


def course(case_id: str, number: int, ago: int, *, closed: bool = True) -> list[Any]:
    """Return a case that began ``ago`` days before today, with 20 tests and statements."""
    start = ONSET - timedelta(ago)
    about: dict[str, Any] = {"case_id": case_id, "athlete_id": f"a{number % ATHLETES}"}
    values: list[Any] = [
        Case(on=start, **about),
        Diagnosis(on=start, injury="calf_strain", **about),
        ProtocolChosen(on=start, protocol="calf_strain", version="1", **about),
        *(
            StageMoved(on=start + timedelta(4 * n), stage=n, proposed=n, **about)
            for n in (2, 3)
        ),
    ]
    for n in range(20):
        on = start + timedelta(n)
        values += [
            HeelRaiseTest(test_id=f"{case_id}-{n}", on=on, left=Raises(n), **about),
            AvailabilityStated(
                on=on, training=Training.NONE, match=Match.NOT_AVAILABLE, **about
            ),
        ]
    if not closed:
        return values
    end = start + timedelta(25)
    signed = Clearance(on=end, scope=Scope.MATCH, signed_by="s1", **about)
    return [*values, signed, CaseClosed(on=end, **about)]


def absences(season: int) -> list[Absence]:
    """Return forty short absences."""
    start = ONSET - timedelta(365 * season + 300)
    days = [start + timedelta(7 * n) for n in range(40)]
    reason = AbsenceReason.SUSPENDED
    return [
        Absence(
            absence_id=f"{on}", athlete_id="a1", on=on, until=on + timedelta(3), reason=reason
        )
        for on in days
    ]


def exposures(season: int) -> list[Exposure]:
    """Return a session on seventy days for every athlete."""
    days = [ONSET - timedelta(365 * season + 3 * n + 1) for n in range(70)]
    who = range(ATHLETES)
    return [
        Exposure(athlete_id=f"a{w}", on=d, match=False, minutes=75) for d in days for w in who
    ]


def fixtures(season: int) -> list[Fixture]:
    """Return forty matches, those of the newest season partly to come."""
    start = ONSET - timedelta(365 * season + 200)
    return [
        Fixture(fixture_id=f"{season}-{n}", on=start + timedelta(7 * n), opponent="X")
        for n in range(40)
    ]


# --- against the bare driver


class Bare:
    """The same rows written with the driver alone, to a file of the same kind."""

    def __init__(self, folder: Path) -> None:
        self.book = new_book(folder)
        with self.book._store.notes.connect() as connection:
            pooled: Any = connection.connection
            self.raw = pooled.dbapi_connection
        columns = self.raw.execute("SELECT * FROM fact LIMIT 0").description
        self.names = [column[0] for column in columns]
        self.insert = f"INSERT INTO fact VALUES ({','.join('?' * len(self.names))})"

    def rows_of(self, facts: list[Fact]) -> tuple[list[Any], list[Any]]:
        """Return the rows of these facts, ready to be written."""
        rows = [asdict(fact.header) | {"hash": fact.hash} for fact in facts]
        bodies = [(fact.header.body_hash, fact.text) for fact in facts]
        return [[row[name] for name in self.names] for row in rows], bodies

    def write(self, rows: tuple[list[Any], list[Any]]) -> None:
        """Write these rows in one transaction."""
        self.raw.execute("BEGIN IMMEDIATE")
        self.raw.executemany(self.insert, rows[0])
        self.raw.executemany("INSERT INTO body VALUES (?, ?)", rows[1])
        self.raw.execute("COMMIT")


def saving(book: Casebook) -> Figure:
    """Compare one save of one test with a bare transaction of the same rows."""
    bare = Bare(book.folder.with_name("bare"))
    tests = [
        HeelRaiseTest(
            test_id=f"new{n}", case_id="open1", athlete_id="a1", on=ONSET, left=Raises(25)
        )
        for n in range(400)
    ]
    other = OtherLaptop(book)
    rows = [bare.rows_of([other.writes(test)]) for test in tests]
    ours, theirs = iter(tests), iter(rows)
    figure = compare(
        "one save / the same rows by the bare driver",
        lambda: book.note(next(ours)),
        lambda: bare.write(next(theirs)),
        rounds=300,
    )
    bare.book.close()
    return figure


def taking_in(place: Path) -> Figure:
    """Compare taking in 20 000 facts of another laptop with a bare executemany."""
    source = new_book(place / "source")
    other = OtherLaptop(source)
    facts = [other.writes(e) for season in range(5) for e in exposures(season)][:20_000]
    assert len(facts_of(source)) == 2
    into = iter([new_book(place / f"into{n}") for n in range(4)])
    bare = [Bare(place / f"bare{n}") for n in range(4)]
    rows, files = bare[0].rows_of(facts), iter(bare)
    source.close()
    return compare(
        "taking in 20 000 facts / the same rows by executemany",
        lambda: next(into).take_in(facts),
        lambda: next(files).write(rows),
        bound=3,
        rounds=3,
    )
