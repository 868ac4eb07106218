"""Settings of a club: only where two clubs must differ, each default with its source."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ClubSettings:
    """All club settings.

    cleared_same_day: who is cleared on match day may play (common practice: the day before).
    retest_days: a test result is due again after so many days (common practice).
    hop_retest_days: the same for hops from Running on (common practice).
    assessing_hours: no range is shown for a case younger than this (common practice).
    sheet_valid_days: a coach's sheet is valid for so many days (common practice: one week).
    """

    cleared_same_day: bool = False
    retest_days: int = 7
    hop_retest_days: int = 3
    assessing_hours: int = 48
    sheet_valid_days: int = 7
