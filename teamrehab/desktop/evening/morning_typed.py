"""One line of the morning as it is typed, key by key (pure)."""

from dataclasses import dataclass, replace

import msgspec

from teamrehab.domain.measures import Feeling, Symptom

_LETTERS = {feeling.value: feeling for feeling in Feeling}


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedMorning:
    """A symptom with its letter, and a painkiller; None is what nobody typed.

    ``letter_may_follow``: the key before was the digit of the symptom.
    """

    score: int | None = None
    feeling: Feeling | None = None
    painkiller: bool | None = None
    letter_may_follow: bool = False

    @property
    def symptom(self) -> Symptom | None:
        """Return the symptom typed; without a letter nobody said its kind."""
        if self.score is None:
            return None
        return Symptom(self.score, self.feeling or Feeling.NOT_SAID)

    @property
    def is_empty(self) -> bool:
        """Return whether nothing is typed."""
        return self.score is None and self.painkiller is None


@dataclass(frozen=True, slots=True, kw_only=True)
class MorningDraft:
    """A line that is not saved, as it survives a crash: with the id its fact will have."""

    typed: TypedMorning
    response_id: str


def draft_text(draft: MorningDraft) -> str:
    """Return a draft as text."""
    return msgspec.json.encode(draft).decode()


def read_draft(text: str) -> MorningDraft | None:
    """Return the draft in a text, None where it is none this program can read."""
    try:
        return msgspec.json.decode(text, type=MorningDraft)
    except msgspec.DecodeError:
        return None


def press(typed: TypedMorning, sign: str) -> TypedMorning | None:
    """Return the line after a key, None where the key means nothing here.

    A digit is the symptom, + is 10; P, T, C or S right after it says what was felt; K answers
    whether a painkiller was taken: yes, and again no.
    """
    sign = sign.casefold()
    if sign == "+" or (len(sign) == 1 and sign.isdecimal()):
        score = 10 if sign == "+" else int(sign)
        return replace(typed, score=score, feeling=None, letter_may_follow=True)
    if sign in _LETTERS and typed.letter_may_follow:
        return replace(typed, feeling=_LETTERS[sign], letter_may_follow=False)
    if sign == "k":
        return replace(typed, painkiller=not typed.painkiller, letter_may_follow=False)
    return None


def rubbed_out(typed: TypedMorning) -> TypedMorning:
    """Return the line without what was typed last: the letter, the symptom, the painkiller."""
    if typed.feeling is not None:
        return replace(typed, feeling=None, letter_may_follow=True)
    if typed.score is not None:
        return replace(typed, score=None, letter_may_follow=False)
    return TypedMorning()
