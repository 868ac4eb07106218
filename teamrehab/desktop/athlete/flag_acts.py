"""Red flags on the athlete's page: raised by hand, and asked for one by one."""

from teamrehab.desktop.athlete.desk import Asked, Desk
from teamrehab.desktop.athlete.flag_forms import RedFlagForm
from teamrehab.desktop.athlete.signs_form import SignsForm
from teamrehab.domain.deciding import situation_of
from teamrehab.domain.signs import signs_due
from teamrehab.tasks import cases
from teamrehab.tasks.examining import note_signs


def raise_flag(desk: Desk) -> Asked:
    """Return the form that raises a red flag."""
    history = desk.history
    return Asked(
        RedFlagForm(desk.occasion),
        lambda values: lambda book: cases.raise_red_flag(book, history, values[0]),
    )


def ask_for_signs(desk: Desk) -> Asked:
    """Return the form that asks for the signs of the protocol, without any the flag's."""
    history, protocol = desk.history, desk.portrait.protocol
    signs = () if protocol is None else protocol.guidance.signs
    if protocol is None or not signs:
        return raise_flag(desk)
    why = signs_due(situation_of(history, protocol, desk.occasion.today), protocol)
    return Asked(
        SignsForm(desk.occasion, signs, why),
        lambda values: lambda book: note_signs(book, history, values),
    )
