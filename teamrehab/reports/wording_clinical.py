"""Criteria, proposals and reasons in words, for the medical staff only."""

from collections.abc import Iterator

from teamrehab.domain.decision import (
    CriterionResult,
    Decision,
    Evidence,
    Proposal,
    Verdict,
)
from teamrehab.domain.estimates import NoEstimate
from teamrehab.domain.history import History
from teamrehab.domain.injuries import Certainty, Nature, Side
from teamrehab.domain.protocol import InjuryKind
from teamrehab.language import _, counted
from teamrehab.reports.findings import LikelyReturn
from teamrehab.reports.wording import day_words, range_words


def side_words(side: Side) -> str:
    """Return the side of the body; "" where it does not apply."""
    return {
        Side.LEFT: _("left"),
        Side.RIGHT: _("right"),
        Side.BOTH: _("both sides"),
        Side.NOT_APPLICABLE: "",
    }[side]


def verdict_words(verdict: Verdict) -> str:
    """Return how a criterion stands."""
    return {
        Verdict.MET: _("met"),
        Verdict.NOT_MET: _("not met"),
        Verdict.DUE_AGAIN: _("due again"),
        Verdict.NEVER_TESTED: _("never tested"),
    }[verdict]


def number_words(value: float) -> str:
    """Return a number without needless decimals: "27", "91.5"."""
    return f"{round(value + 1e-9, 1):g}"


def quantity_words(value: float, unit: str) -> str:
    """Return a number with its unit, where it has one."""
    if not unit:
        return number_words(value)
    return _("{value} {unit}").format(value=number_words(value), unit=unit)


def criterion_sentence(result: CriterionResult) -> str:
    """Return a criterion, how it stands, and every number behind that with its error."""
    fields = {
        "criterion": result.criterion.sentence,
        "verdict": verdict_words(result.verdict),
        "numbers": "; ".join(numbers_words(result)),
    }
    if not result.evidence:
        return _("{criterion}: {verdict}").format(**fields)
    known = [e for e in result.evidence if e.error is not None]
    if not known:
        return _("{criterion}: {verdict}; {numbers}").format(**fields)
    widest = max(known, key=lambda e: e.error or 0)
    error = quantity_words(widest.error or 0, widest.unit)
    return _("{criterion}: {verdict}; {numbers}; error of the test {error}").format(
        error=error, **fields
    )


def inside_error_words(result: CriterionResult) -> str:
    """Return that a number lies too near the one asked for to be told from it, "" elsewhere.

    The error named is the widest of the numbers behind it, in their own unit.
    """
    if not result.inside_error:
        return ""
    passed = result.verdict in (Verdict.MET, Verdict.DUE_AGAIN)
    passed = result.verdict in (Verdict.MET, Verdict.DUE_AGAIN)
    known = [e for e in result.evidence if e.error is not None]
    if not known:
        if passed:
            return _("Met, but only just: inside the error of the test. Test again.")
        return _("Missed by less than the error of the test. Test again.")
    widest = max(known, key=lambda e: e.error or 0)
    message = _("Missed by less than the error of the test ({error}). Test again.")
    if passed:
        message = _("Met, but only just: inside the error of the test ({error}). Test again.")
    return message.format(error=quantity_words(widest.error or 0, widest.unit))


def symmetry_words(test: str, index: float, *, injured: bool) -> str:
    """Return a symmetry index (percent): injured leg over the other, else left over right."""
    message = _("{test}: the left leg is {index} % of the right")
    if injured:
        message = _("{test}: the injured leg is {index} % of the other")
    return message.format(test=test, index=number_words(index))


def numbers_words(result: CriterionResult) -> tuple[str, ...]:
    """Return each number behind a criterion: "27 of 25 repetitions, left, Tue 3 Nov"."""
    return tuple(_evidence_words(evidence, result) for evidence in result.evidence)


def _evidence_words(evidence: Evidence, result: CriterionResult) -> str:
    fields = {
        "what": _measured(evidence, result),
        "side": side_words(evidence.side) if evidence.side else "",
        "day": day_words(evidence.on),
    }
    if fields["side"]:
        return _("{what}, {side}, {day}").format(**fields)
    return _("{what}, {day}").format(**fields)


def _measured(evidence: Evidence, result: CriterionResult) -> str:
    """Return what was measured; a count against the count asked for.

    Shares, differences in percent and symptoms are not counts: "8 of 10 %" would mislead.
    """
    if evidence.value is None:
        return evidence.measure
    units = (result.unit, evidence.unit)
    if result.needed is not None and all(units) and "%" not in units:
        return _("{value} of {needed} {unit}").format(
            value=number_words(evidence.value),
            needed=number_words(result.needed),
            unit=evidence.unit,
        )
    value = quantity_words(evidence.value, evidence.unit)
    if result.criterion.check == "observed":
        value = _("yes") if evidence.value else _("no")
    return _("{measure}: {value}").format(measure=evidence.measure, value=value)


def missing_words(decision: Decision | None) -> str:
    """Return what is missing for the next stage: the first criterion, how many more."""
    if decision is None or not decision.missing:
        return ""
    first, *others = decision.missing
    words = _("{criterion}: {verdict}").format(
        criterion=first.criterion.sentence, verdict=verdict_words(first.verdict)
    )
    if not others:
        return words
    return _("{first} (and {count} more)").format(first=words, count=len(others))


