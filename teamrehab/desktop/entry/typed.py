"""What was typed, as values; what cannot be read is named with its field and a remedy."""

import re
from collections.abc import Sequence
from typing import Any, TypeVar

from PySide6.QtWidgets import QLineEdit

from teamrehab.desktop.entry.choice import Choice
from teamrehab.desktop.entry.pick import Pick
from teamrehab.desktop.forms import ChoiceField, without_mnemonic
from teamrehab.domain.measures import Feeling, Symptom
from teamrehab.domain.plausibility import Implausible
from teamrehab.language import _

T = TypeVar("T")

_SYMPTOM = re.compile(r"(\d{1,2})\s*([ptcs?])?", re.IGNORECASE)


class TypedError(ValueError):
    """Something typed cannot be read; ``found`` names every such field.

    ``unanswered`` are questions still open: no fault while a person is typing. ``values``
    are what could be read all the same.
    """

    def __init__(
        self,
        found: Sequence[Implausible],
        unanswered: Sequence[Implausible] = (),
        values: tuple[Any, ...] = (),
    ) -> None:
        self.values = values
        self.unreadable = tuple(found)
        self.found = (*found, *unanswered)
        super().__init__("\n".join(str(one) for one in self.found))


class Reading:
    """Reads one field after another and gathers what cannot be read."""

    def __init__(self) -> None:
        self._found: list[Implausible] = []
        self._open: list[Implausible] = []

    def symptom(self, field: QLineEdit) -> Symptom | None:
        """Return the symptom in ``field``, None if it is empty or cannot be read."""
        try:
            return symptom(field.text(), field.accessibleName())
        except TypedError as trouble:
            self._found.extend(trouble.unreadable)
            return None

    def words(self, field: QLineEdit, name: str) -> str:
        """Return the words typed; an empty field is trouble."""
        typed = field.text().strip()
        if not typed:
            self._open.append(_nothing_typed(without_mnemonic(name)))
        return typed

    def answer(self, choice: Choice[T], field: str) -> T | None:
        """Return the answer chosen; a question left open is trouble, it is never filled in."""
        return self._insist(choice.value(), field)

    def chosen(self, choice: ChoiceField[T], field: str) -> T | None:
        """Return what was chosen from a list; nothing chosen is trouble."""
        return self._insist(choice.value, field)

    def picked(self, pick: Pick[T], field: str) -> T | None:
        """Return what was taken; words that were typed and stand for nobody are trouble."""
        if pick.value is None and pick.typed:
            self._open.append(_not_taken(pick.typed, without_mnemonic(field)))
            return None
        return self._insist(pick.value, field)

    def _insist(self, value: T | None, field: str) -> T | None:
        if value is None:
            self._open.append(_not_answered(without_mnemonic(field)))
        return value

    def finish(self, values: tuple[Any, ...] = (), *, questions_too: bool = True) -> None:
        """Raise TypedError with what could not be read, and with questions left open."""
        unanswered = self._open if questions_too else []
        if self._found or unanswered:
            raise TypedError(self._found, unanswered, values)


def symptom(text: str, field: str) -> Symptom | None:
    """Return the symptom typed as a number and a letter ("3t"), or None where nothing was.

    ``?`` in place of the letter is what an entry shows in which nobody said the kind.

    Raises:
        TypedError: it is neither.
    """
    typed = text.strip()
    if not typed:
        return None
    found = _SYMPTOM.fullmatch(typed)
    if found is None or int(found[1]) > 10 or (found[2] is None and int(found[1]) > 0):
        raise TypedError([_not_a_symptom(typed, field)])
    letter = (found[2] or "?").lower()
    return Symptom(int(found[1]), Feeling.NOT_SAID if letter == "?" else Feeling(letter))


def _not_answered(field: str) -> Implausible:
    return Implausible(
        field=field,
        value=_("not answered"),
        allowed=_("an answer is needed"),
        remedy=_("Choose one; nothing is recorded that was not observed."),
    )


def _not_taken(typed: str, field: str) -> Implausible:
    return Implausible(
        field=field,
        value=typed[:40],
        allowed=_("one of the list is needed"),
        remedy=_("Type a part of it, then Enter takes the one that is marked."),
    )


def _nothing_typed(field: str) -> Implausible:
    return Implausible(
        field=field,
        value=_("nothing typed"),
        allowed=_("a few words are needed"),
        remedy=_("Type them."),
    )


def _not_a_symptom(typed: str, field: str) -> Implausible:
    return Implausible(
        field=field,
        value=typed[:40],
        allowed=_("0 to 10 and a letter is needed"),
        remedy=_("Type 0, or like 3p: p pain, t tightness, c cramp, s sharp."),
    )
