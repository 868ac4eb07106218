"""Checks on sessions: how many were done in a row, and cleanly."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile

from teamrehab.domain.decision import CriterionResult, Evidence, Verdict
from teamrehab.domain.guidance import FullSessions
from teamrehab.domain.judging import SymptomLimit, joined, painkiller_remark, whole, word
from teamrehab.domain.measures import (
    SessionEntry,
    SessionKind,
)
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation
from teamrehab.language import _

_KINDS = tuple(SessionKind)


def sessions_at_least(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how many clean sessions in a row were done since the stage was opened.

    Clean: no limp, no sharp symptom, none over the number allowed. A harder kind of session
    counts as well. One under a painkiller, or with the symptom not noted, is passed over.
    """
    kind = SessionKind(word(criterion, "kind", SessionKind.REHAB))
    done, row = _clean_row(situation, kind, SymptomLimit.of(criterion))
    clean = _counting(row, SymptomLimit.of(criterion))
    return _counted(criterion, done, row, len(clean), whole(criterion, "sessions"))


def full_sessions(criterion: Criterion, situation: Situation) -> CriterionResult:
    """Judge how many clean full sessions in a row were done, by how long the athlete was out.

    The rows stand in the protocol; days out as in ``days_lost``: from the day after the onset
    to the day before the first of these sessions. Fewer injuries with each full session before
    the first match: Br J Sports Med 2020;54:427.
    """
    limit = SymptomLimit.of(criterion)
    done, row = _clean_row(situation, SessionKind.TEAM_FULL, limit)
    clean = _counting(row, limit)
    first = clean[-1].on if clean else situation.today
    out = max((first - situation.history.case.on).days - 1, 0)
    asked = _row_for(situation, out)
    needed = 1 if asked is None else asked.sessions
    result = _counted(criterion, done, row, len(clean), needed)
    lay_off = Evidence(measure=_("Days out before the first of them"), on=first, value=out)
    said = [result.remark, *([] if asked is None else _row_remarks(asked))]
    return replace(result, evidence=(*result.evidence, lay_off), remark=joined(said))


def _row_for(situation: Situation, days: int) -> FullSessions | None:
    protocol = situation.protocol
    rows = () if protocol is None else protocol.guidance.full_sessions
    return max((r for r in rows if r.from_day <= days), key=lambda r: r.from_day, default=None)


def _row_remarks(row: FullSessions) -> list[str]:
    """Return what a row asks for beside its number."""
    said = []
    if row.better is not None:
        words = _(
            "After so many days out {sessions} full sessions are asked for, {better} are"
            " better."
        )
        said.append(words.format(sessions=row.sessions, better=row.better))
    if row.limited_minutes:
        said.append(_("Limited minutes in the first match."))
    return said


def _clean_row(
    situation: Situation, kind: SessionKind, limit: SymptomLimit
) -> tuple[list[SessionEntry], list[SessionEntry]]:
    """Return the sessions at least as hard as ``kind``, and those since the last spoilt one."""
    least = _KINDS.index(kind)
    done = [s for s in situation.sessions() if _KINDS.index(s.kind) >= least]
    return done, list(takewhile(lambda s: not _spoilt(s, limit), done))


def _counting(row: Sequence[SessionEntry], limit: SymptomLimit) -> list[SessionEntry]:
    return [s for s in row if not s.painkiller and not limit.trouble(s.symptom)]


def _counted(
    criterion: Criterion,
    done: Sequence[SessionEntry],
    row: Sequence[SessionEntry],
    clean: int,
    needed: int,
) -> CriterionResult:
    short = Verdict.NOT_MET if done else Verdict.NEVER_TESTED
    seen = [
        Evidence(measure=_("Clean sessions in a row"), on=newest.on, value=clean)
        for newest in done[:1]
    ]
    return CriterionResult(
        criterion=criterion,
        verdict=Verdict.MET if clean >= needed else short,
        needed=needed,
        unit=_("sessions"),
        evidence=tuple(seen),
        remark=painkiller_remark() if any(s.painkiller for s in row) else "",
    )


def _spoilt(session: SessionEntry, limit: SymptomLimit) -> bool:
    """Return whether a session was not clean; what was not noted does not spoil it."""
    felt = session.symptom is not None and bool(limit.trouble(session.symptom))
    return bool(session.limp) or felt
