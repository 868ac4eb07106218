"""The two questions at the onset that cannot wait for the examination."""

from dataclasses import dataclass

from teamrehab.domain.injuries import Case, RedFlag, Urgency
from teamrehab.language import _


@dataclass(frozen=True, slots=True, kw_only=True)
class OnsetSigns:
    """What was answered beside the pitch; None where it was not asked.

    ``pop_or_no_push_off``: a pop was felt or heard, or the athlete cannot push off.
    """

    chest_or_breath: bool | None = None
    pop_or_no_push_off: bool | None = None


def flag_at_onset(case: Case, signs: OnsetSigns, flag_id: str) -> RedFlag | None:
    """Return the red flag that the answers raise, None where they raise none.

    Chest pain or short of breath is an emergency (common practice); a pop or no push-off may
    be a tendon rupture, which a doctor sees on the same day (J Athl Train 2014;49:820). Of both
    the more urgent counts and both are named. "No" rules nothing out.
    """
    urgency = urgency_at_onset(signs)
    if urgency is None:
        return None
    seen = [
        _("Chest pain or short of breath") if signs.chest_or_breath else "",
        _("A pop, or cannot push off: a tendon rupture is possible")
        if signs.pop_or_no_push_off
        else "",
    ]
    return RedFlag(
        flag_id=flag_id,
        case_id=case.case_id,
        athlete_id=case.athlete_id,
        on=case.on,
        what="; ".join(words for words in seen if words),
        urgency=urgency,
    )


def urgency_at_onset(signs: OnsetSigns) -> Urgency | None:
    """Return how soon the answers need a doctor, None where they do not."""
    if signs.chest_or_breath:
        return Urgency.EMERGENCY
    return Urgency.SAME_DAY if signs.pop_or_no_push_off else None
