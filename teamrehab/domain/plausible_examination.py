"""What can be true of an examination and of earlier injuries; limits are common practice."""

from dataclasses import fields

from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.implausible import Found, Implausible, Moment, day_between, needed, number
from teamrehab.language import _

TENDER_MM = range(301)
DAYS_OUT = range(2001)
_NO_FINDINGS = frozenset({"examination_id", "case_id", "athlete_id", "on"})


def examination(found: Examination, moment: Moment) -> Found:
    """Yield what cannot be true of an examination; one without any answer is none."""
    yield from day_between(_("Day"), found.on, moment.onset, moment.today)
    yield from number(_("Length that is tender"), found.tender_mm, TENDER_MM, "mm")
    names = (each.name for each in fields(found) if each.name not in _NO_FINDINGS)
    if all(getattr(found, name) in (None, "") for name in names):
        yield Implausible(
            field=_("What was examined"),
            value=_("nothing"),
            allowed=_("at least one answer is needed"),
            remedy=_("Answer what was examined, or leave the examination out."),
        )


def earlier_injury(hurt: EarlierInjury, moment: Moment) -> Found:
    """Yield what cannot be true of an injury from before."""
    yield from day_between(_("Day of the earlier injury"), hurt.on, None, moment.today)
    yield from needed(_("Part of the body"), hurt.area, _("a part of the body is needed"))
    yield from number(_("Days out"), hurt.days_out, DAYS_OUT, _("days"))
