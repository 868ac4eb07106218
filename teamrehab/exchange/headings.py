"""Which column of a roster is which, by the words clubs write above them in five languages."""

import re
import unicodedata
from collections.abc import Mapping, Sequence
from enum import StrEnum

from teamrehab.language import _


class Column(StrEnum):
    """What a roster may say of an athlete; NAME is first name and surname in one cell."""

    NUMBER = "number"
    SURNAME = "surname"
    FIRST_NAME = "first name"
    NAME = "name"
    BORN = "born"
    POSITION = "position"
    WEIGHT = "weight"
    JOINED = "joined"
    LEFT = "left"
    PRINTED_NAME = "printed name"


_WORDS: Mapping[Column, str] = {
    Column.NUMBER: (
        "number, no, nr, num, n, #, shirt, shirt number, shirt no, squad number, squad no, "
        "jersey, jersey number, jersey no, numero, numero de camiseta, dorsal, maillot, "
        "numero de maillot, ruckennummer, trikotnummer, nummer, camisola, "
        "numero da camisola, camisa"
    ),
    Column.SURNAME: (
        "surname, last name, family name, apellido, apellidos, primer apellido, "
        "nom de famille, nachname, familienname, zuname, apelido, apelidos, sobrenome, "
        "ultimo nome"
    ),
    Column.FIRST_NAME: (
        "first name, given name, given names, forename, nombre de pila, prenom, prenoms, "
        "vorname, vornamen, primeiro nome, nome proprio"
    ),
    Column.NAME: (
        "name, full name, athlete, player, athlete name, player name, nombre, "
        "nombre completo, nombre y apellidos, apellidos y nombre, jugador, jugadora, "
        "atleta, nom, nom complet, nom et prenom, nom prenom, joueur, joueuse, "
        "vollstandiger name, spieler, spielerin, nome, nome completo, jogador, jogadora"
    ),
    Column.BORN: (
        "born, born on, date of birth, birth date, birthdate, birthday, dob, "
        "fecha de nacimiento, nacimiento, fecha nacimiento, f nacimiento, "
        "date de naissance, ne le, nee le, naissance, geboren, geboren am, geburtsdatum, "
        "geburtstag, geb, geb datum, data de nascimento, nascimento, data nascimento, "
        "nascido, nascida"
    ),
    Column.POSITION: (
        "position, pos, role, posicion, demarcacion, puesto, poste, spielposition, posicao"
    ),
    Column.WEIGHT: (
        "weight, weight kg, weight in kg, body mass, body mass kg, mass, mass kg, peso, "
        "peso kg, poids, poids kg, gewicht, gewicht kg, korpergewicht, kg"
    ),
    Column.JOINED: (
        "joined, joined on, date joined, since, arrival, fecha de alta, alta, "
        "incorporacion, fecha de incorporacion, llegada, arrivee, date d arrivee, entree, "
        "date d entree, eintritt, eintrittsdatum, beigetreten, im verein seit, zugang, "
        "entrada, data de entrada, chegada"
    ),
    Column.LEFT: (
        "left, left on, date left, leaving date, departure, fecha de baja, baja, salida, "
        "depart, date de depart, sortie, date de sortie, austritt, austrittsdatum, abgang, "
        "verlassen, saida, data de saida"
    ),
    Column.PRINTED_NAME: (
        "printed name, latin name, name in latin letters, nombre en letras latinas, "
        "nom en lettres latines, name in lateinischer schrift, nome em letras latinas"
    ),
}


def plain(heading: str) -> str:
    """Return a heading without case, accents, signs and spaces, so that spellings meet."""
    spread = unicodedata.normalize("NFKD", heading.casefold())
    letters = "".join(sign for sign in spread if sign.isalnum())
    return letters or heading.strip()


_COLUMNS = {
    plain(word): column for column, words in _WORDS.items() for word in words.split(",")
}


def columns_of(headings: Sequence[str]) -> dict[int, Column]:
    """Return which cell of a row of headings is which column; a second of a kind is left out.

    A bare "name" stands for whichever of surname and first name has no column of its own.
    """
    found: dict[int, Column] = {}
    for index, heading in enumerate(headings):
        column = _COLUMNS.get(plain(heading))
        if column is not None and column not in found.values():
            found[index] = column
    return {index: _meant(column, found) for index, column in found.items()}


def _meant(column: Column, found: Mapping[int, Column]) -> Column:
    if column is not Column.NAME:
        return column
    others = set(found.values())
    if Column.SURNAME in others and Column.FIRST_NAME not in others:
        return Column.FIRST_NAME
    return Column.SURNAME if Column.FIRST_NAME in others else Column.NAME


def names_in(columns: Mapping[int, Column]) -> bool:
    """Return whether a row of headings says where the names are."""
    return not {Column.SURNAME, Column.NAME}.isdisjoint(columns.values())


def in_words(column: Column) -> str:
    """Return the column as a person reads it."""
    words = {
        Column.NUMBER: _("Number"),
        Column.SURNAME: _("Surname"),
        Column.FIRST_NAME: _("First name"),
        Column.NAME: _("Name"),
        Column.BORN: _("Born"),
        Column.POSITION: _("Position"),
        Column.WEIGHT: _("Weight (kg)"),
        Column.JOINED: _("Joined"),
        Column.LEFT: _("Left"),
        Column.PRINTED_NAME: _("Printed name"),
    }
    return words[column]


def split_name(name: str) -> tuple[str, str]:
    """Return (surname, first name) of a name in one cell.

    "Okafor, Sam" is told by its comma, "OKAFOR Sam" by its capitals; else the last word and
    the particles before it are the surname (common practice in rosters).
    """
    if "," in name:
        surname, first = name.split(",", 1)
        return surname.strip(), first.strip()
    words = name.split()
    shouted = [word for word in words if _shouted(word)]
    if shouted and len(shouted) < len(words):
        return " ".join(shouted), " ".join(word for word in words if word not in shouted)
    start = len(words) - 1
    while start > 1 and _PARTICLE.fullmatch(words[start - 1]):
        start -= 1
    return " ".join(words[start:]), " ".join(words[:start])


_PARTICLE = re.compile(
    r"(?i:de|da|do|dos|das|del|della|di|du|la|le|van|von|der|den|ten|ter|zu|el|al|bin|y|e)"
)


def _shouted(word: str) -> bool:
    return len(word) > 2 and word == word.upper() and word != word.lower()
