"""The coach's sheet as plain text, line for line what the paper says."""

from collections.abc import Callable, Iterator

from teamrehab.language import _
from teamrehab.reports.findings import CoachLine, CoachSheet
from teamrehab.reports.wording import day_words, match_outlook_words, moment_words, today_words
from teamrehab.reports.wording_sheet import (
    decision_words,
    expected_words,
    match_head,
    may_not_words,
    may_words,
    number_words,
    return_words,
    shirt_words,
    signature_words,
    title_words,
    unchanged_words,
    until_words,
    update_words,
    validity_words,
    week_words,
)

_Group = tuple[str, tuple[CoachLine, ...], Callable[[CoachLine], list[str]]]


def sheet_text(sheet: CoachSheet) -> str:
    """Return the sheet as plain text, ready for a message or a screen reader."""
    parts = (_head(sheet), _outlook(sheet), _changed(sheet), _coming(sheet), _people(sheet))
    foot = (sheet.caution, signature_words(sheet))
    return "\n\n".join(["\n".join(part) for part in (*parts, foot)]) + "\n"


def _head(sheet: CoachSheet) -> Iterator[str]:
    yield title_words(sheet)
    yield sheet.team
    yield week_words(sheet)
    yield ", ".join(
        _("{day} {match_day}").format(day=day_words(d), match_day=m) if m else day_words(d)
        for d, m in sheet.days
    )
    yield validity_words(sheet)
    yield number_words(sheet)


def _outlook(sheet: CoachSheet) -> Iterator[str]:
    yield _("{what}: {numbers}").format(what=_("Today"), numbers=today_words(sheet.today))
    for match in sheet.today.matches:
        yield _("{what}: {numbers}").format(
            what=match_head(match), numbers=match_outlook_words(match)
        )


def _changed(sheet: CoachSheet) -> Iterator[str]:
    yield _("Changed since the last sheet")
    yield from _listed(sheet.changed or (unchanged_words(sheet),))


def _coming(sheet: CoachSheet) -> Iterator[str]:
    yield _("Decisions and updates coming")
    said = [decision_words(who, moment_words(when)) for who, when in sheet.decisions]
    yield from _listed(tuple(said) or (_("None"),))


def said_of(sheet: CoachSheet, line: CoachLine) -> str:
    """Return what a sheet says of one athlete, without the name: the group, then the words."""
    for head, lines, words in _groups(sheet):
        if line in lines:
            said = "; ".join(word for word in (*words(line), line.disclosed) if word)
            return _("{what}: {words}").format(what=head, words=said) if said else head
    return ""


def _groups(sheet: CoachSheet) -> tuple[_Group, ...]:
    return (
        (_("Trains with limits"), sheet.with_limits, _limited),
        (_("Not training"), sheet.not_training, _out),
        (_("Full training"), sheet.full, _full),
        (_("Away, not medical"), sheet.away, _away),
    )


def _people(sheet: CoachSheet) -> Iterator[str]:
    for number, (head, lines, words) in enumerate(_groups(sheet)):
        if number:
            yield ""
        yield _("{what} ({count})").format(what=head, count=len(lines))
        for line in lines:
            shirt = shirt_words(line)
            said = [f"{shirt} {line.name}".strip(), *words(line), line.disclosed]
            yield "- " + "; ".join(word for word in said if word)


def _limited(line: CoachLine) -> list[str]:
    return [
        may_words(line),
        may_not_words(line),
        until_words(line),
        expected_words(line.expected),
        *_matches(line),
    ]


def _out(line: CoachLine) -> list[str]:
    update = _("next update {when}").format(when=update_words(line))
    return [line.reason, return_words(line), *_matches(line), update]


def _full(line: CoachLine) -> list[str]:
    if line.plays:
        return []
    return [expected_words(line.expected), *_matches(line), line.reason]


def _away(line: CoachLine) -> list[str]:
    return [line.reason]


def _matches(line: CoachLine) -> list[str]:
    if not line.chances:
        return [_("matches: {words}").format(words=line.match_words)]
    return [
        _("{match}: {words}").format(match=chance.label, words=chance.words)
        for chance in line.chances
    ]


def _listed(sentences: tuple[str, ...]) -> Iterator[str]:
    return (f"- {sentence}" for sentence in sentences)
