"""The test cells of a row: typed in place, and the criteria answer at once."""

from functools import partial

from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Space
from teamrehab.desktop.athlete.acts import answer_to, can_stand
from teamrehab.desktop.athlete.desk import Desk
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.function_part import FunctionPart
from teamrehab.desktop.entry.length_parts import JumpPart, KneeToWallPart
from teamrehab.desktop.entry.live_answer import LiveAnswer
from teamrehab.desktop.entry.loaded_part import LoadedPart
from teamrehab.desktop.entry.pair import Pair, side_heading
from teamrehab.desktop.entry.parts import About, HopsPart, RaisesPart, RunPart
from teamrehab.desktop.entry.typed import Reading, TypedError
from teamrehab.desktop.evening.row_values import Ids
from teamrehab.desktop.forms import form_layout
from teamrehab.domain.measures import Knee, Test
from teamrehab.domain.protocol import Criterion
from teamrehab.language import _

Texts = tuple[tuple[str, str], ...]

_SIDE = 96
"""Width of a left or right field: narrow, so that the criteria have room beside them."""

_CAPTION = 176
"""Width of the words before a field: the sentence of a criterion takes several lines."""

_RANGE, _BENT_RANGE, _KNEE, _LOADED_KNEE = "range", "bent range", "knee", "weight knee"


