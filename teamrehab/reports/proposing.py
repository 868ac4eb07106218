"""What is proposed for each case at the end of an evening; a person decides."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import Any

from teamrehab.domain.availability import (
    Availability,
    AvailabilityStated,
    Match,
    Training,
)
from teamrehab.domain.combining import availability_on
from teamrehab.domain.deciding import decide, stops_since
from teamrehab.domain.decision import Decision, Proposal
from teamrehab.domain.history import History, Squad
from teamrehab.domain.injuries import LevelMoved, RedFlag, StageMoved, Urgency
from teamrehab.domain.levels import LevelProposal, level_proposals
from teamrehab.domain.measures import SessionEntry, Test
from teamrehab.domain.protocol import InjuryKind, Protocol, followed
from teamrehab.reports import wording_closing as words
from teamrehab.reports.closing import EveningCount, Proposed, ProposedKind
from teamrehab.reports.coach_preview import Preview
from teamrehab.reports.evening import EveningLine
from teamrehab.reports.findings import CoachSheet, SquadRow
from teamrehab.reports.wording_clinical import criterion_sentence, proposal_sentence
from teamrehab.reports.wording_sheet import unchanged_words


def proposals(
    squad: Squad,
    protocols: Mapping[str, Protocol],
    catalogue: Mapping[str, InjuryKind],
    rows: Sequence[SquadRow],
    on: date,
) -> tuple[Proposed, ...]:
    """Return what is proposed for every case that is stopped or was seen on ``on``.

    A stop comes alone, but for levels to go down; what stops the squad's day stops an evening
    that is closed late, too. Stage, levels and sign-off are proposed for who was seen in a
    session or a test that day. Red flags stand first, emergencies above all, then other stops,
    then what would change something.
    """
    shown = {row.athlete_id for row in rows}
    preview = Preview(
        squad=squad,
        rows=rows,
        catalogue=catalogue,
        day=max(on + timedelta(days=1), squad.day),
    )
    cases = [h for h in squad.open_cases if h.athlete.athlete_id in shown]
    closings = [
        _Closing(h, followed(h, protocols).protocol, on, preview, preview.words(h))
        for h in cases
    ]
    closings.sort(key=lambda closing: not closing.emergency)
    found = [proposed for closing in closings for proposed in closing.proposed()]
    return tuple(sorted(found, key=_place))


def _place(proposed: Proposed) -> tuple[bool, bool, bool]:
    return not proposed.flagged, not proposed.stopped, not proposed.moves


def evening_count(lines: Sequence[EveningLine], sheet: CoachSheet) -> EveningCount:
    """Return how an evening stands; ``sheet`` is what the coach would be handed now."""
    done = [any(isinstance(f.value, SessionEntry) for f in line.noted) for line in lines]
    named = [f"{line.first_name} {line.surname}".strip() for line in lines if not line.noted]
    return EveningCount(
        entered=sum(done),
        missed=len(lines) - sum(done) - len(named),
        open=tuple(dict.fromkeys(named)),
        changes=sheet.changed or (_unchanged(sheet),),
    )


def _unchanged(sheet: CoachSheet) -> str:
    if sheet.compared_with is None:
        return words.no_sheet_yet()
    return unchanged_words(sheet)


def _one_way(decision: Decision, levels: Sequence[LevelProposal]) -> Decision:
    """Return a decision that opens no stage on an evening a level is to go back."""
    back = next((level for level in levels if level.proposed < level.level), None)
    if back is None or decision.proposal is not Proposal.MOVE_UP:
        return decision
    held = (words.level_goes_back(back), *decision.held)
    return replace(decision, proposal=Proposal.STAY, proposed_stage=decision.stage, held=held)


_SEEN = Test | SessionEntry


@dataclass(frozen=True, slots=True)
class _Closing:
    """One case at the end of an evening; ``before`` is what the coach reads of it now."""

    history: History
    protocol: Protocol | None
    on: date
    preview: Preview
    before: str

    def proposed(self) -> Iterator[Proposed]:
        """Yield the stop, or else availability, stage and sign-off; then the levels."""
        settings = self.preview.squad.settings
        now = self.preview.squad.day
        stops = stops_since(self.history, self.protocol, self.on, now, settings)
        if stops:
            alone = replace(self.history, beside=())
            own = stops_since(alone, self.protocol, self.on, now, settings)
            yield self._stop(" ".join(stops), own=bool(own))
        if self.protocol is not None and self._noted(_SEEN):
            decision = decide(self.history, self.protocol, self.on, settings)
            levels = level_proposals(self.history, self.protocol, self.on, settings)
            if not stops:
                yield from self._course(_one_way(decision, levels))
            for level in levels:
                if not stops or level.proposed < level.level:
                    yield self._level(level)

    @property
    def flags(self) -> tuple[RedFlag, ...]:
        """Return the red flags of the athlete that are open, those of other cases too."""
        cases = (self.history, *self.history.beside)
        days = dict.fromkeys((self.on, self.preview.squad.day))
        found = (f for one in cases for day in days for f in one.red_flags_open_on(day))
        return tuple(dict.fromkeys(found))

    @property
    def emergency(self) -> bool:
        """Return whether one of them is an emergency."""
        return any(flag.urgency is Urgency.EMERGENCY for flag in self.flags)

    def _noted(self, kinds: Any) -> bool:
        """Return whether something of these kinds was noted of that day."""
        values = (fact.value for fact in self.history.facts)
        return any(isinstance(value, kinds) and value.on == self.on for value in values)

    def _line(self, kind: ProposedKind, said: str, reason: str, **more: Any) -> Proposed:
        """Return a proposal with the coach's line before and, by its value, after.

        A level is nothing that the coach reads.
        """
        athlete, value = self.history.athlete, more.get("value")
        told = isinstance(value, AvailabilityStated | StageMoved)
        after = self.preview.words(self.history, value) if told else self.before
        known: dict[str, Any] = {
            "athlete_id": athlete.athlete_id,
            "case_id": self.history.case.case_id,
            "name": athlete.name,
            "coach_before": self.before,
            "coach_after": after,
            "evening": self.on,
        }
        return Proposed(kind=kind, words=said, reason=reason, **(known | more))

    # --- stop and review

    def _stop(self, reason: str, *, own: bool) -> Proposed:
        """Return no training from the next day on; what a person must add, a form asks.

        Not ``own``: another case of the athlete stops this one, and keeps the athlete out.
        """
        there, flagged = self._stated(), bool(self.flags)
        update = there.next_update
        coming = update is not None and update.date() >= self.preview.day
        no_match = there.match is Match.NOT_AVAILABLE
        kind, how = ProposedKind.AVAILABILITY, {"stopped": True, "flagged": flagged}
        if not own:
            return self._line(kind, words.stopped_beside(), reason, moves=False, **how)
        runs_out = self._runs_out()
        out = there.training is Training.NONE and (no_match or not flagged)
        if out and not runs_out:
            said = words.stop_stands(there.next_update) if coming else words.say_when()
            return self._line(kind, said, reason, moves=not coming, **how)
        if not (no_match or flagged or out):
            after = words.after_stop()
            return self._line(kind, words.stop(), reason, moves=True, coach_after=after, **how)
        value = AvailabilityStated(
            case_id=self.history.case.case_id,
            athlete_id=self.history.athlete.athlete_id,
            on=self._begins(),
            training=Training.NONE,
            match=there.match if out else Match.NOT_AVAILABLE,
            next_update=update if coming else None,
        )
        said = words.stop_holds() if runs_out else words.stop()
        return self._line(kind, said, reason, moves=True, value=value, **how)

    def _begins(self) -> date:
        """Return from when on: today, where nobody has trained yet, else the next day."""
        trained = self._noted(_SEEN) or self.on < self.preview.squad.day
        return self.preview.day if trained else self.on

    def _runs_out(self) -> bool:
        """Return whether more than nothing was stated in advance for a later day."""
        return any(
            said.on > self.preview.day
            and (said.training is not Training.NONE or said.match is Match.AVAILABLE)
            for said in self.history.of(AvailabilityStated)
        )

    def _stated(self) -> Availability:
        """Return what was stated for the next day: it counts again once a flag is closed."""
        facts = (f for f in self.history.facts if not isinstance(f.value, RedFlag))
        return availability_on(self.preview.day, (replace(self.history, facts=tuple(facts)),))

    # --- the course of the case

    def _course(self, decision: Decision) -> Iterator[Proposed]:
        """Yield what the criteria say, and the limits that opening the last stage asks for."""
        opened = [m for m in self.history.of(StageMoved) if m.on == self.on]
        if opened:
            said, why = words.opened_today(decision.stage_name), words.one_stage_a_day()
            yield self._line(ProposedKind.STAGE, said, why, moves=False)
        else:
            yield self._by_criteria(decision)
        last = decision.stage == decision.stages
        if last and self._stated().training is Training.NONE:
            said = words.choose_limits(decision.stage_name)
            yield self._line(
                ProposedKind.AVAILABILITY,
                said,
                words.no_training_stated(decision.stage_name),
                moves=True,
                coach_after=words.after_limits(),
            )

    def _by_criteria(self, decision: Decision) -> Proposed:
        said, judged = proposal_sentence(decision), decision.missing or decision.criteria
        told = (criterion_sentence(result) for result in judged)
        reason = " ".join((*decision.held, "; ".join(told)))
        more: dict[str, Any] = {"moves": decision.proposal is not Proposal.STAY}
        if decision.proposal is Proposal.READY_FOR_SIGN_OFF:
            more |= {"coach_after": words.after_sign_off()}
            return self._line(ProposedKind.SIGN_OFF, said, reason, **more)
        if decision.proposal is Proposal.MOVE_UP:
            value = self._moved(decision.proposed_stage)
            more |= {"value": value, "provisional": True, "cautions": decision.cautions}
        return self._line(ProposedKind.STAGE, said, reason, **more)

    def _moved(self, stage: int) -> StageMoved:
        case = self.history.case
        return StageMoved(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=self.on,
            stage=stage,
            proposed=stage,
        )

    def _level(self, found: LevelProposal) -> Proposed:
        if found.proposed == found.level:
            said = words.stay_at_level(found)
            return self._line(ProposedKind.LEVEL, said, found.reason, moves=False)
        case = self.history.case
        value = LevelMoved(
            case_id=case.case_id,
            athlete_id=case.athlete_id,
            on=self.on,
            ladder=found.ladder.key,
            level=found.proposed,
            proposed=found.proposed,
        )
        return self._line(
            ProposedKind.LEVEL,
            words.to_level(found),
            found.reason,
            moves=True,
            value=value,
            provisional=found.proposed > found.level,
        )
