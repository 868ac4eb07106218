"""Limits in words: what the athlete may do in training and what not, never a body part."""

from collections.abc import Iterable

from teamrehab.domain.availability import Activity, Limit, strictest
from teamrehab.language import _


def activity_words(activity: Activity) -> str:
    """Return an activity as a coach calls it."""
    return {
        Activity.PACE: _("running"),
        Activity.SPRINT: _("sprints"),
        Activity.CHANGE_OF_DIRECTION: _("changes of direction"),
        Activity.JUMP: _("jumps"),
        Activity.CONTACT: _("contact"),
        Activity.STRIKE_OR_THROW: _("strikes and throws"),
        Activity.GYM: _("gym work"),
        Activity.MINUTES: _("team sessions"),
    }[activity]


def limit_words(limit: Limit) -> str:
    """Return one limit in words: "running up to 80 % of own speed", "no sprints"."""
    if limit.at_most is None:
        return _("no {activity}").format(activity=activity_words(limit.activity))
    return _capped(limit.activity, limit.at_most)


def _capped(activity: Activity, at_most: int) -> str:
    message = {
        Activity.PACE: _("running up to {at_most} % of own speed"),
        Activity.SPRINT: _("sprints up to {at_most} % of own speed"),
        Activity.MINUTES: _("up to {at_most} minutes"),
    }.get(activity, _("{activity}, at most {at_most}"))
    return message.format(activity=activity_words(activity), at_most=at_most)


def may(limits: Iterable[Limit]) -> tuple[str, ...]:
    """Return what the athlete may do: every activity without a limit, and the capped ones.

    Minutes are named only where they are capped; what a cap on another activity already
    speaks of is left out.
    """
    caps = _caps(limits)
    words = []
    for activity in Activity:
        if activity in caps:
            cap = caps[activity]
            words += [] if cap is None else [_capped(activity, cap)]
        elif activity is not Activity.MINUTES and not _spoken_of(activity, caps):
            words.append(activity_words(activity))
    return tuple(words)


def may_not(limits: Iterable[Limit]) -> tuple[str, ...]:
    """Return what the athlete may not do at all."""
    return tuple(activity_words(x.activity) for x in strictest(limits) if x.at_most is None)


def limits_words(limits: Iterable[Limit]) -> str:
    """Return all limits in one line, as a sheet remembers them: "" without any."""
    return "; ".join(limit_words(limit) for limit in strictest(limits))


def limits_stand(limits: Iterable[Limit]) -> str:
    """Return that limits hold beside criteria that are met: nothing within them was full."""
    said = _("Limits still stand: {limits}. What was done within them is no full session.")
    return said.format(limits=limits_words(limits))


def _caps(limits: Iterable[Limit]) -> dict[Activity, int | None]:
    """Return the cap that counts for each activity that has one."""
    return {limit.activity: limit.at_most for limit in strictest(limits)}


def _spoken_of(activity: Activity, caps: dict[Activity, int | None]) -> bool:
    """Return whether a limit on running already says that ``activity`` is not free."""
    if activity is Activity.SPRINT:
        return Activity.PACE in caps
    no_running = Activity.PACE in caps and caps[Activity.PACE] is None
    return activity is Activity.CHANGE_OF_DIRECTION and no_running
