"""Whom a line of an attendance list is about: by number, by name however typed, or both."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from teamrehab.domain.athletes import Athlete
from teamrehab.exchange import cells
from teamrehab.exchange.cells import refused
from teamrehab.exchange.headings import Column, in_words, plain
from teamrehab.language import _

_LETTERS = str.maketrans("łŁøØđĐðÐıİæÆœŒ", "lLoOdDdDiIaAoO")
"""Letters that no decomposition turns into those of a keyboard without them."""


@dataclass(frozen=True, slots=True)
class SquadNames:
    """The squad by what a list may call each of them."""

    by_number: Mapping[int, tuple[Athlete, ...]]
    by_name: Mapping[str, tuple[Athlete, ...]]

    def who(self, number: str, name: str) -> Athlete:
        """Return the one athlete meant by these two cells; raise RefusedCellError.

        A number settles a surname that several have; a number and a name of two athletes
        are refused, for one of them is wrong.
        """
        wearing = self._wearing(number)
        called = self.by_name.get(_spelled(name), ()) if name else wearing
        if name and not called:
            raise _unknown(in_words(Column.NAME), name)
        meant = [one for one in called if not number or one in wearing]
        if len(meant) == 1:
            return meant[0]
        if not meant:
            raise _two_athletes(number, name, wearing)
        raise _not_one(name or number, meant, by_number=not name)

    def _wearing(self, typed: str) -> tuple[Athlete, ...]:
        number = cells.read_number(typed)
        if number is None:
            return ()
        found = self.by_number.get(number, ())
        if not found:
            raise _unknown(in_words(Column.NUMBER), typed)
        return found


def squad_names(squad: Sequence[Athlete]) -> SquadNames:
    """Return the squad ready to be asked."""
    numbers: dict[int, list[Athlete]] = defaultdict(list)
    names: dict[str, list[Athlete]] = defaultdict(list)
    for athlete in squad:
        if athlete.number is not None:
            numbers[athlete.number].append(athlete)
        for name in {_spelled(one) for one in _callings(athlete)} - {""}:
            names[name].append(athlete)
    return SquadNames(
        {number: tuple(found) for number, found in numbers.items()},
        {name: tuple(found) for name, found in names.items()},
    )


def _callings(athlete: Athlete) -> Iterator[str]:
    """Yield what an athlete is called on lists, also with the first name's initial."""
    first, surname = athlete.first_name, athlete.surname
    yield from (surname, first, athlete.printed_name)
    for begun in (first, first[:1]):
        yield from (f"{begun} {surname}", f"{surname} {begun}")


def _spelled(name: str) -> str:
    return plain(name.translate(_LETTERS))


def _unknown(field: str, value: str) -> cells.RefusedCellError:
    allowed = _("no athlete of the squad is called so")
    if field == in_words(Column.NUMBER):
        allowed = _("no athlete of the squad has this number")
    remedy = _("Fill in the row by hand, or correct the list and paste it again.")
    return refused(field, value, allowed, remedy)


def _two_athletes(number: str, name: str, wearing: Sequence[Athlete]) -> cells.RefusedCellError:
    allowed = _("number {number} is {other}").format(
        number=number.strip(), other=_listed(wearing)
    )
    remedy = _("Correct the number or the name; one of them is somebody else's.")
    return refused(in_words(Column.NAME), name, allowed, remedy)


def _not_one(
    value: str, meant: Sequence[Athlete], *, by_number: bool
) -> cells.RefusedCellError:
    field = in_words(Column.NUMBER if by_number else Column.NAME)
    allowed = _("this may be {names}").format(names=_listed(meant))
    return refused(field, value, allowed, _("Write first name and surname, or the number too."))


def _listed(athletes: Sequence[Athlete]) -> str:
    return ", ".join(athlete.name for athlete in athletes[:3])
