"""Notes what was decided at the end of an evening; the same proposal never twice."""

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, Signal

from teamrehab.desktop.evening.closing_work import ClosingWork
from teamrehab.desktop.session import Session
from teamrehab.desktop.trouble import is_known
from teamrehab.domain.history import History
from teamrehab.language import _
from teamrehab.reports.closing import EveningCount, Proposed, ProposedKind
from teamrehab.reports.wording import day_words, hour_words

if TYPE_CHECKING:
    from teamrehab.records import Casebook, Receipt


class ClosingNoting(QObject):
    """``said`` words what was noted, ``refused`` why something was not."""

    said = Signal(str)
    refused = Signal(str)

    def __init__(self, session: Session, work: ClosingWork, parent: QObject) -> None:
        super().__init__(parent)
        self._session, self._work = session, work
        self._sent: list[tuple[Any, ...]] = []

    def was_sent(self, proposed: Proposed) -> bool:
        """Return whether it was noted, or is just being noted."""
        return subject(proposed) in self._sent

    def keep(self, proposals: Sequence[Proposed]) -> None:
        """Forget what is proposed no more: if it comes again, somebody took it back."""
        self._sent = [one for one in self._sent if one in map(subject, proposals)]

    def accept(self, proposed: Proposed, history: History) -> None:
        """Note a proposal as a person confirmed it."""
        self._sent.append(subject(proposed))
        accept = self._work.accept

        def noting(book: "Casebook") -> "Receipt":
            return accept(book, history, proposed, proposed.name)

        self._session.write(
            noting,
            proposed.case_id,
            partial(self._accepted, proposed),
            partial(self._not_accepted, proposed),
            said=_said(proposed),
        )

    def sign(self, day: date, count: EveningCount) -> None:
        """Sign the evening in the name of who is at the desk."""
        sign = self._work.sign
        self._session.write(
            lambda book: sign(book, day, count),
            "",
            self._signed,
            self._not_signed,
            said=_("the signature of {day}").format(day=day_words(day)),
        )

    def _accepted(self, proposed: Proposed, _receipt: object) -> None:
        sentence = _("{name}: {proposal}. Noted {hour}; Ctrl+Z takes it back.")
        self.said.emit(
            sentence.format(name=proposed.name, proposal=proposed.words, hour=self._hour())
        )

    def _not_accepted(self, proposed: Proposed, error: Exception) -> None:
        self._sent = [one for one in self._sent if one != subject(proposed)]
        self._refuse(error, proposed.name)

    def _signed(self, _receipt: object) -> None:
        self.said.emit(_("The evening is signed, {hour}.").format(hour=self._hour()))

    def _not_signed(self, error: Exception) -> None:
        self._refuse(error, _("Signature"))

    def _refuse(self, error: Exception, what: str) -> None:
        if not is_known(error):
            self._session.failed.emit(error)
        why = str(error) if is_known(error) else _("Nothing was saved. Try again.")
        self.refused.emit(_("{what}: {why}").format(what=what, why=why))

    def _hour(self) -> str:
        return hour_words(self._session.about.clock.local())


def _said(proposed: Proposed) -> str:
    """Return what was decided of whom, without anything clinical."""
    words = {
        ProposedKind.LEVEL: _("the level of {name}"),
        ProposedKind.STAGE: _("the stage of {name}"),
        ProposedKind.AVAILABILITY: _("the availability of {name}"),
        ProposedKind.SIGN_OFF: _("the clearance of {name}"),
    }
    return words[proposed.kind].format(name=proposed.name)


def subject(proposed: Proposed) -> tuple[Any, ...]:
    """Return what is proposed, however it is worded: likely returns come a moment later."""
    return (proposed.case_id, proposed.kind, proposed.value or proposed.words)
