"""Why a case has no range: what is shown instead must never look surer than it is."""

from datetime import datetime, timedelta

from teamrehab.domain.days import DAY_TURNS_AT
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Certainty, Nature
from teamrehab.domain.settings import ClubSettings
from teamrehab.forecast.published import Published


def reason_for_none(
    history: History, now: datetime, published: Published, settings: ClubSettings
) -> NoEstimate | None:
    """Return why no range may be shown now, or None where one may.

    ``now`` is the wall time in the club's zone. Only the day of onset is known, so the
    hours count from the end of that day, which turns at 04:00: never too early.
    """
    if history.open_red_flags:
        return NoEstimate.RED_FLAG
    lasting = lasting_reason(history, published)
    if lasting not in (None, NoEstimate.NO_PRIOR):
        return lasting
    if now.replace(tzinfo=None) < _assessed_from(history, settings):
        return NoEstimate.TOO_YOUNG
    diagnosis = history.diagnosis
    if diagnosis is None or diagnosis.certainty is not Certainty.CONFIRMED:
        return NoEstimate.UNCONFIRMED
    return lasting


def lasting_reason(history: History, published: Published) -> NoEstimate | None:
    """Return why the published figures can never apply to a case, or None.

    Such a case teaches nothing about the others either: leave it out of the fit.
    """
    case, diagnosis = history.case, history.diagnosis
    reasons = {
        NoEstimate.SENSITIVE: case.sensitive,
        NoEstimate.HEAD_INJURY: case.head_injury,
        NoEstimate.ILLNESS: case.nature is Nature.ILLNESS,
        NoEstimate.OPERATION: case.operation,
        NoEstimate.MINOR: history.athlete.is_minor_on(case.on),
        NoEstimate.NO_PRIOR: diagnosis is None or diagnosis.injury not in published.injuries,
    }
    return next((reason for reason, holds in reasons.items() if holds), None)


def _assessed_from(history: History, settings: ClubSettings) -> datetime:
    day_after = history.case.on + timedelta(days=1)
    turn = datetime(day_after.year, day_after.month, day_after.day) + DAY_TURNS_AT  # noqa: DTZ001  wall time
    return turn + timedelta(hours=settings.assessing_hours)
