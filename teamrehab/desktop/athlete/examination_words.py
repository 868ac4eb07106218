"""An examination in words: the answers as they are asked, and what was found as it is read."""

from collections.abc import Iterator

from teamrehab.domain.examination import (
    Activity,
    Character,
    EarlierInjury,
    Examination,
    Gait,
    OnsetKind,
    Resisted,
)
from teamrehab.language import _
from teamrehab.reports.wording import month_and_year
from teamrehab.reports.wording_clinical import side_words


def onset_answers() -> list[tuple[OnsetKind, str]]:
    """Return how it can have begun."""
    return [(OnsetKind.SUDDEN, _("sudden")), (OnsetKind.GRADUAL, _("gradual"))]


def activity_answers() -> list[tuple[Activity, str]]:
    """Return what the athlete can have been doing."""
    return [
        (Activity.SPRINT, _("sprint")),
        (Activity.CUT, _("change of direction")),
        (Activity.JUMP, _("jump")),
        (Activity.LONG_RUN, _("long running")),
        (Activity.OTHER, _("other")),
    ]


def character_answers() -> list[tuple[Character, str]]:
    """Return what it can have felt like."""
    return [
        (Character.SHARP, _("sharp and local")),
        (Character.DIFFUSE, _("diffuse tightness")),
        (Character.CRAMP, _("cramp")),
    ]


def resisted_answers() -> list[tuple[Resisted, str]]:
    """Return how a resisted contraction can be, each with a first letter of its own."""
    return [
        (Resisted.STRONG, _("strong, no symptom")),
        (Resisted.PAINFUL, _("hurts, but strong")),
        (Resisted.WEAK, _("weak")),
        (Resisted.UNABLE, _("not possible")),
    ]


def gait_answers() -> list[tuple[Gait, str]]:
    """Return how walking or stairs can look."""
    return [
        (Gait.CLEAN, _("clean")),
        (Gait.LIMPS, _("limps")),
        (Gait.UNABLE, _("not possible")),
    ]


def finding_words(found: Examination, finding: str) -> str:
    """Return one finding in a few words, "" where it was not looked at.

    ``finding`` names a field of the examination.
    """
    return dict(_findings(found)).get(finding, "")


def examination_words(found: Examination) -> list[str]:
    """Return everything that was found, in the order of the form."""
    return [words for _finding, words in _findings(found)]


def earlier_words(hurt: EarlierInjury) -> list[str]:
    """Return an injury from before: what, where, which side, when, how long."""
    days = hurt.days_out
    return [
        word
        for word in (
            hurt.what,
            _(hurt.area) if hurt.area else "",
            side_words(hurt.side),
            month_and_year(hurt.on),
            "" if days is None else _("{days} days out").format(days=days),
        )
        if word
    ]


def _findings(found: Examination) -> Iterator[tuple[str, str]]:
    for finding, words in (
        *_how_it_began(found),
        *_examined(found),
        *_week_before(found),
        ("text", " ".join(found.text.split())),
    ):
        if words:
            yield finding, words


def _how_it_began(found: Examination) -> list[tuple[str, str]]:
    onset = {OnsetKind.SUDDEN: _("sudden onset"), OnsetKind.GRADUAL: _("gradual onset")}
    activity = {
        Activity.SPRINT: _("in a sprint"),
        Activity.CUT: _("in a change of direction"),
        Activity.JUMP: _("in a jump"),
        Activity.LONG_RUN: _("in long running"),
        Activity.OTHER: _("in another activity"),
    }
    return [
        ("onset", onset[found.onset] if found.onset else ""),
        ("activity", activity[found.activity] if found.activity else ""),
        ("character", dict(character_answers())[found.character] if found.character else ""),
        ("site", found.site),
    ]


def _examined(found: Examination) -> list[tuple[str, str]]:
    resisted, gait = dict(resisted_answers()), dict(gait_answers())
    length = found.tender_mm
    tender = [
        found.tender_where,
        "" if length is None else _("{length:g} cm").format(length=length / 10),
    ]
    tenderness = _("tender: {where}").format(where=", ".join(t for t in tender if t))
    answers: list[tuple[str, str, str]] = [
        (
            "resisted_straight",
            _("resisted with the knee straight: {answer}"),
            resisted[found.resisted_straight] if found.resisted_straight else "",
        ),
        (
            "resisted_bent",
            _("resisted with the knee bent: {answer}"),
            resisted[found.resisted_bent] if found.resisted_bent else "",
        ),
        (
            "stretch_straight",
            _("symptom in the stretch with the knee straight: {answer}"),
            _yes_no(found.stretch_straight),
        ),
        (
            "stretch_bent",
            _("symptom in the stretch with the knee bent: {answer}"),
            _yes_no(found.stretch_bent),
        ),
        ("tender_where", tenderness, "yes" if any(tender) else ""),
        ("walking", _("walking: {answer}"), gait[found.walking] if found.walking else ""),
        ("stairs", _("stairs: {answer}"), gait[found.stairs] if found.stairs else ""),
    ]
    return [(f, said.format(answer=answer) if answer else "") for f, said, answer in answers]


def _week_before(found: Examination) -> list[tuple[str, str]]:
    answers = [
        ("more_load", _("more load the week before: {answer}"), found.more_load),
        ("little_rest", _("little rest the week before: {answer}"), found.little_rest),
        (
            "new_surface_or_shoe",
            _("new surface or shoe: {answer}"),
            found.new_surface_or_shoe,
        ),
    ]
    return [
        (finding, "" if answer is None else said.format(answer=_yes_no(answer)))
        for finding, said, answer in answers
    ]


def _yes_no(answer: bool | None) -> str:  # noqa: FBT001  an answer, not a switch
    return "" if answer is None else _("yes") if answer else _("no")
