"""What is typed of a team session, kept in the casebook every two seconds until it is saved."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QObject, QTimer, Signal

from teamrehab.desktop.group.draft import PLACE, Draft, from_text, to_text
from teamrehab.desktop.session import Session
from teamrehab.language import _
from teamrehab.records import Casebook

KEEP_EVERY_MS = 2_000


class DraftKeeper(QObject):
    """``restored`` carries the draft found at the start, if there is one.

    ``current`` returns what is typed now. ``troubled`` says once that nothing can be kept.
    """

    restored = Signal(object)
    troubled = Signal(str)

    def __init__(self, session: Session, current: Callable[[], Draft], parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._current = session, current
        self._kept = ""
        self._told = False
        self._timer = QTimer(self)
        self._timer.timeout.connect(self.keep)

    def begin(self) -> None:
        """Read what was kept before, then keep what is typed from now on."""
        self._session.ask(_drafts, self._read, self._not_kept)

    def keep(self) -> None:
        """Keep what is typed if it changed; drop the draft once all of it is saved."""
        draft = self._current()
        words = to_text(draft) if draft.rows else ""
        if self._timer.isActive() and words != self._kept and self._session.is_open:
            self._kept = words
            self._session.ask(partial(_keep, words=words), _nothing, self._not_kept)

    def _read(self, kept: dict[str, str]) -> None:
        self._kept = kept.get(PLACE, "")
        found = from_text(self._kept)
        if found is not None:
            self.restored.emit(found)
        self._timer.start(KEEP_EVERY_MS)

    def _not_kept(self, error: Exception) -> None:
        if not self._told:
            self._told = True
            words = _("What is typed cannot be kept before it is saved: {why}")
            self.troubled.emit(words.format(why=error))


def _drafts(casebook: Casebook) -> dict[str, str]:
    return casebook.drafts()


def _keep(casebook: Casebook, words: str) -> None:
    if words:
        casebook.keep_draft(PLACE, words)
    else:
        casebook.drop_draft(PLACE)


def _nothing(_answer: object) -> None:
    """A draft that is kept is not talked about."""
