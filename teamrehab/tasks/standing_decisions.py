"""A person's decision that a clearance for matches would contradict, in words."""

from collections.abc import Iterator

from teamrehab.domain.days import Fixture
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Clearance, ReturnDecision
from teamrehab.language import _
from teamrehab.records import Casebook
from teamrehab.reports.wording import day_words, fixture_words
from teamrehab.tasks.refusals import RefusedError


def insist_undecided(casebook: Casebook, history: History, signed: Clearance) -> None:
    """Raise RefusedError where a standing decision still keeps out of matches.

    The decision is withdrawn or changed first, so that nothing a person decided is silently
    undone by a signature.
    """
    now = casebook.clock.local()
    coming = [
        fixture.value
        for fixture in casebook.all_of(Fixture)
        if not fixture.value.cancelled and not fixture.value.started(now)
    ]
    against = [
        sentence
        for decision in history.of(ReturnDecision)
        for sentence in _against(decision, signed, coming)
    ]
    if against:
        raise RefusedError("\n".join(against))


def _against(
    decision: ReturnDecision, signed: Clearance, coming: list[Fixture]
) -> Iterator[str]:
    on = day_words(decision.on)
    if decision.not_before is not None and decision.not_before > signed.on:
        yield _(
            "On {on} it was decided: not before {day}. Withdraw or change this decision first,"
            " then sign the clearance."
        ).format(on=on, day=day_words(decision.not_before))
    for fixture in coming:
        if fixture.fixture_id in decision.ruled_out:
            yield _(
                "On {on} it was decided: ruled out for {match}. Withdraw or change this"
                " decision first, then sign the clearance."
            ).format(on=on, match=fixture_words(fixture))
