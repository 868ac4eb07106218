"""The parts of a test form: each adds its rows and reads one test, None while it is empty.

``first`` is where typing begins.
"""

from dataclasses import dataclass
from datetime import date

from PySide6.QtWidgets import QLineEdit, QWidget

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.pair import SIDE_WIDTH, Pair
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.forms import NumberField
from teamrehab.domain.measures import (
    Feeling,
    HeelRaiseTest,
    Hops,
    HopTest,
    Knee,
    Raises,
    RunTest,
    Symptom,
    Test,
)
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class About:
    """What all tests of one evening share; ``test_id`` is the id of the test read next."""

    test_id: str
    case_id: str
    athlete_id: str
    on: date
    painkiller: bool = False
    after_training: bool | None = None
    surface: str = ""
    shoe: str = ""
    tester: str = ""


def common(about: About, symptom: Symptom | None) -> dict[str, object]:
    """Return the arguments that every test takes."""
    shared = {name: getattr(about, name) for name in About.__slots__}
    return {**shared, "symptom": symptom}


class SymptomField(QLineEdit):
    """The worst of pain, tightness and cramp as a number and a letter; never filled in."""

    def __init__(self, form: Form, label: str, *, detail: bool = False) -> None:
        super().__init__()
        self.setMaximumWidth(SIDE_WIDTH)
        self.setPlaceholderText(_("0, or like 3p"))
        hint = _("0 to 10 and a letter: p pain, t tightness, c cramp, s sharp")
        form.add(label, self, hint, detail=detail)

    def fill(self, symptom: Symptom | None) -> None:
        """Show a symptom that is being corrected."""
        if symptom is not None:
            letter = "?" if symptom.feeling is Feeling.NOT_SAID else symptom.feeling
            self.setText(f"{symptom.score}{letter}" if symptom.score else "0")


class RaisesPart:
    """Heel raises, both legs; ``knee_asked``: an open criterion asks for the bent knee.

    ``only`` is the position of the knee where the form has a part for each: it is not asked.
    """

    def __init__(
        self, form: Form, *, knee_asked: bool = False, only: Knee | None = None
    ) -> None:
        count, height, symptom, self.range_words, beat = _raises_words(only)
        self.count, self.height = Pair(), Pair("mm")
        self.first: QWidget = self.count
        form.add(count, self.count)
        form.add(height, self.height)
        self.symptom = SymptomField(form, symptom)
        self.range = Choice([(True, _("kept")), (False, _("lost"))])
        form.add(self.range_words, self.range)
        knees = [(Knee.STRAIGHT, _("straight")), (Knee.BENT, _("bent"))]
        self.knee = Choice(knees, at_first=int(only is Knee.BENT))
        if only is None:
            form.add(_("Knee"), self.knee, detail=not knee_asked)
        self.beat = NumberField(_("a minute"))
        form.add(beat, self.beat, detail=True)

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed."""
        left, right = self.count.read()
        high_left, high_right = self.height.read()
        symptom, beat = reading.symptom(self.symptom), self.beat.value
        if left is None and right is None:
            return None
        return HeelRaiseTest(
            **common(about, symptom),  # type: ignore[arg-type]
            left=None if left is None else Raises(left, high_left),
            right=None if right is None else Raises(right, high_right),
            knee=self.knee.value() or Knee.STRAIGHT,
            full_range=reading.answer(self.range, self.range_words) is not False,
            beat=beat,
        )

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if not isinstance(test, HeelRaiseTest):
            return
        left, right = test.left, test.right
        self.count.fill(
            left.repetitions if left else None, right.repetitions if right else None
        )
        self.height.fill(left.height_mm if left else None, right.height_mm if right else None)
        self.symptom.fill(test.symptom)
        self.range.choose(test.full_range)
        self.knee.choose(test.knee)
        self.beat.show_value(test.beat)


def _raises_words(only: Knee | None) -> tuple[str, str, str, str, str]:
    """Return the labels of the raises: counts, height, symptom, range and beat."""
    if only is Knee.BENT:
        return (
            _("Heel raises, knee &bent"),
            _("Mean height, knee bent"),
            _("Symptom, knee bent"),
            _("Full range, knee bent"),
            _("Beat, knee bent"),
        )
    return (
        _("&Heel raises") if only is None else _("&Heel raises, knee straight"),
        _("Mean height of a raise"),
        _("Symptom in heel raises"),
        _("Full range"),
        _("Beat"),
    )


class HopsPart:
    """Single-leg hops in place, both legs."""

    def __init__(self, form: Form) -> None:
        self.count, self.contact, self.flight = Pair(), Pair("ms"), Pair("ms")
        self.first: QWidget = self.count
        form.add(_("H&ops"), self.count)
        form.add(_("Ground contact of a hop"), self.contact, detail=True)
        form.add(_("Flight of a hop"), self.flight, detail=True)
        self.symptom = SymptomField(form, _("Symptom in hops"))

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed."""
        left, right = self.count.read()
        contact, flight = self.contact.read(), self.flight.read()
        symptom = reading.symptom(self.symptom)
        if left is None and right is None:
            return None
        return HopTest(
            **common(about, symptom),  # type: ignore[arg-type]
            left=None if left is None else Hops(left, contact[0], flight[0]),
            right=None if right is None else Hops(right, contact[1], flight[1]),
        )

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if not isinstance(test, HopTest):
            return
        left, right = test.left, test.right
        self.count.fill(left.hops if left else None, right.hops if right else None)
        self.contact.fill(
            left.contact_ms if left else None, right.contact_ms if right else None
        )
        self.flight.fill(left.flight_ms if left else None, right.flight_ms if right else None)
        self.symptom.fill(test.symptom)


class RunPart:
    """The fastest run of the day."""

    def __init__(self, form: Form) -> None:
        self.percent = NumberField("%")
        self.first: QWidget = self.percent
        form.add(_("Fastest &run, of own speed"), self.percent)
        self.symptom = SymptomField(form, _("Symptom in running"))

    def read(self, reading: Reading, about: About) -> Test | None:
        """Return the test typed."""
        percent, symptom = self.percent.value, reading.symptom(self.symptom)
        if percent is None:
            return None
        return RunTest(**common(about, symptom), percent_of_own=percent)  # type: ignore[arg-type]

    def fill(self, test: Test) -> None:
        """Show a test that is being corrected, if it is one of this kind."""
        if not isinstance(test, RunTest):
            return
        self.percent.show_value(test.percent_of_own)
        self.symptom.fill(test.symptom)
