"""What is typed and not saved, kept every two seconds so that a crash loses no words."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Generic, TypeVar

from PySide6.QtCore import QObject, QTimer, Signal

from teamrehab.desktop.evening.evening_work import keep_draft, read_drafts
from teamrehab.desktop.evening.typed import Draft, draft_text, read_draft
from teamrehab.desktop.session import Session
from teamrehab.domain.history import History
from teamrehab.language import _
from teamrehab.records import Casebook

KEEP_EVERY_MS = 2_000

_IDS = ("session_id", "test_id", "check_id", "remark_id")
"""Where the values of a row carry the ids a draft gave them."""

D = TypeVar("D")

Where = tuple[date, str]
"""An evening and a case."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeping(Generic[D]):
    """Under which ``place`` drafts are kept, and how they become text and are read again.

    ``keep`` keeps a text under its place, "" drops it; it and ``kept`` run on the casebook's
    thread. A text that is no draft reads as None.
    """

    place: str
    to_text: Callable[[D], str]
    from_text: Callable[[str], D | None]
    keep: Callable[[Casebook, str, str], None] = keep_draft
    kept: Callable[[Casebook], Mapping[str, str]] = read_drafts


def of_the_evening(
    keep: Callable[[Casebook, str, str], None], kept: Callable[[Casebook], Mapping[str, str]]
) -> Keeping[Draft]:
    """Return how the rows of an evening are kept."""
    return Keeping(
        place="evening", to_text=draft_text, from_text=read_draft, keep=keep, kept=kept
    )


class Drafts(QObject, Generic[D]):
    """Keeps the drafts of all rows; ``restored`` follows when those of the casebook are read.

    ``current`` yields the rows on screen: where, and the draft or None. ``troubled`` says once
    that nothing can be kept.
    """

    restored = Signal()
    troubled = Signal(str)

    def __init__(
        self,
        session: Session,
        keeping: Keeping[D],
        current: Callable[[], Iterable[tuple[Where, D | None]]],
        parent: QObject,
    ) -> None:
        super().__init__(parent)
        self._session, self._keeping, self._current = session, keeping, current
        self.known: dict[Where, D] = {}
        self._written: dict[Where, str] = {}
        self._told = False
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.keep)
        self._timer.start(KEEP_EVERY_MS)
        session.ask(keeping.kept, self._read, self._not_kept)

    def keep(self) -> None:
        """Keep what changed since the last time, and drop what is saved or emptied."""
        if not self._session.is_open:
            return
        for where, draft in self._current():
            self.put(where, draft)

    def put(self, where: Where, draft: D | None) -> None:
        """Keep the draft of a row, on screen or not, if it changed; None drops it."""
        text = "" if draft is None else self._keeping.to_text(draft)
        if draft is None:
            self.known.pop(where, None)
        else:
            self.known[where] = draft
        if text != self._written.get(where, "") and self._session.is_open:
            self._written[where] = text
            write = partial(_write, self._keeping.keep, self.place_of(where), text)
            self._session.ask(write, _nothing, self._not_kept)

    def gone(self, where: Where) -> None:
        """Forget a draft that went with the save of what was typed in it."""
        self.known.pop(where, None)
        self._written.pop(where, None)

    def place_of(self, where: Where) -> str:
        """Return the place in the casebook where the draft of a row is kept."""
        day, case_id = where
        return f"{self._keeping.place}/{day.isoformat()}/{case_id}"

    def other_days(self, day: date) -> tuple[date, ...]:
        """Return the other evenings of which something is typed and not saved."""
        return tuple(sorted({on for on, _case in self.known if on != day}))

    def _read(self, texts: Mapping[str, str]) -> None:
        for name, text in texts.items():
            where, draft = self._where(name), self._keeping.from_text(text)
            if where is not None and draft is not None and where not in self.known:
                self.known[where] = draft
                self._written[where] = text
        self.restored.emit()

    def _where(self, name: str) -> Where | None:
        place, _slash, rest = name.partition("/")
        day, _slash, case_id = rest.partition("/")
        ours = place == self._keeping.place and case_id
        try:
            return (date.fromisoformat(day), case_id) if ours else None
        except ValueError:
            return None

    def _not_kept(self, error: Exception) -> None:
        if not self._told:
            self._told = True
            words = _("What is typed cannot be kept before it is saved: {why}")
            self.troubled.emit(words.format(why=error))


def is_saved(draft: Draft, history: History) -> bool:
    """Return whether the casebook holds what a draft does; a correction goes with its own."""
    ours = set(draft.ids.values())
    return not draft.replaces and any(
        getattr(f.value, name, None) in ours for f in history.facts for name in _IDS
    )


def _write(
    keep: Callable[[Casebook, str, str], None], place: str, text: str, casebook: Casebook
) -> None:
    keep(casebook, place, text)


def _nothing(_answer: object) -> None:
    """A draft that is kept needs no answer."""
