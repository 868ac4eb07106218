"""First values of the leg that was not hurt: what the injured one will be compared with."""

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.length_field import LengthField
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.pair import Pair
from teamrehab.desktop.entry.parts import About, common
from teamrehab.desktop.entry.typed import Reading
from teamrehab.desktop.forms import NumberField
from teamrehab.domain.injuries import Side
from teamrehab.domain.intake import HurtBefore
from teamrehab.domain.measures import HeelRaiseTest, Hops, HopTest, KneeToWallTest, Raises, Test
from teamrehab.language import _
from teamrehab.reports.wording import month_and_year
from teamrehab.reports.wording_clinical import side_words


class MeasuredPart:
    """Knee to wall of both legs, and the other leg's heel raises and hops.

    Without a single injured side there is no other leg, and only the distances are asked.
    """

    def __init__(self, form: Form, occasion: Occasion) -> None:
        self._occasion, self.other = occasion, occasion.injured.other
        self._ids = [occasion.new_id() for _test in range(3)]
        self.wall = Pair(field=LengthField)
        form.add(_("&Knee to wall"), self.wall, _("left, then right"))
        self.raises, self.height, self.hops = NumberField(), NumberField("mm"), NumberField()
        self._range_words, self._painkiller_words = _("Full range"), _("&Painkiller, last 24 h")
        self.range = Choice([(True, _("kept")), (False, _("lost"))])
        self.painkiller = Choice([(False, _("no")), (True, _("yes"))])
        self.warning = text("", Type.COMPLAINT)
        self.warning.setWordWrap(True)
        self.warning.hide()
        self._add_other_leg(form)
        hint = _("asked where something was measured")
        form.add(self._painkiller_words, self.painkiller, hint)

    def read(self, reading: Reading) -> tuple[Test, ...]:
        """Return the tests typed."""
        left, right = self.wall.read()
        tests: list[Test] = []
        if left is not None or right is not None:
            about = common(self._about(0), None)
            wall = KneeToWallTest(**about, left_mm=left, right_mm=right)  # type: ignore[arg-type]
            tests.append(wall)
        if self.raises.value is not None:
            tests.append(self._raises(reading, Raises(self.raises.value, self.height.value)))
        if self.hops.value is not None:
            tests.append(self._hops(Hops(self.hops.value)))
        if tests:
            reading.answer(self.painkiller, self._painkiller_words)
        return tuple(tests)

    def warn(self, hurt: HurtBefore | None) -> None:
        """Say that the leg that serves as reference was hurt itself."""
        if hurt is not None:
            where = _(hurt.area) if hurt.area else side_words(hurt.side)
            said = _(
                "Careful: the {side} leg was hurt itself ({where}, {when}). Its values may lie "
                "under what it had when healthy."
            )
            self.warning.setText(
                said.format(
                    side=side_words(self.other), where=where, when=month_and_year(hurt.on)
                )
            )
        self.warning.setVisible(hurt is not None)

    def _add_other_leg(self, form: Form) -> None:
        there_is_one = self.other is not self._occasion.injured
        if there_is_one:
            said = _("First values of the {side} leg, not injured now")
            form.add_heading(said.format(side=side_words(self.other)))
        form.rows.addRow(self.warning)
        rows = (
            form.add(_("&Heel raises"), self.raises),
            form.add(self._range_words, self.range),
            form.add(_("Mean height of a raise"), self.height),
            form.add(_("Hops"), self.hops),
        )
        for row in rows:
            form.rows.setRowVisible(row, there_is_one)

    def _about(self, number: int) -> About:
        return About(
            test_id=self._ids[number],
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            painkiller=bool(self.painkiller.value()),
            tester=self._occasion.signer,
        )

    def _raises(self, reading: Reading, raises: Raises) -> Test:
        kept = reading.answer(self.range, self._range_words)
        left = self.other is Side.LEFT
        return HeelRaiseTest(
            **common(self._about(1), None),  # type: ignore[arg-type]
            left=raises if left else None,
            right=None if left else raises,
            full_range=kept is not False,
        )

    def _hops(self, hops: Hops) -> Test:
        left = self.other is Side.LEFT
        return HopTest(
            **common(self._about(2), None),  # type: ignore[arg-type]
            left=hops if left else None,
            right=None if left else hops,
        )