class RowTests(Form):
    """Heel raises, run, hops, jump and knee to wall, all on screen; empty: not tested.

    What the tester must have seen for the next stage is asked first; the bent knee and raises
    with weight have rows where an open criterion asks for them, or ``kept`` holds some.
    ``painkiller`` is the answer of the row. ``texts`` is all that is typed, by field, so that
    a row can be kept and typed again.
    """

    def __init__(self, desk: Desk, ids: Ids, kept: Texts = ()) -> None:
        super().__init__()
        self._desk, self._ids = desk, ids
        self._kept = {name.split()[0] for name, _text in kept}
        self.painkiller: bool | None = None
        self._columns = QHBoxLayout()
        self._columns.setSpacing(Space.WIDE)
        self.rows.addRow(self._columns)
        self._begin_column()
        self.look = self._look()
        both = self._asks_bent()
        self.raises = RaisesPart(self, knee_asked=True, only=Knee.STRAIGHT if both else None)
        self.bent = RaisesPart(self, only=Knee.BENT) if both else None
        self.run = RunPart(self)
        self._fold(unless="beat" in self._kept)
        self._begin_column()
        self.hops, self.jump, self.wall = (
            HopsPart(self),
            JumpPart(self, asked=True),
            KneeToWallPart(self, asked=True),
        )
        self.load = self._load()
        self._fold(unless=self._times_asked() or bool(self._kept & {"contact", "flight"}))
        self._narrow()
        self.answer = LiveAnswer(
            self,
            desk.portrait.injured,
            partial(answer_to, desk),
            partial(can_stand, desk),
            brief=True,
            caution=desk.match_day,
        )
        self._columns.addWidget(self.answer, 1)
        self.setFocusProxy(self.raises.first if self.look is None else self.look.first)

    @property
    @override
    def title(self) -> str:
        return _("Tests")

    @property
    @override
    def save_words(self) -> str:
        return _("Back to the row")

    @override
    def values(self) -> tuple[Test, ...]:
        reading = Reading()
        tests = self._read(reading)
        reading.finish(tests)
        return tests

    @override
    def values_so_far(self) -> tuple[Test, ...]:
        reading = Reading()
        tests = self._read(reading)
        reading.finish(questions_too=False)
        return tests

    @property
    def readable(self) -> tuple[Test, ...]:
        """Return the tests typed so far, () while one of them cannot be read."""
        try:
            return self.values_so_far()
        except TypedError:
            return ()

    @property
    def texts(self) -> Texts:
        """Return what is typed, () while no field holds anything."""
        lines = tuple((name, field.text()) for name, field in self._lines() if field.text())
        if not lines and all(choice.value() is None for _name, choice in self._looks()):
            return ()
        kept, knee = self.raises.range.value(), self.raises.knee.value()
        answers = [(_RANGE, "" if kept is None else str(kept)), (_KNEE, str(knee or ""))]
        if self.bent is not None and (bent := self.bent.range.value()) is not None:
            answers.append((_BENT_RANGE, str(bent)))
        if self.load is not None:
            answers.append((_LOADED_KNEE, str(self.load.knee.value() or "")))
        answers += [
            (name, str(c.value())) for name, c in self._looks() if c.value() is not None
        ]
        return (*lines, *((name, answer) for name, answer in answers if answer))

    def retype(self, texts: Texts) -> None:
        """Type again what was kept."""
        kept = dict(texts)
        for name, field in self._lines():
            field.setText(kept.get(name, ""))
        if _RANGE in kept:
            self.raises.range.choose(kept[_RANGE] == str(True))
        if self.bent is not None and _BENT_RANGE in kept:
            self.bent.range.choose(kept[_BENT_RANGE] == str(True))
        if _KNEE in kept:
            self.raises.knee.choose(Knee(kept[_KNEE]))
        if self.load is not None and _LOADED_KNEE in kept:
            self.load.knee.choose(Knee(kept[_LOADED_KNEE]))
        for name, choice in self._looks():
            choice.choose({str(True): True, str(False): False}.get(kept.get(name, "")))
        self.answer.refresh()

    def _asked(self) -> list[Criterion]:
        decision = self._desk.portrait.decision
        return [] if decision is None else [result.criterion for result in decision.missing]

    def _load(self) -> LoadedPart | None:
        """Return the rows of raises with weight, None where no open criterion asks."""
        asked = any(c.check == "loaded_raises_within" for c in self._asked())
        kept = bool(self._kept & {"load", "weight"})
        return LoadedPart(self, asked=True) if asked or kept else None

    def _asks_bent(self) -> bool:
        """Return whether both knee positions have rows of their own."""
        asked = any(c.parameters.get("knee") == str(Knee.BENT) for c in self._raises_asked())
        return asked or "bent" in self._kept

    def _raises_asked(self) -> list[Criterion]:
        return [c for c in self._asked() if c.check.startswith("raises_")]

    def _times_asked(self) -> bool:
        """Return whether a criterion, open or met, is judged by the times of hops."""
        decision = self._desk.portrait.decision
        results = () if decision is None else decision.criteria
        return any(result.criterion.check == "reactive_within" for result in results)

    def _fold(self, *, unless: bool = False) -> None:
        """Take the details added last off the page: a row has little room."""
        if not unless:
            for field in self._details:
                self.rows.setRowVisible(field, False)  # noqa: FBT003  as Qt's own
        self._details.clear()

    def _narrow(self) -> None:
        """Leave the criteria as much room as the fields can spare."""
        for field in self.fields.values():
            field.hide_help()
            if isinstance(field.widget, Pair):
                for side in (field.widget.left, field.widget.right):
                    side.setFixedWidth(_SIDE)
        for caption in self.findChildren(QLabel):
            if caption.buddy() is not None:
                caption.setWordWrap(True)
                caption.setFixedWidth(_CAPTION)

    def _look(self) -> FunctionPart | None:
        """Return the questions on what is to be seen, None where no open criterion asks."""
        asked = self._asked()
        seen = {str(c.parameters["what"]): c.sentence for c in asked if c.check == "observed"}
        if not seen:
            return None
        part = FunctionPart(self, seen)
        self._fold()
        return part

    def _looks(self) -> list[tuple[str, Choice[bool | None]]]:
        answers = {} if self.look is None else self.look.answers
        return [(f"look {key}", choice) for key, choice in answers.items()]

    def _read(self, reading: Reading) -> tuple[Test, ...]:
        parts: dict[str, RaisesPart | RunPart | HopsPart | JumpPart | KneeToWallPart] = {
            "raises": self.raises,
            "run": self.run,
            "hops": self.hops,
            "jump": self.jump,
            "wall": self.wall,
        }
        found = [part.read(reading, self._about(name)) for name, part in parts.items()]
        if self.bent is not None:
            found.append(self.bent.read(reading, self._about("bent")))
        if self.look is not None:
            found.append(self.look.read(reading, self._about("look")))
        if self.load is not None:
            found.append(self.load.read(reading, self._about("load")))
        return tuple(test for test in found if test is not None)

    def _about(self, name: str) -> About:
        occasion = self._desk.occasion
        return About(
            test_id=self._ids(name),
            case_id=occasion.case_id,
            athlete_id=occasion.athlete.athlete_id,
            on=occasion.today,
            painkiller=bool(self.painkiller),
            tester=occasion.signer,
        )

    def _lines(self) -> list[tuple[str, QLineEdit]]:
        """Return every field that takes signs, by a name that does not depend on language."""
        pairs = {
            "raises": self.raises.count,
            "height": self.raises.height,
            "hops": self.hops.count,
            "contact": self.hops.contact,
            "flight": self.hops.flight,
            "jump": self.jump.heights,
            "wall": self.wall.distances,
        }
        single: dict[str, QLineEdit] = {
            "raises symptom": self.raises.symptom,
            "beat": self.raises.beat,
            "run": self.run.percent,
            "run symptom": self.run.symptom,
            "hops symptom": self.hops.symptom,
            "jump symptom": self.jump.symptom,
            "wall symptom": self.wall.symptom,
        }
        if self.look is not None:
            single["look symptom"] = self.look.symptom
        if self.bent is not None:
            pairs |= {"bent": self.bent.count, "bent height": self.bent.height}
            single["bent symptom"] = self.bent.symptom
        if self.load is not None:
            pairs |= {"load": self.load.counts, "weight": self.load.weights}
            single["load symptom"] = self.load.symptom
        sides = [
            (f"{name} {side}", field)
            for name, pair in pairs.items()
            for side, field in (("left", pair.left), ("right", pair.right))
        ]
        return [*sides, *single.items()]

    def _begin_column(self) -> None:
        """Let the rows that follow stand in a column of their own."""
        column = QWidget()
        self._columns.addWidget(column)
        self.rows = form_layout(column)
        self.rows.setVerticalSpacing(Space.HAIR)
        heading = side_heading(self._desk.occasion.injured)
        for label in heading.findChildren(QLabel):
            label.setFixedWidth(_SIDE)
        self.rows.addRow("", heading)
