"""The part of a test form for heel raises with weight: how many, and how heavy."""

from PySide6.QtWidgets import QWidget
from typing_extensions import override

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.length_field import LengthField
from teamrehab.desktop.entry.pair import Pair
from teamrehab.desktop.entry.parts import About, SymptomField, common
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.measures import Knee, Loaded, LoadedRaiseTest, Test
from teamrehab.language import _

_GRAMS = 100
"""In the tenth of a kilogram that is the last sign one can type."""


class WeightField(LengthField):
    """A weight in kilograms with one decimal; ``value`` is in grams."""

    def __init__(self) -> None:
        super().__init__()
        self.setPlaceholderText(_("kg"))

    @property
    @override
    def value(self) -> int | None:
        tenths = super().value
        return None if tenths is None else tenths * _GRAMS

    @override
    def show_value(self, value: int | None) -> None:
        super().show_value(None if value is None else value // _GRAMS)


class LoadedPart:
    """Heel raises with weight, both legs; a detail unless a criterion has ``asked`` for it."""

    def __init__(self, form: Form, *, asked: bool = False) -> None:
        self.counts, self.weights = Pair(), Pair(field=WeightField)
        self.first: QWidget = self.counts
        form.add(_("Raises with &weight"), self.counts, detail=not asked)
        form.add(_("Weight of these raises"), self.weights, detail=not asked)
        self.knee = Choice([(Knee.BENT, _("bent, sitting")), (Knee.STRAIGHT, _("straight"))])
        self.knee_words = _("Knee, with weight")
        form.add(self.knee_words, self.knee, detail=not asked)
        self.symptom = SymptomField(form, _("Symptom with weight"), detail=not asked)

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed; a leg counts once both its numbers are there."""
        counts, weights = self.counts.read(), self.weights.read()
        symptom = reading.symptom(self.symptom)
        left, right = (_loaded(c, w) for c, w in zip(counts, weights, strict=True))
        if left is None and right is None:
            return None
        knee = reading.answer(self.knee, self.knee_words)
        return LoadedRaiseTest(
            **common(about, symptom),  # type: ignore[arg-type]
            left=left,
            right=right,
            knee=knee or Knee.BENT,
        )

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if not isinstance(test, LoadedRaiseTest):
            return
        left, right = test.left, test.right
        self.counts.fill(
            left.repetitions if left else None, right.repetitions if right else None
        )
        self.weights.fill(left.weight_g if left else None, right.weight_g if right else None)
        self.knee.choose(test.knee)
        self.symptom.fill(test.symptom)


def _loaded(count: int | None, weight_g: int | None) -> Loaded | None:
    return None if count is None or weight_g is None else Loaded(count, weight_g)
