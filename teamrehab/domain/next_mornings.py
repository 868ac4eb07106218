"""What the next mornings say about the work of a ladder: repeat it, or stop and examine again.

The 24-hour rule is common practice (see ``mornings``).
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from teamrehab.domain.examination import Examination
from teamrehab.domain.history import History
from teamrehab.domain.ladder_days import A_DAY, Place
from teamrehab.domain.lifting import able
from teamrehab.domain.mornings import Morning
from teamrehab.domain.protocol import Ladder
from teamrehab.domain.symptom_rules import allowed
from teamrehab.domain.work import Work, passes
from teamrehab.language import _

Mornings = Mapping[date, Morning]


def bad_mornings(known: History, mornings: Mornings, works: Sequence[Work]) -> tuple[date, ...]:
    """Return the bad mornings in a row after the newest sessions at a ladder, newest first.

    ``mornings`` are those of the case, ``works`` oldest first. A session whose next morning
    nobody noted does not end a row of two or more, but is the repeat that a single one asks
    for; a good morning and an examination that found nothing not possible end any row.
    """
    looked = max((one.on for one in known.of(Examination) if able(one)), default=date.min)
    after = {work.session.on + A_DAY for work in works}
    found = []
    for morning in sorted(after & mornings.keys(), reverse=True):
        if morning <= looked or not mornings[morning].troubles:
            break
        found.append(morning)
    repeated = len(found) == 1 and found[0] != works[-1].session.on + A_DAY
    return () if repeated else tuple(found)


def was_clean(
    mornings: Mornings, place: Place, ladder: Ladder, level: int, before: date
) -> bool:
    """Return whether a level was once passed before a day without a bad morning after it."""
    most = allowed(place.protocol, ladder, place.stage)
    bad = {day for day, morning in mornings.items() if morning.troubles}
    return any(
        work.level == level
        and work.session.on < before
        and passes(work, ladder, most)
        and work.session.on + A_DAY not in bad
        for work in place.works[ladder.key]
    )


def review_words(ladder: Ladder, known: History, bad: Sequence[date]) -> str:
    """Return what two bad mornings in a row ask for; ``bad`` newest first."""
    now, before, *_earlier = ((morning - known.case.on).days for morning in bad)
    said = _(
        "{ladder}: two mornings in a row were bad after this work (days {before} and {now}):"
        " stop, and examine again before it goes on."
    )
    return said.format(ladder=ladder.name, before=before, now=now)


def reviews(
    known: History, mornings: Mornings, place: Place
) -> Iterator[tuple[Ladder, tuple[date, ...]]]:
    """Yield the ladders after whose newest work the morning was bad, with the bad mornings.

    After two in a row such work stops until the leg was examined again.
    """
    for ladder in place.protocol.ladders:
        found = bad_mornings(known, mornings, place.works[ladder.key])
        if found and ladder.open_at(place.stage):
            yield ladder, found
