"""What the athlete can do in front of the tester: yes, no, or not looked at."""

from collections.abc import Mapping

from PySide6.QtWidgets import QWidget

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.parts import About, SymptomField, common
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.measures import FunctionCheck, Test
from teamrehab.language import _


class FunctionPart:
    """The function check; every question starts at "not looked at".

    ``asked`` are the observations that open criteria wait for, in the words of the criterion:
    they stand first and are always shown.
    """

    def __init__(self, form: Form, asked: Mapping[str, str] | None = None) -> None:
        asked = asked or {}
        questions = {
            "walks_clean": _("Walks without limp or symptom"),
            "stairs_clean": _("Stairs without limp or symptom"),
            "double_leg_raise": _("Double-leg raise"),
            "swelling_settled": _("Swelling settled"),
            "no_signs": _("No signs when examined"),
            "brisk_walk": _("Brisk walk of 30 min, without limp or symptom"),
            "change_of_direction": _("Change of direction at full effort"),
        }
        questions = {**asked, **{k: q for k, q in questions.items() if k not in asked}}
        self.answers = {key: _three_way() for key in questions}
        self.first: QWidget = next(iter(self.answers.values()))
        for key, question in questions.items():
            form.add(question, self.answers[key], detail=key not in asked)
        self.symptom = SymptomField(form, _("Symptom in the check"), detail=not asked)

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the check, None while nothing was looked at."""
        symptom = reading.symptom(self.symptom)
        found = {key: choice.value() for key, choice in self.answers.items()}
        if all(answer is None for answer in found.values()):
            return None
        return FunctionCheck(**common(about, symptom), **found)  # type: ignore[arg-type]

    def fill(self, test: Test) -> None:
        """Show a check that is being corrected, if it is one."""
        if not isinstance(test, FunctionCheck):
            return
        for key, choice in self.answers.items():
            choice.choose(getattr(test, key))
        self.symptom.fill(test.symptom)


def _three_way() -> Choice[bool | None]:
    return Choice([(True, _("yes")), (False, _("no")), (None, _("not looked at"))], at_first=2)
