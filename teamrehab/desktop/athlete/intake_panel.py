"""Beside the examination: where its findings point, and what else it may be."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from teamrehab.desktop.appearance import Space, Type, text
from teamrehab.desktop.athlete.examination_words import finding_words
from teamrehab.desktop.entry.form import Form
from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History
from teamrehab.domain.intake import answer, weigh
from teamrehab.domain.protocol import InjuryKind, IntakePattern, Protocol
from teamrehab.language import _


class IntakePanel(QWidget):
    """Follows the form; it weighs and chooses nothing: a person names the muscle."""

    def __init__(
        self,
        form: Form,
        examined: Callable[[], Examination],
        protocols: Sequence[Protocol],
        muscles: Mapping[str, str],
    ) -> None:
        super().__init__()
        self._examined, self._muscles = examined, muscles
        self._patterns = [pattern for p in protocols for pattern in p.intake]
        self.pointing, self.nothing = text("", Type.LEAD), text("")
        self.cautions = text(caution_sentences(protocols), Type.BODY)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(Space.NEAR)
        column.addWidget(text(_("What the findings point to"), Type.SMALL))
        for part in (self.pointing, self.nothing):
            part.setWordWrap(True)
            column.addWidget(part)
        column.addWidget(text(_("Is it the muscle at all?"), Type.SMALL))
        self.cautions.setWordWrap(True)
        column.addWidget(self.cautions)
        column.addStretch(1)
        form.edited.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Weigh what stands in the form now."""
        sentences = pointing_sentences(self._examined(), self._patterns, self._muscles)
        self.pointing.setText("\n".join(sentences))
        self.pointing.setVisible(bool(sentences))
        self.nothing.setText(self._below(bool(sentences)))

    def _below(self, pointed: bool) -> str:  # noqa: FBT001
        if pointed:
            return _("Both can be hurt; the decision is yours.")
        if not self._patterns:
            return _("No protocol for this part of the body says what findings point to.")
        return _("Nothing yet: no answer of the form points to a muscle.")


def pointing_sentences(
    found: Examination, patterns: Sequence[IntakePattern], muscles: Mapping[str, str]
) -> list[str]:
    """Return a sentence a muscle: the findings that point to it, out of those answered."""
    asked = dict.fromkeys(each.finding for each in patterns)
    answered = sum(bool(answer(found, finding)) for finding in asked)
    return [
        _("Points to {muscle}: {findings} ({given} of {answered} findings).").format(
            muscle=muscles.get(one.muscle, one.muscle),
            findings=", ".join(finding_words(found, finding) for finding in one.findings),
            given=len(one.findings),
            answered=answered,
        )
        for one in weigh(found, patterns)
    ]


def fitting(
    history: History, protocols: Mapping[str, Protocol], catalogue: Mapping[str, InjuryKind]
) -> tuple[Protocol, ...]:
    """Return the protocols for what is suspected: the diagnosis, else the part of the body."""
    held = history.diagnosis
    if held is not None:
        return tuple(p for p in protocols.values() if held.injury in p.injuries)
    here = {key for key, kind in catalogue.items() if kind.area == history.case.area}
    return tuple(p for p in protocols.values() if here & set(p.injuries))


def muscle_names(catalogue: Mapping[str, InjuryKind]) -> dict[str, str]:
    """Return the names of the muscles of the catalogue by key."""
    return {
        muscle.key: _(muscle.name) for kind in catalogue.values() for muscle in kind.muscles
    }


def caution_sentences(protocols: Sequence[Protocol]) -> str:
    """Return what the protocols warn of, and what findings cannot do."""
    said = dict.fromkeys(caution for p in protocols for caution in p.cautions)
    also = _("Findings alone neither find nor rule out anything.")
    return "\n".join([*said, also])
