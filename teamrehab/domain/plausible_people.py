"""What can be true of people, matches and minutes; limits are common practice."""

from datetime import date

from teamrehab.domain.athletes import Athlete, StaffMember, Team
from teamrehab.domain.availability import Absence
from teamrehab.domain.days import Exposure
from teamrehab.domain.implausible import Found, Moment, day_between, needed, number
from teamrehab.domain.plausible_entries import MINUTES, SCORE
from teamrehab.domain.sheets import Disclosed
from teamrehab.language import _

NUMBER = range(1000)
SESSIONS = range(1, 6)
WEIGHT_KG = range(30, 251)
YOUNGEST, OLDEST = 5, 80


def athlete(person: Athlete, moment: Moment) -> Found:
    """Yield what cannot be true of an athlete; a first name may be missing."""
    yield from needed(_("Surname"), person.surname, _("a name is needed"))
    earliest, latest = years_before(moment.today, OLDEST), years_before(moment.today, YOUNGEST)
    yield from day_between(_("Born"), person.born, earliest, latest)
    yield from number(_("Number"), person.number, NUMBER, "")
    weight = None if person.weight_g is None else round(person.weight_g / 1000)
    yield from number(_("Weight (kg)"), weight, WEIGHT_KG, "kg")
    yield from day_between(_("Left"), person.left, person.joined, None)


def staff_member(person: StaffMember, _moment: Moment) -> Found:
    """Yield what cannot be true of a member of staff."""
    yield from needed(_("Name"), person.name, _("a name is needed"))


def team(named: Team, _moment: Moment) -> Found:
    """Yield what cannot be true of a team."""
    yield from needed(_("Name"), named.name, _("a name is needed"))


def absence(away: Absence, _moment: Moment) -> Found:
    """Yield what cannot be true of an absence; it may be planned ahead."""
    yield from day_between(_("Until"), away.until, away.on, None)


def exposure(minutes: Exposure, moment: Moment) -> Found:
    """Yield what cannot be true of minutes taken part, and of the effort of them."""
    yield from day_between(_("Day"), minutes.on, None, moment.today)
    yield from number(_("Minutes"), minutes.minutes, MINUTES, _("minutes"))
    yield from number(_("Effort (RPE)"), minutes.effort, SCORE, "")
    yield from number(_("Session of the day"), minutes.session, SESSIONS, "")


def disclosed(said: Disclosed, _moment: Moment) -> Found:
    """Yield what cannot be true of a sentence for the coach (its words: the reports)."""
    yield from needed(_("Sentence for the coach"), said.sentence, _("a sentence is needed"))
    consent = _("who asked the athlete is needed")
    yield from needed(_("Consent taken by"), said.consent_taken_by, consent)
    yield from day_between(_("Until"), said.until, said.on, None)


def years_before(day: date, years: int) -> date:
    """Return the same day so many years ago; 29 February becomes the 28th."""
    try:
        return day.replace(year=day.year - years)
    except ValueError:
        return day.replace(year=day.year - years, day=28)
