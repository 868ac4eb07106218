"""A team session or match of the whole squad: what stands of it, and saving it in one go."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from teamrehab.domain.availability import Training
from teamrehab.domain.combining import availability_on
from teamrehab.domain.days import Exposure
from teamrehab.domain.history import Squad, Standing
from teamrehab.records import Casebook, Receipt
from teamrehab.tasks.refusals import insist


@dataclass(frozen=True, slots=True, kw_only=True)
class Occasion:
    """Which session: its day, training or match, and which of the day (counted from 1)."""

    on: date
    match: bool = False
    session: int = 1


def team_session(casebook: Casebook, occasion: Occasion) -> tuple[Standing[Exposure], ...]:
    """Return what stands of one session; of two versions of an athlete both."""
    found = casebook.since(Exposure, occasion.on)
    return tuple(fact for fact in found if occasion_of(fact.value) == occasion)


def save_team_session(casebook: Casebook, exposures: Sequence[Exposure]) -> Receipt | None:
    """Note minutes and effort of a session, all in one transaction; None if all stand already.

    What stood about an athlete and this session is replaced, never doubled.

    Raises:
        ImplausibleError: one of them cannot stand; nothing was written.
    """
    insist(casebook.clock.today(), None, *exposures)
    first = min((one.on for one in exposures), default=casebook.clock.today())
    known = {f.value for f in casebook.since(Exposure, first) if f.versions == 1}
    new = [one for one in dict.fromkeys(exposures) if one not in known]
    return casebook.note(*new) if new else None


def may_not_train(squad: Squad, exposures: Sequence[Exposure]) -> tuple[str, ...]:
    """Return the names of who would be noted as having trained and may not, on that day.

    Because of a case only: training none stated, nothing stated yet, an open red flag.
    """
    trained = {one.athlete_id: one.on for one in exposures if one.minutes > 0}
    return tuple(
        athlete.name
        for athlete in squad.athletes
        if (on := trained.get(athlete.athlete_id)) is not None
        and availability_on(on, squad.cases_of(athlete.athlete_id)).training is Training.NONE
    )


def occasion_of(exposure: Exposure) -> Occasion:
    """Return which session an exposure belongs to."""
    return Occasion(on=exposure.on, match=exposure.match, session=exposure.session)
