"""Free words for the coach are looked through for body, illness and drug words."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from teamrehab.domain.history import Squad
from teamrehab.domain.injuries import Clearance, Scope
from teamrehab.language import _
from teamrehab.locations import RESOURCES
from teamrehab.reports.findings import SquadRow
from teamrehab.reports.outlook import COMING_MATCHES
from teamrehab.reports.wording import day_words

_WORD = re.compile(r"\w+")


@dataclass(frozen=True, slots=True)
class _Words:
    """The list: whole words, beginnings of words, phrases, and phrases that are free."""

    whole: frozenset[str]
    beginnings: tuple[str, ...]
    phrases: re.Pattern[str]
    free: re.Pattern[str]


@dataclass(frozen=True, slots=True)
class Withheld:
    """Free words that stay off the sheet, and which of them kept them off."""

    athlete_id: str
    words: tuple[str, ...]


def check_free_words(text: str) -> tuple[str, ...]:
    """Return the body, illness and drug words in a free text, as typed and in order.

    A list catches slips, not intent: who writes is told that the coach will read it. Words of
    English and the commonest of Spanish, French, German and Portuguese (common practice).
    """
    words = _words()
    text = unicodedata.normalize("NFC", text)
    plain = words.free.sub(lambda m: " " * len(m[0]), _plain(text))
    places = [m.span() for m in words.phrases.finditer(plain)]
    places += [m.span() for m in _WORD.finditer(plain) if _clinical(m[0], words)]
    return tuple(dict.fromkeys(text[start:end] for start, end in sorted(places)))


def free_words(squad: Squad, row: SquadRow) -> tuple[str, ...]:
    """Return the free words about one athlete that would stand on today's sheet."""
    texts = [
        *_agreed(squad, row.athlete_id),
        *_signed_limits(squad, row.athlete_id),
        row.availability.match_role,
    ]
    return tuple(text for text in texts if text.strip())


def withheld(squad: Squad, rows: tuple[SquadRow, ...]) -> tuple[Withheld, ...]:
    """Return whose free words stay off the sheet and why, to be told before it is printed."""
    found = [
        Withheld(row.athlete_id, words)
        for row in rows
        for text in free_words(squad, row)
        if (words := check_free_words(text))
    ]
    return tuple(dict.fromkeys(found))


def clinical_in_signature(squad: Squad, signed: str) -> tuple[str, ...]:
    """Return the clinical words of a signature; the names of the squad's staff are free."""
    names = {word for who in squad.staff for word in _WORD.findall(_plain(who.name))}
    return tuple(word for word in check_free_words(signed) if _plain(word) not in names)


def with_fit_opponents(squad: Squad) -> Squad:
    """Return the squad with fixtures as the coach may read them."""
    fixtures = tuple(
        replace(f, opponent=fit_for_coach(f.opponent) or _("match")) for f in squad.fixtures
    )
    return replace(squad, fixtures=fixtures)


def withheld_sentences(
    squad: Squad, rows: tuple[SquadRow, ...], signed: str = ""
) -> tuple[str, ...]:
    """Return what stays off the sheet and why, sentence by sentence, for who prints it."""
    names = {row.athlete_id: row.name for row in rows}
    said = [
        _("{name}: free words stay off the sheet, {words} tells something medical.").format(
            name=names[one.athlete_id], words=", ".join(one.words)
        )
        for one in withheld(squad, rows)
    ]
    said += [
        _("{day}: the opponent stays off the sheet, {words} tells something medical.").format(
            day=day_words(fixture.on), words=", ".join(words)
        )
        for fixture in squad.coming(COMING_MATCHES)
        if (words := check_free_words(fixture.opponent))
    ]
    return (*said, *signature_sentences(squad, signed))


def signature_sentences(squad: Squad, signed: str) -> tuple[str, ...]:
    """Return why a signature cannot stand on the sheet, () where it can."""
    words = clinical_in_signature(squad, signed)
    if not words:
        return ()
    sentence = _(
        "The signature stays off the sheet, {words} tells something medical. "
        "Sign with name and role only."
    )
    return (sentence.format(words=", ".join(words)),)


def fit_for_coach(text: str) -> str:
    """Return a free text, or "" where it holds a clinical word."""
    return "" if check_free_words(text) else text.strip()


def disclosed_sentence(squad: Squad, athlete_id: str) -> str:
    """Return what the athlete agreed to have on the squad's day's sheet, "" where nothing."""
    agreed = _agreed(squad, athlete_id)
    return fit_for_coach(agreed[-1]) if agreed else ""


def clearance_limits(squad: Squad, athlete_id: str) -> tuple[str, ...]:
    """Return the limits that signatures put on matches, worded for the coach."""
    limits = (fit_for_coach(limit) for limit in _signed_limits(squad, athlete_id))
    return tuple(limit for limit in limits if limit)


def warning_words(found: tuple[str, ...]) -> str:
    """Return what is said beside a free field while it is typed."""
    if not found:
        return _("The coach will read this.")
    return _(
        "The coach will read this. Clinical words keep it off the sheet: {words}. "
        "Say what the athlete may or may not do instead."
    ).format(words=", ".join(found))


def _agreed(squad: Squad, athlete_id: str) -> list[str]:
    """Return the sentences agreed for the squad's day."""
    return [
        d.sentence
        for d in squad.disclosed
        if d.athlete_id == athlete_id and d.on <= squad.day <= d.until
    ]


def _signed_limits(squad: Squad, athlete_id: str) -> list[str]:
    """Return the limit of each open case whose last signature is for a match with a limit."""
    last = [h.last(Clearance) for h in squad.cases_of(athlete_id)]
    return [c.limit for c in last if c is not None and c.scope is Scope.MATCH_WITH_LIMIT]


def _clinical(word: str, words: _Words) -> bool:
    return word in words.whole or word.startswith(words.beginnings)


def _plain(text: str) -> str:
    """Return lower case without accents, letter for letter, so that places stay the same."""
    return "".join(_plain_letter(letter) for letter in text)


def _plain_letter(letter: str) -> str:
    bare = unicodedata.normalize("NFD", letter)[0].lower()
    return bare if len(bare) == 1 else letter


@lru_cache(maxsize=1)
def _words() -> _Words:
    path = RESOURCES / "words" / "clinical_words.txt"
    lines = [line.strip() for line in path.read_text(encoding="utf-8").splitlines()]
    entries = [line for line in lines if line and not line.startswith("#")]
    return _Words(
        whole=frozenset(e for e in entries if not e.startswith("=") and not e.endswith("-")),
        beginnings=tuple(e[:-1] for e in entries if e.endswith("-")),
        phrases=_any_of(e for e in entries if " " in e and not e.startswith("=")),
        free=_any_of(e[1:].strip() for e in entries if e.startswith("=")),
    )


def _any_of(phrases: Iterable[str]) -> re.Pattern[str]:
    """Return what finds any of these phrases, whatever stands between their words."""
    found = (r"[\W_]+".join(map(re.escape, phrase.split())) for phrase in phrases)
    return re.compile(rf"\b(?:{'|'.join(found)})\b")
