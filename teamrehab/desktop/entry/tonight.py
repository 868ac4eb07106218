"""Tonight's test: all that can be tested of an evening on one page, by keyboard."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtWidgets import QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.day_field import DayField
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.function_part import FunctionPart
from teamrehab.desktop.entry.length_parts import JumpPart, KneeToWallPart
from teamrehab.desktop.entry.loaded_part import LoadedPart
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.pair import side_heading
from teamrehab.desktop.entry.parts import About, HopsPart, RaisesPart, RunPart
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    LoadedRaiseTest,
    RunTest,
    Test,
)
from teamrehab.domain.protocol import Criterion
from teamrehab.language import _

Part = RaisesPart | HopsPart | FunctionPart | RunPart | JumpPart | KneeToWallPart | LoadedPart

_EVENING: tuple[type[Part], ...] = (
    RaisesPart,
    HopsPart,
    RunPart,
    FunctionPart,
    JumpPart,
    KneeToWallPart,
    LoadedPart,
)

_ASKS_FOR: Mapping[str, type[Part]] = {
    "raises_at_least": RaisesPart,
    "raises_within": RaisesPart,
    "raises_to_target": RaisesPart,
    "loaded_raises_within": LoadedPart,
    "hops_at_least": HopsPart,
    "reactive_within": HopsPart,
    "jump_within": JumpPart,
    "knee_to_wall_within": KneeToWallPart,
    "speed_over": RunPart,
    "clean_runs": RunPart,
    "observed": FunctionPart,
}
"""Which part of the form answers a check of a protocol."""

_PART_OF: dict[type, type[Part]] = {
    HeelRaiseTest: RaisesPart,
    HopTest: HopsPart,
    FunctionCheck: FunctionPart,
    RunTest: RunPart,
    JumpTest: JumpPart,
    KneeToWallTest: KneeToWallPart,
    LoadedRaiseTest: LoadedPart,
}
"""The part that corrects a test of each kind."""


class TonightForm(Form):
    """All tests of one evening; what stays empty was not tested.

    The injured side is named above its column. Symptoms, effort and answers start empty; the
    keyboard starts at the first count; whether it was fresh or after training may stay open.
    ``asked`` are the open criteria of the next gate: what they wait for stands first.
    """

    def __init__(
        self,
        occasion: Occasion,
        correcting: Test | None = None,
        asked: Sequence[Criterion] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._correcting = occasion, correcting
        self._asked = asked
        self._ids: dict[int, str] = {}
        self.day = DayField(correcting.on if correcting else occasion.today)
        self.add(_("&Day"), self.day)
        self._has_heading = False
        self.parts = self._make_parts()
        self._add_circumstances()
        self.add_details_button(shown=correcting is not None)
        self.setFocusProxy(self._begin.first)
        if correcting is not None:
            self._fill(correcting)

    @property
    @override
    def title(self) -> str:
        return _("Correct a test") if self._correcting else _("Tonight's test")

    @property
    @override
    def save_words(self) -> str:
        name = self._occasion.athlete.name
        if self._correcting:
            return _("Save the corrected test of {name}").format(name=name)
        return _("Save the test of {name}").format(name=name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        tests = self._read(reading)
        if tests:
            reading.answer(self.painkiller, self.painkiller_words)
        reading.finish(tests)
        return tests

    @override
    def values_so_far(self) -> tuple[Any, ...]:
        reading = Reading()
        tests = self._read(reading)
        reading.finish(questions_too=False)
        return tests

    def _read(self, reading: Reading) -> tuple[Test, ...]:
        found = [p.read(reading, self._about_part(n)) for n, p in enumerate(self.parts)]
        return tuple(test for test in found if test is not None)

    def _about_part(self, number: int) -> About:
        """Return what the test of one part says of itself; its id stays while one types."""
        return About(
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            tester=self._tester(),
            test_id=self._ids.setdefault(number, self._next_id()),
            on=self.day.day,
            painkiller=bool(self.painkiller.value()),
            after_training=self.after.value(),
            surface=self.surface.text().strip(),
            shoe=self.shoe.text().strip(),
        )

    def _next_id(self) -> str:
        return self._correcting.test_id if self._correcting else self._occasion.new_id()

    def _tester(self) -> str:
        return self._correcting.tester if self._correcting else self._occasion.signer

    def _make_parts(self) -> tuple[Part, ...]:
        one = _PART_OF.get(type(self._correcting))
        kinds = _EVENING if one is None else (one,)
        return self._in_order_asked(kinds)

    def _in_order_asked(self, kinds: tuple[type[Part], ...]) -> tuple[Part, ...]:
        """Add the rows of what open criteria wait for first; return the parts as named."""
        asked = {part for c in self._asked if (part := _ASKS_FOR.get(c.check)) is not None}
        order = sorted(kinds, key=lambda part: part not in asked)
        made = {part: self._make(part) for part in order}
        self._begin = made[order[0]]
        return tuple(made[part] for part in kinds)

    def _make(self, part: type[Part]) -> Part:
        if part not in (FunctionPart, RunPart) and not self._has_heading:
            self._has_heading = True
            self.rows.addRow("", side_heading(self._occasion.injured))
        given = [c.parameters for c in self._asked]
        if part is FunctionPart:
            seen = {str(c.parameters["what"]): c.sentence for c in self._asked if _sees(c)}
            return FunctionPart(self, seen)
        if part is RaisesPart:
            return RaisesPart(self, knee_asked=any(g.get("knee") == Knee.BENT for g in given))
        if part is JumpPart or part is KneeToWallPart or part is LoadedPart:
            return part(self, asked=any(_ASKS_FOR.get(c.check) is part for c in self._asked))
        return HopsPart(self) if part is HopsPart else RunPart(self)

    def _add_circumstances(self) -> None:
        self.painkiller_words = _("&Painkiller in the last 24 h")
        self.painkiller = Choice([(False, _("no")), (True, _("yes"))])
        self.after = Choice([(False, _("fresh")), (True, _("after training"))])
        self.surface, self.shoe = QLineEdit(), QLineEdit()
        self.add(self.painkiller_words, self.painkiller)
        self.add(_("When"), self.after, _("if it is known"))
        self.add(_("Surface"), self.surface, detail=True)
        self.add(_("Shoe"), self.shoe, detail=True)

    def _fill(self, test: Test) -> None:
        (part,) = self.parts
        part.fill(test)
        self.painkiller.choose(test.painkiller)
        if test.after_training is not None:
            self.after.choose(test.after_training)
        self.surface.setText(test.surface)
        self.shoe.setText(test.shoe)


def _sees(criterion: Criterion) -> bool:
    return criterion.check == "observed"
