"""What the problem is held to be, how sure that is, and the protocol the case follows."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.forms import ChoiceField
from teamrehab.domain.injuries import Certainty, Diagnosis
from teamrehab.domain.protocol import InjuryKind, Protocol
from teamrehab.language import _

_UNKNOWN = -1
_NONE = ""


class DiagnosisForm(Form):
    """The injury chosen proposes its muscles, whether it is graded, and its protocol.

    ``follows`` is the key of the protocol the case follows: it stays proposed while it fits.
    """

    def __init__(
        self,
        occasion: Occasion,
        catalogue: Mapping[str, InjuryKind],
        protocols: Mapping[str, Protocol],
        before: Diagnosis | None = None,
        follows: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._catalogue, self._protocols = occasion, catalogue, protocols
        self._follows = follows
        self._injury_words, self._certainty_words = _("&Injury"), _("&How sure")
        kinds = [(kind.key, _(kind.name)) for kind in catalogue.values()]
        self.injury: ChoiceField[str] = ChoiceField(kinds)
        self.add(self._injury_words, self.injury)
        self.muscle = OfferField()
        self._muscle_row = self.add(_("&Muscle"), self.muscle)
        self.grade = ChoiceField(_grades(), chosen=_UNKNOWN)
        self._grade_row = self.add(
            _("&Grade"), self.grade, _("of the imaging, if there was one")
        )
        self.certainty = Choice(_certainties())
        self.add(self._certainty_words, self.certainty)
        self.words = QLineEdit()
        hint = _("clinical; never on the coach's sheet")
        self.add(_("In &words"), self.words, hint, names=(_("Note"),))
        self.protocol = OfferField()
        self.add(
            _("&Protocol"), self.protocol, _("proposed by the injury; change it if needed")
        )
        self.injury.currentIndexChanged.connect(self._follow_injury)
        self._follow_injury()
        if before is not None:
            self._fill(before)

    @property
    @override
    def title(self) -> str:
        return _("Diagnosis and protocol")

    @property
    @override
    def save_words(self) -> str:
        return _("Save the diagnosis of {name}").format(name=self._occasion.athlete.name)

    @property
    def chosen_protocol(self) -> Protocol | None:
        """Return the protocol confirmed, None for no protocol."""
        return self._protocols.get(self.protocol.value or _NONE)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        injury = reading.chosen(self.injury, self._injury_words)
        certainty = reading.answer(self.certainty, self._certainty_words)
        reading.finish()
        graded = self._catalogue[injury].graded if injury else False
        grade = self.grade.value if graded else _UNKNOWN
        diagnosis = Diagnosis(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            injury=injury or "",
            muscle=self.muscle.value or _NONE,
            grade=None if grade == _UNKNOWN else grade,
            certainty=certainty or Certainty.SUSPECTED,
            text=self.words.text().strip(),
        )
        return (diagnosis,)

    def _follow_injury(self) -> None:
        """Offer what belongs to the injury chosen."""
        kind = self._catalogue.get(self.injury.value or _NONE)
        muscles = kind.muscles if kind else ()
        names = [(_NONE, _("not known")), *((m.key, _(m.name)) for m in muscles)]
        self.muscle.offer(names, _NONE)
        self.rows.setRowVisible(self._muscle_row, bool(muscles))
        self.rows.setRowVisible(self._grade_row, kind is not None and kind.graded)
        fitting = [p for p in self._protocols.values() if kind and kind.key in p.injuries]
        offered = [(p.key, _protocol_words(p)) for p in fitting]
        kept = [p.key for p in fitting if p.key == self._follows]
        proposed = next(iter((*kept, *(p.key for p in fitting))), _NONE)
        self.protocol.offer([*offered, (_NONE, _("no protocol"))], proposed)

    def _fill(self, before: Diagnosis) -> None:
        if before.injury in self._catalogue:
            self.injury.show_value(before.injury)
            self._follow_injury()
            muscles = {muscle.key for muscle in self._catalogue[before.injury].muscles}
            self.muscle.show_value(before.muscle if before.muscle in muscles else _NONE)
        self.grade.show_value(_UNKNOWN if before.grade is None else before.grade)
        self.certainty.choose(before.certainty)
        self.words.setText(before.text)


class OfferField(ChoiceField[str]):
    """A choice whose answers follow what was chosen before."""

    def __init__(self) -> None:
        super().__init__([])

    def offer(self, choices: Sequence[tuple[str, str]], chosen: str) -> None:
        """Offer other answers, with ``chosen`` proposed."""
        self.clear()
        self._values = [value for value, _word in choices]
        self.addItems([word for _value, word in choices])
        self.show_value(chosen)


def certainty_words(certainty: Certainty) -> str:
    """Return how sure a diagnosis is."""
    return dict(_certainties())[certainty]


def _certainties() -> list[tuple[Certainty, str]]:
    return [
        (Certainty.SUSPECTED, _("suspected")),
        (Certainty.WORKING, _("working")),
        (Certainty.CONFIRMED, _("confirmed")),
    ]


def _grades() -> list[tuple[int, str]]:
    return [(_UNKNOWN, _("not known")), *((n, str(n)) for n in range(4))]


def _protocol_words(protocol: Protocol) -> str:
    return _("{name}, version {version}").format(name=protocol.name, version=protocol.version)
