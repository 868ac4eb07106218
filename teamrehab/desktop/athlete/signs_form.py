"""The red flags of the protocol, asked one by one with yes or no."""

from typing import Any

from PySide6.QtWidgets import QLabel, QWidget
from typing_extensions import override

from teamrehab.desktop.appearance import Type, text
from teamrehab.desktop.athlete.flag_words import meanwhile_words, what_to_do
from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.form import Form
from teamrehab.desktop.entry.occasion import Occasion
from teamrehab.desktop.entry.typed import Reading
from teamrehab.domain.guidance import WarningSign
from teamrehab.domain.signs import flag_of_signs
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.language import _

_SENTENCE_WIDTH = 440
"""A question of two lines at most, beside its answers."""


class SignsForm(Form):
    """Asks for each sign; Y or N answers and goes on. A yes raises a red flag on saving.

    ``why`` says why they are asked today, where the program knows.
    """

    def __init__(
        self,
        occasion: Occasion,
        signs: tuple[WarningSign, ...],
        why: tuple[str, ...] = (),
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._occasion, self._signs = occasion, signs
        self._asked_id = occasion.new_id()
        for words in (_reason(why), _after_journeys()):
            line = text(words, Type.SMALL)
            line.setWordWrap(True)
            self.rows.addRow(line)
        self.answers = [self._ask(sign) for sign in signs]
        self.urgent = text("", Type.COMPLAINT)
        self.urgent.setWordWrap(True)
        self.urgent.hide()
        self.rows.addRow(self.urgent)

    def _ask(self, sign: WarningSign) -> Choice[bool]:
        answer = Choice([(False, _("no")), (True, _("yes"))])
        field = self.add(_(sign.sentence), answer)
        caption = self.rows.labelForField(field)
        if isinstance(caption, QLabel):
            caption.setWordWrap(True)
            caption.setFixedWidth(_SENTENCE_WIDTH)
        answer.lettered.connect(self.focusNextChild)
        answer.chosen.connect(self._say)
        return answer

    @property
    @override
    def title(self) -> str:
        return _("Ask for red flags")

    @property
    @override
    def save_words(self) -> str:
        return _("Save the answers for {name}").format(name=self._occasion.athlete.name)

    @override
    def values(self) -> tuple[Any, ...]:
        reading = Reading()
        for sign, answer in zip(self._signs, self.answers, strict=True):
            reading.answer(answer, _(sign.sentence))
        reading.finish()
        asked = self._answered()
        flag = flag_of_signs(asked, self._signs, self._asked_id)
        return (asked,) if flag is None else (asked, flag)

    def _answered(self) -> SignsAsked:
        given = list(zip(self._signs, self.answers, strict=True))
        return SignsAsked(
            asked_id=self._asked_id,
            case_id=self._occasion.case_id,
            athlete_id=self._occasion.athlete.athlete_id,
            on=self._occasion.today,
            asked=tuple(sign.key for sign, answer in given if answer.value() is not None),
            seen=tuple(sign.key for sign, answer in given if answer.value()),
        )

    def _say(self) -> None:
        flag = flag_of_signs(self._answered(), self._signs, self._asked_id)
        if flag is not None:
            said = _("{what} Saving raises a red flag: {meanwhile}")
            self.urgent.setText(
                said.format(what=what_to_do(flag.urgency), meanwhile=meanwhile_words())
            )
        self.urgent.setVisible(flag is not None)


def _reason(why: tuple[str, ...]) -> str:
    if not why:
        return _("Any one of them raises a red flag. A no rules nothing out.")
    said = _("Asked today: {why}. Any one of them raises a red flag. A no rules nothing out.")
    return said.format(why="; ".join(why))


def _after_journeys() -> str:
    return _("Ask after a journey of over 4 h too (common practice).")