def proposal_sentence(decision: Decision) -> str:
    """Return what the program proposes, as one sentence; a person decides."""
    return {
        Proposal.MOVE_UP: _("Criteria met: {next} can be opened"),
        Proposal.STAY: counted(
            "Stay in {{stage}}: {count} criterion open",
            "Stay in {{stage}}: {count} criteria open",
            len(decision.missing),
        ),
        Proposal.READY_FOR_SIGN_OFF: _("All criteria met: ready for sign-off"),
        Proposal.STOP_AND_REVIEW: _("Stop and review before anything else is loaded"),
    }[decision.proposal].format(next=decision.next_name, stage=decision.stage_name)


def stage_words(decision: Decision) -> str:
    """Return "Strength opened (2 of 5)"."""
    return _("{stage} opened ({n} of {m})").format(
        stage=decision.stage_name, n=decision.stage, m=decision.stages
    )


def no_estimate_words(why: NoEstimate) -> str:
    """Return why a case has no range, for the medical staff."""
    return {
        NoEstimate.TOO_YOUNG: _("being assessed"),
        NoEstimate.UNCONFIRMED: _("no range: diagnosis not confirmed"),
        NoEstimate.RED_FLAG: _("no range: open red flag"),
        NoEstimate.HEAD_INJURY: _("no range: head injury"),
        NoEstimate.ILLNESS: _("no range: illness"),
        NoEstimate.OPERATION: _("no range: operation"),
        NoEstimate.SENSITIVE: _("no range shown"),
        NoEstimate.NO_PRIOR: _("no range: no published figure to start from"),
        NoEstimate.MINOR: _("no range: under 18, adult figures do not apply"),
    }[why]


def likely_words(likely: LikelyReturn | None, why: NoEstimate | None) -> str:
    """Return the likely return in words, what persons said first; "" while worked out."""
    said = [] if likely is None else [part for part in _known_words(likely) if part]
    if said:
        return "; ".join(said)
    return "" if why is None else no_estimate_words(why)


def _known_words(likely: LikelyReturn) -> Iterator[str]:
    """Yield what is decided, what a clinician expects, and the range."""
    if likely.not_before is not None:
        yield _("not before {day}, decided").format(day=day_words(likely.not_before))
    elif likely.earliest is None and likely.chances:
        yield _ruled_out_words(likely)
    if likely.expected is not None:
        day = day_words(likely.expected)
        yield _("expected by the medical staff: {day}").format(day=day)
    if likely.earliest is not None:
        yield range_words(likely.earliest, likely.latest)


def _ruled_out_words(likely: LikelyReturn) -> str:
    """Return the matches that are ruled out, where nothing else is known of the return."""
    days = ", ".join(day_words(chance.on) for chance in likely.chances if chance.decided)
    return _("ruled out for {days}, decided").format(days=days)


def behind_words(likely: LikelyReturn) -> str:
    """Return how many closed club cases the range rests on, and how many of this injury."""
    if not likely.club_cases:
        return _("Published figures alone are behind it: no closed club case yet.")
    count, same = likely.club_cases, likely.same_injury_cases
    told = counted(
        "Published figures and {count} closed club case, of any injury, are behind it.",
        "Published figures and {count} closed club cases, of all injuries, are behind it.",
        count,
    )
    if same is None:
        return told
    own = _("None of them was of this injury.")
    if same:
        own = counted(
            "{count} of them was of this injury.", "{count} of them were of this injury.", same
        )
    return f"{told} {own}"


def problem_words(history: History, kind: InjuryKind | None) -> str:
    """Return the problem in a few words: the injury, the muscle, how sure it is."""
    if history.case.sensitive:
        return _("sensitive: see the case")
    diagnosis = history.diagnosis
    if diagnosis is None or kind is None:
        return _undiagnosed(history)
    muscle = next((m.name for m in kind.muscles if m.key == diagnosis.muscle), "")
    fields = {"injury": kind.name, "muscle": muscle}
    named = _("{injury}, {muscle}").format(**fields) if muscle else kind.name
    sure = {
        Certainty.SUSPECTED: _("{what} (suspected)"),
        Certainty.WORKING: _("{what} (working diagnosis)"),
        Certainty.CONFIRMED: "{what}",
    }[diagnosis.certainty]
    return sure.format(what=named)


def started_words(history: History) -> str:
    """Return where it is and what happened as noted at the start; "" where nothing was.

    For the page of the case, beside a diagnosis or where the problem is not shown: as long
    as there is no diagnosis, ``problem_words`` says the same.
    """
    area, what = history.case.area.strip(), history.case.what.strip()
    if not area or area.casefold() in what.casefold():
        return what or area
    return _("{area}: {what}").format(area=area, what=what) if what else area


def _undiagnosed(history: History) -> str:
    words = (history.diagnosis.text if history.diagnosis else "") or started_words(history)
    if words:
        return words
    return _("illness") if history.case.nature is Nature.ILLNESS else _("injury, not assessed")
