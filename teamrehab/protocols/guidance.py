"""What a protocol file says beside stages and ladders: red flags, symptom rules, return."""

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import get_args

from teamrehab.domain.guidance import (
    Exercise,
    FullSessions,
    Guidance,
    Informs,
    KindOfWork,
    ReturnItem,
    SymptomRule,
    WarningSign,
    Watch,
)
from teamrehab.domain.injuries import Urgency
from teamrehab.domain.measures import Test
from teamrehab.domain.protocol import Protocol
from teamrehab.language import _
from teamrehab.protocols.doses import read_dose
from teamrehab.protocols.tables import Table, check_doubles

MOST_SETS = 20
MOST_SESSIONS = 50
LONGEST = 1000
"""Days; nearly three years."""

_CAPITAL = re.compile(r"(?<!^)(?=[A-Z])")
TESTS = tuple(_CAPITAL.sub("_", kind.__name__).lower() for kind in get_args(Test))
"""The tests there are, as a file names them: heel_raise_test, hop_test and so on."""


def read_guidance(table: Table, stages: int, muscles: Sequence[str]) -> Guidance:
    """Return it for a protocol with so many stages about these muscles; faults are noted."""
    watch = table.part("watch")
    last = max(stages, 1)
    return Guidance(
        signs=tuple(_sign(each) for each in table.tables("red_flag")),
        symptom_rules=tuple(_rule(each, last) for each in table.tables("symptom_rule")),
        exercises=tuple(_exercise(each, last) for each in table.tables("exercise")),
        checklist=tuple(_return_item(each, muscles) for each in table.tables("return")),
        full_sessions=tuple(_full_sessions(each) for each in table.tables("full_sessions")),
        watch=None if watch is None else _watch(watch),
        informs=tuple(_informs(each) for each in table.tables("informs")),
    )


def check_guidance(table: Table, protocol: Protocol) -> None:
    """Note what only the whole shows: doubles, gaps, and rules that contradict each other."""
    guidance = protocol.guidance
    ladders = dict.fromkeys(ladder.key for ladder in protocol.ladders)
    exercises = dict.fromkeys(each.key for each in guidance.exercises)
    check_doubles(table, "red_flag, key", (sign.key for sign in guidance.signs))
    check_doubles(table, "exercise, key", (each.key for each in guidance.exercises))
    check_doubles(table, "ladder or exercise, key", (*ladders, *exercises))
    rules = (f"{rule.work}, stage {rule.stage}" for rule in guidance.symptom_rules)
    check_doubles(table, "symptom_rule", rules)
    check_doubles(table, "informs, test", (each.test for each in guidance.informs))
    _check_lay_offs(table, guidance.full_sessions)
    _check_phases(table, protocol)
    _check_symptoms(table, protocol)


def read_work(table: Table, *, required: bool) -> KindOfWork | None:
    """Return the kind of work a table names, None where it names none."""
    word = table.choice("work", tuple(KindOfWork), required=required)
    return KindOfWork(word) if word else None


def _sign(table: Table) -> WarningSign:
    urgency = table.choice("urgency", tuple(Urgency))
    sign = WarningSign(
        key=table.text("key"),
        sentence=table.text("sentence"),
        urgency=Urgency(urgency) if urgency else Urgency.EMERGENCY,
        source=table.text("source"),
    )
    table.close()
    return sign


def _rule(table: Table, stages: int) -> SymptomRule:
    rule = SymptomRule(
        work=read_work(table, required=True) or KindOfWork.SLOW,
        most=table.whole("most", 0, 10),
        source=table.text("source"),
        stage=table.whole_or_none("stage", 1, stages) or 1,
        settles=table.flag("settles"),
    )
    table.close()
    return rule


def _exercise(table: Table, stages: int) -> Exercise:
    stage = table.whole("stage", 1, stages)
    exercise = Exercise(
        key=table.text("key"),
        name=table.text("name"),
        sets=table.whole("sets", 1, MOST_SETS),
        dose=read_dose(table),
        stage=stage,
        source=table.text("source"),
        until=table.whole_or_none("until", stage, stages),
        work=read_work(table, required=False),
    )
    table.close()
    return exercise


def _return_item(table: Table, muscles: Sequence[str]) -> ReturnItem:
    given = "muscle" in table.values
    item = ReturnItem(
        sentence=table.text("sentence"),
        source=table.text("source"),
        muscle=table.choice("muscle", muscles) if given else "",
    )
    table.close()
    return item


def _full_sessions(table: Table) -> FullSessions:
    sessions = table.whole("sessions", 1, MOST_SESSIONS)
    row = FullSessions(
        from_day=table.whole("from_day", 0, LONGEST),
        sessions=sessions,
        source=table.text("source"),
        better=table.whole_or_none("better", sessions, MOST_SESSIONS),
        limited_minutes=table.flag("limited_minutes"),
    )
    table.close()
    return row


def _watch(table: Table) -> Watch:
    watch = Watch(days=table.whole("days", 1, LONGEST), source=table.text("source"))
    table.close()
    return watch


def _informs(table: Table) -> Informs:
    row = Informs(
        test=table.choice("test", TESTS),
        phases=table.wholes("phases", 1, 5),
        source=table.text("source"),
    )
    table.close()
    return row


def _check_lay_offs(table: Table, rows: Sequence[FullSessions]) -> None:
    """Note rows that leave the first days out or do not go up from row to row."""
    if rows and rows[0].from_day != 0:
        table.refuse("full_sessions 1, from_day", rows[0].from_day, _("0 in the first row"))
    for number, (before, after) in enumerate(pairwise(rows), start=2):
        if after.from_day <= before.from_day:
            allowed = _("more than {days}, as in the row before").format(days=before.from_day)
            table.refuse(f"full_sessions {number}, from_day", after.from_day, allowed)


def _check_phases(table: Table, protocol: Protocol) -> None:
    """Note a test that informs a phase no stage has."""
    known = sorted(set(protocol.phases))
    for number, row in enumerate(protocol.guidance.informs, start=1):
        for phase in row.phases:
            if phase not in known:
                allowed = _("phases of the stages: {phases}")
                words = allowed.format(phases=", ".join(map(str, known)))
                table.refuse(f"informs {number}, phases", phase, words)


def _check_symptoms(table: Table, protocol: Protocol) -> None:
    """Note a ladder that allows more symptom than the rules for its kind of work."""
    for number, ladder in enumerate(protocol.ladders, start=1):
        rules = [r for r in protocol.guidance.symptom_rules if r.work is ladder.work]
        most = max((rule.most for rule in rules), default=10)
        if ladder.symptom > most:
            allowed = _("{most} at most, as the symptom rule for {work} says")
            words = allowed.format(most=most, work=ladder.work)
            table.refuse(f"ladder {number}, symptom", ladder.symptom, words)
