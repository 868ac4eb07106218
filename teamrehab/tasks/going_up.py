"""What keeps a case from going up, whoever decides and wherever: nothing is written then."""

from datetime import date

from teamrehab.domain.deciding import stops_since
from teamrehab.domain.history import History
from teamrehab.language import _
from teamrehab.records import Casebook
from teamrehab.tasks.board import protocol_of
from teamrehab.tasks.refusals import RefusedError


def insist_may_go_up(casebook: Casebook, known: History, on: date) -> None:
    """Raise RefusedError where rehab was stopped on the day of a move, or is stopped today.

    ``known`` is the case as it stands. A step down is the safe direction: never ask for one.
    """
    if known.open_red_flags:
        raise RefusedError(
            _("A red flag is open: nothing goes up until a named doctor has closed it.")
        )
    stops = stops_since(known, protocol_of(known), on, casebook.clock.today())
    if stops:
        sentence = _("Rehab is stopped, so nothing goes up. {why}")
        raise RefusedError(sentence.format(why=" ".join(stops)))
