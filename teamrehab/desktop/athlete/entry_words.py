"""Tests, sessions, examinations and notes in words, as the list of entries shows them."""

from teamrehab.desktop.athlete.examination_words import earlier_words, examination_words
from teamrehab.desktop.athlete.measure_words import measure_words
from teamrehab.desktop.entry.session_form import session_words
from teamrehab.domain.examination import EarlierInjury, Examination
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import (
    Feeling,
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    Loaded,
    LoadedRaiseTest,
    Missed,
    MorningResponse,
    Raises,
    RunTest,
    SafetyCheck,
    SessionEntry,
    SessionMissed,
    Symptom,
    Test,
)
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.language import _
from teamrehab.reports.wording_evening import missed_words

Observed = (
    SessionMissed | MorningResponse | SafetyCheck | SignsAsked | Examination | EarlierInjury
)
Entry = Test | SessionEntry | Remark | Observed


def kind_words(entry: Entry) -> str:
    """Return what kind of entry it is."""
    words: dict[type, str] = {
        HeelRaiseTest: _("Heel raises"),
        HopTest: _("Hops"),
        FunctionCheck: _("Function check"),
        RunTest: _("Run"),
        JumpTest: _("Single-leg jump"),
        KneeToWallTest: _("Knee to wall"),
        LoadedRaiseTest: _("Raises with weight"),
        SessionEntry: _("Session"),
        SessionMissed: _("No session"),
        MorningResponse: _("Next morning"),
        SafetyCheck: _("Four questions"),
        SignsAsked: _("Red flags asked for"),
        Examination: _("Examination"),
        EarlierInjury: _("Earlier injury"),
        Remark: _("Note"),
    }
    return words[type(entry)]


def result_words(entry: Entry, weight_g: int | None = None) -> str:
    """Return the numbers of an entry, its symptom, what was special and what follows from it.

    ``weight_g`` is the athlete's weight, for the work of heel raises.
    """
    if isinstance(entry, Remark):
        return " ".join(entry.text.split())
    if isinstance(entry, Observed):
        return ", ".join(part for part in _observed(entry) if part)
    told = [*_numbers(entry), *_circumstances(entry), *measure_words(entry, weight_g)]
    return ", ".join(part for part in told if part)


def symptom_words(symptom: Symptom | None) -> str:
    """Return a symptom as "pain 3", "symptom 3", "no symptom", or "symptom not asked"."""
    if symptom is None:
        return _("symptom not asked")
    if symptom.score == 0:
        return _("no symptom")
    feeling = {
        Feeling.PAIN: _("pain {score}"),
        Feeling.TIGHTNESS: _("tightness {score}"),
        Feeling.CRAMP: _("cramp {score}"),
        Feeling.SHARP: _("sharp {score}"),
        Feeling.NOT_SAID: _("symptom {score}"),
    }[symptom.feeling]
    return feeling.format(score=symptom.score)


def _observed(entry: Observed) -> list[str]:
    match entry:
        case SessionMissed(reason=reason, text=words):
            told = reason is Missed.OTHER  # the words are the reason then
            return [missed_words(entry), "" if told else words]
        case MorningResponse(symptom=symptom, painkiller=painkiller):
            return [symptom_words(symptom), _("painkiller taken") if painkiller else ""]
        case SafetyCheck():
            return _safety(entry)
        case SignsAsked(asked=asked, seen=seen):
            return [_signs(len(asked), len(seen))]
        case Examination():
            return examination_words(entry)
        case EarlierInjury():
            return earlier_words(entry)


def _signs(asked: int, seen: int) -> str:
    said = _("{seen} of {asked} seen: a red flag") if seen else _("none of {asked} seen")
    return said.format(asked=asked, seen=seen)


def _safety(check: SafetyCheck) -> list[str]:
    return [
        _("same spot") if check.same_spot else _("another spot"),
        _("swollen or warm") if check.swollen_or_warm else _("not swollen or warm"),
        _("can push off") if check.can_push_off else _("cannot push off"),
        _("chest or breath") if check.chest_or_breath else _("nothing in chest or breath"),
    ]


def _numbers(entry: Test | SessionEntry) -> list[str]:
    match entry:
        case HeelRaiseTest() | LoadedRaiseTest():
            return _raises(entry)
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


def _raises(test: HeelRaiseTest | LoadedRaiseTest) -> list[str]:
    """Return raises as "27 left", those with weight as "7 x 42.5 kg left"."""
    said = [_raised(leg) for leg in (test.left, test.right)]
    bent = _("knee bent") if test.knee is Knee.BENT else ""
    lost = isinstance(test, HeelRaiseTest) and not test.full_range
    return [*_sides(*said), bent, _("range lost") if lost else ""]


def _raised(leg: Raises | Loaded | None) -> str | None:
    if isinstance(leg, Loaded):
        said = _("{count} x {weight:g} kg")
        return said.format(count=leg.repetitions, weight=leg.weight_g / 1000)
    return None if leg is None else str(leg.repetitions)


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
        _("brisk walk of 30 min"): check.brisk_walk,
        _("change of direction"): check.change_of_direction,
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
