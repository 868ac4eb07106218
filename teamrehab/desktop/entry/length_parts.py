"""The parts of a test form that are measured with a tape: jump and knee to wall."""

from PySide6.QtWidgets import QWidget

from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.length_field import LengthField
from teamrehab.desktop.entry.pair import Pair
from teamrehab.desktop.entry.parts import About, SymptomField, common
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.measures import JumpTest, KneeToWallTest, Test
from teamrehab.language import _


class JumpPart:
    """Single-leg jump, both legs; a detail unless a criterion has ``asked`` for it."""

    def __init__(self, form: Form, *, asked: bool = False) -> None:
        self.heights = Pair(field=LengthField)
        self.first: QWidget = self.heights
        form.add(_("Single-leg &jump"), self.heights, detail=not asked)
        self.symptom = SymptomField(form, _("Symptom in jumps"), detail=not asked)

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed."""
        left, right = self.heights.read()
        symptom = reading.symptom(self.symptom)
        if left is None and right is None:
            return None
        return JumpTest(**common(about, symptom), left_mm=left, right_mm=right)  # type: ignore[arg-type]

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if isinstance(test, JumpTest):
            self.heights.fill(test.left_mm, test.right_mm)
            self.symptom.fill(test.symptom)


class KneeToWallPart:
    """Knee to wall, both legs; a detail unless a criterion has ``asked`` for it."""

    def __init__(self, form: Form, *, asked: bool = False) -> None:
        self.distances = Pair(field=LengthField)
        self.first: QWidget = self.distances
        form.add(_("&Knee to wall"), self.distances, detail=not asked)
        self.symptom = SymptomField(form, _("Symptom, knee to wall"), detail=not asked)

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed."""
        left, right = self.distances.read()
        symptom = reading.symptom(self.symptom)
        if left is None and right is None:
            return None
        return KneeToWallTest(**common(about, symptom), left_mm=left, right_mm=right)  # type: ignore[arg-type]

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if isinstance(test, KneeToWallTest):
            self.distances.fill(test.left_mm, test.right_mm)
            self.symptom.fill(test.symptom)
