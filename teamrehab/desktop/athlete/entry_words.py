"""Tests, sessions and notes in words, as the list of entries shows them."""

from teamrehab.desktop.athlete.measure_words import measure_words
from teamrehab.desktop.entry.session_form import session_words
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import (
    Feeling,
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    RunTest,
    SessionEntry,
    Symptom,
    Test,
)
from teamrehab.language import _

Entry = Test | SessionEntry | Remark


def kind_words(entry: Entry) -> str:
    """Return what kind of entry it is."""
    words: dict[type, str] = {
        HeelRaiseTest: _("Heel raises"),
        HopTest: _("Hops"),
        FunctionCheck: _("Function check"),
        RunTest: _("Run"),
        JumpTest: _("Single-leg jump"),
        KneeToWallTest: _("Knee to wall"),
        SessionEntry: _("Session"),
        Remark: _("Note"),
    }
    return words[type(entry)]


def result_words(entry: Entry, weight_g: int | None = None) -> str:
    """Return the numbers of an entry, its symptom, what was special and what follows from it.

    ``weight_g`` is the athlete's weight, for the work of heel raises.
    """
    if isinstance(entry, Remark):
        return " ".join(entry.text.split())
    told = [*_numbers(entry), *_circumstances(entry), *measure_words(entry, weight_g)]
    return ", ".join(part for part in told if part)


def symptom_words(symptom: Symptom | None) -> str:
    """Return a symptom as "pain 3", "no symptom", or "symptom not asked"."""
    if symptom is None:
        return _("symptom not asked")
    if symptom.score == 0:
        return _("no symptom")
    feeling = {
        Feeling.PAIN: _("pain {score}"),
        Feeling.TIGHTNESS: _("tightness {score}"),
        Feeling.CRAMP: _("cramp {score}"),
        Feeling.SHARP: _("sharp {score}"),
    }[symptom.feeling]
    return feeling.format(score=symptom.score)


def _numbers(entry: Test | SessionEntry) -> list[str]:
    match entry:
        case HeelRaiseTest(left=left, right=right):
            counts = (
                left.repetitions if left else None,
                right.repetitions if right else None,
            )
            bent = _("knee bent") if entry.knee is Knee.BENT else ""
            lost = "" if entry.full_range else _("range lost")
            return [*_sides(*counts), bent, lost]
        case HopTest(left=left, right=right):
            return _sides(left.hops if left else None, right.hops if right else None)
        case FunctionCheck():
            return _answers(entry)
        case RunTest(percent_of_own=percent):
            return [_("{percent} % of own speed").format(percent=percent)]
        case (
            JumpTest(left_mm=left, right_mm=right)
            | KneeToWallTest(left_mm=left, right_mm=right)
        ):
            return _sides(*(None if mm is None else centimetres(mm) for mm in (left, right)))
        case SessionEntry():
            return _session(entry)


def centimetres(millimetres: int) -> str:
    """Return a length as "9.5 cm"."""
    return _("{length} cm").format(length=f"{millimetres / 10:g}")


def _sides(left: int | str | None, right: int | str | None) -> list[str]:
    told = []
    if left is not None:
        told.append(_("{count} left").format(count=left))
    if right is not None:
        told.append(_("{count} right").format(count=right))
    return told


def _answers(check: FunctionCheck) -> list[str]:
    asked = {
        _("walking"): check.walks_clean,
        _("stairs"): check.stairs_clean,
        _("double-leg raise"): check.double_leg_raise,
        _("swelling settled"): check.swelling_settled,
        _("no signs"): check.no_signs,
    }
    answers = {True: _("yes"), False: _("no")}
    return [
        _("{what}: {answer}").format(what=what, answer=answers[answer])
        for what, answer in asked.items()
        if answer is not None
    ]


def _session(entry: SessionEntry) -> list[str]:
    told = [session_words(entry.kind)]
    if entry.minutes is not None:
        told.append(_("{minutes} min").format(minutes=entry.minutes))
    if entry.effort is not None:
        told.append(_("effort {effort}").format(effort=entry.effort))
    if entry.limp:
        told.append(_("limp"))
    return told


def _circumstances(entry: Test | SessionEntry) -> list[str]:
    told = [symptom_words(entry.symptom)]
    if entry.painkiller:
        told.append(_("painkiller taken"))
    if not isinstance(entry, SessionEntry) and entry.after_training:
        told.append(_("after training"))
    return told
