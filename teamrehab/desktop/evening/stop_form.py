"""The availability form as a stop asks for it: nothing allowed until a person says else."""

from typing import Any

from teamrehab.desktop.athlete.availability_form import AvailabilityForm
from teamrehab.desktop.athlete.desk import Asked, Desk, Save
from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.tasks import cases


def stop_form(desk: Desk) -> Asked:
    """Return the form filled with what a stop asks for; a person states it, or says else.

    No training holds until somebody says otherwise, whatever was stated in advance.
    """
    history = desk.history
    stop = AvailabilityStated(
        case_id=history.case.case_id,
        athlete_id=history.athlete.athlete_id,
        on=desk.occasion.today,
        training=Training.NONE,
        match=Match.NOT_AVAILABLE,
    )

    def saving(values: tuple[Any, ...]) -> Save:
        (stated,) = values
        holds = stated.training is Training.NONE
        return lambda book: cases.state_availability(book, history, stated, holds=holds)

    form = AvailabilityForm(desk.occasion, desk.now, stop, desk.portrait.stage)
    return Asked(form, saving)
