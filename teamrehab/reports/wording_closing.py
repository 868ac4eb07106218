"""What is proposed at the end of an evening, in words for the medical staff and the coach."""

from collections.abc import Sequence
from datetime import datetime

from teamrehab.domain.availability import Availability
from teamrehab.domain.levels import LevelProposal
from teamrehab.language import _, counted
from teamrehab.reports.wording import match_words, moment_words, training_words


def stop() -> str:
    """Return that nobody trains before a review."""
    return _("Stop: no training until it is reviewed")


def stop_holds() -> str:
    """Return that a stop holds beyond a day for which more was stated in advance."""
    return _("Stop: no training until it is reviewed, on the days stated in advance too")


def level_goes_back(found: LevelProposal) -> str:
    """Return that a level is to go back, so that no stage is opened beside it."""
    said = _("{ladder} goes back to level {level} today: no stage is opened beside it.")
    return said.format(ladder=found.ladder.name, level=found.proposed)


def stopped_beside() -> str:
    """Return that another case of the athlete stops this one."""
    return _("Stop: another case comes first, not training already")


def stop_stands(update: datetime | None) -> str:
    """Return that training is none already, and when more is said."""
    if update is None:
        return _("Stop: not training already")
    return _("Stop: not training already, next update {when}").format(when=moment_words(update))


def say_when() -> str:
    """Return that training is none already, and nobody said when it is looked at again."""
    return _("Stop: say when it is reviewed")


def after_stop() -> str:
    """Return what the coach would read of a stop whose match is still to be answered."""
    return _("Not training: medical; matches as stated in the form")


def opened_today(stage: str) -> str:
    """Return that a stage was opened on this very day."""
    return _("{stage} was opened today").format(stage=stage)


def one_stage_a_day() -> str:
    """Return why nothing further is proposed on the day of a move."""
    return _("One stage a day: the next morning is waited for.")


def choose_limits(stage: str) -> str:
    """Return that limits are to be chosen for the last stage."""
    return _("{stage}: choose the limits for training").format(stage=stage)


def no_training_stated(stage: str) -> str:
    """Return why limits are asked for."""
    return _("{stage} is opened, and no training is stated as allowed.").format(stage=stage)


def after_limits() -> str:
    """Return what the coach would read once limits are chosen."""
    return _("Trains with limits, as stated in the form")


def no_sheet_yet() -> str:
    """Return that there is no sheet to compare with."""
    return _("No sheet was issued yet.")


def after_sign_off() -> str:
    """Return what the coach would read once a clearance is signed."""
    return _("As the clearance is signed")


def stay_at_level(found: LevelProposal) -> str:
    """Return that an athlete stays at a level."""
    return _("{ladder}: stay at level {level}").format(
        ladder=found.ladder.name, level=found.level
    )


def to_level(found: LevelProposal) -> str:
    """Return the level proposed and what is done at it."""
    return _("{ladder}: level {level}, {what}").format(
        ladder=found.ladder.name,
        level=found.proposed,
        what=found.ladder.levels[found.proposed - 1].name,
    )


def coach_reads(there: Availability) -> str:
    """Return what the coach reads of training and matches: "with limits, match available"."""
    return _("training {training}, match {match}").format(
        training=training_words(there.training), match=match_words(there.match)
    )


def misled_words(names: Sequence[str]) -> str:
    """Return that these athletes are stopped though the sheet still lets them; "" of nobody."""
    if not names:
        return ""
    said = counted(
        "{count} athlete is stopped since the sheet's availability was stated",
        "{count} athletes are stopped since the sheet's availability was stated",
        len(names),
    )
    return _("{said}: {names}.").format(said=said, names=", ".join(names))
