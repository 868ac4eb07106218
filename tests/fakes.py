"""Small stand-ins for what a test of the window does not want to be about."""

from datetime import UTC, datetime
from gettext import NullTranslations
from pathlib import Path

from typing_extensions import override

from teamrehab.domain.athletes import StaffMember, Team
from teamrehab.records import RecordsError
from tests.builders import clock


class RefusedForTest(RecordsError):  # noqa: N818
    """Trouble that a test causes on purpose, known as the casebook's own is."""


class FakeCasebook:
    """A casebook in memory: it keeps what is noted, and refuses when told to."""

    def __init__(self, folder: Path = Path("nowhere"), *, protected: bool = True) -> None:
        self.folder = folder
        self.team = Team(name="Harbour Rovers", sport="football")
        self.me = StaffMember(staff_id="s1", name="Ines Duarte")
        self.protected = protected
        self.clock = clock()
        self.last_backup: datetime | None = None
        self.noted: list[object] = []
        self.refusal: Exception | None = None
        self.closed = False

    def note(self, *values: object) -> datetime:
        """Keep the values, or refuse."""
        self._refuse()
        self.noted.extend(values)
        return datetime(2026, 10, 5, 20, tzinfo=UTC)

    def close(self) -> None:
        """Close, or refuse."""
        self.closed = True
        self._refuse()

    def _refuse(self) -> None:
        if self.refusal is not None:
            raise self.refusal


class PseudoCatalogue(NullTranslations):
    """A language that puts every message in brackets: what has none was never asked for."""

    @override
    def gettext(self, message: str) -> str:
        """Return the message in brackets."""
        return f"⟦{message}⟧"

    @override
    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        """Return the message for the count in brackets."""
        return f"⟦{msgid1 if n == 1 else msgid2}⟧"
