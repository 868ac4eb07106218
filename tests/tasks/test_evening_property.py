"""Whatever is typed, corrected, moved, undone and cut off: what was acknowledged stands."""

import shutil
import tempfile
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from typing_extensions import override

from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import Symptom
from teamrehab.records import ReplacedMeanwhileError, open_casebook
from teamrehab.tasks import evening
from teamrehab.tasks.refusals import ImplausibleError, RefusedError
from tests.records import books
from tests.tasks.evening_book import (
    PEOPLE,
    TONIGHT,
    answers,
    evening_book,
    ids,
    missed,
    session,
)

persons = st.sampled_from(sorted(PEOPLE))
picks = st.integers(0, 50)
efforts = st.integers(0, 10)


@dataclass
class Saved:
    """An acknowledged save: its facts, and each thing it changed, before and after."""

    fact_ids: tuple[str, ...]
    changed: dict[str, tuple[Any, Any]]


class Evening(RuleBasedStateMachine):
    """``stands`` is all that was acknowledged, by the id of the thing; ``newest`` its save."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.book = evening_book(self.folder / "club")
        self.start = {c: {f.fact_id for f in self.book.case(c).facts} for c in PEOPLE}
        self.stands: dict[str, Any] = {}
        self.newest: dict[str, Saved] = {}
        self.saves: list[Saved] = []
        self.made = 0

    @override
    def teardown(self) -> None:
        self.book.close()
        shutil.rmtree(self.folder)

    # --- what people do

    @rule(who=persons, effort=efforts, seen=st.booleans(), more=st.booleans())
    def types_a_row(self, who, effort, seen, more):
        self.made += 1
        row = session if seen else missed
        values: list[Any] = [row(who, self.made, **({"effort": effort} if seen else {}))]
        if more:
            note = f"n{self.made}"
            values.append(Remark(remark_id=note, **ids(who), on=TONIGHT, text=note))
        self.save(who, values)

    @rule(who=persons, sharp=st.booleans())
    def types_a_high_symptom(self, who, sharp):
        self.made += 1
        bad = session(who, self.made, symptom=Symptom(5))
        asked = [v for k, v in self.there(who).items() if k.startswith("q")]
        if sharp and not asked:
            with pytest.raises(RefusedError):
                evening.save_row(self.book, self.book.case(who), [bad])
        else:
            self.save(who, [bad, answers(who, check_id=f"q{self.made}")])

    @precondition(lambda self: self.sessions())
    @rule(pick=picks, effort=efforts)
    def corrects_a_row(self, pick, effort):
        key, value = self.pick(pick)
        fact = self.fact_of(key, value.case_id)
        nth = int(key.split("-")[1])
        felt = getattr(value, "symptom", None) or Symptom(1)  # a high one was answered already
        better = session(value.case_id, nth, effort=effort, session_id=key, symptom=felt)
        self.acknowledge(
            evening.save_row(
                self.book, self.book.case(value.case_id), [better], replaces=[fact.fact_id]
            ),
            {key: better},
        )

    @precondition(lambda self: self.sessions())
    @rule(pick=picks, to=persons)
    def moves_a_row(self, pick, to):
        key, value = self.pick(pick)
        if to == value.case_id:
            return
        together = [
            k
            for k in self.newest[key].changed
            if self.stands.get(k) is not None and self.stands[k].case_id == value.case_id
        ]
        facts = [self.fact_of(k, value.case_id).fact_id for k in together]
        moved = {k: replace(self.stands[k], **ids(to)) for k in together}
        if self.of_tonight(to):
            with pytest.raises(evening.SavedTwiceError):
                evening.move_row(self.book, facts, self.book.case(to))
            return
        told = self.answers_for(moved, to)
        if told:
            with pytest.raises(RefusedError, match="four questions"):
                evening.move_row(self.book, facts, self.book.case(to))
        receipt = evening.move_row(
            self.book, facts, self.book.case(to), answered=list(told.values())
        )
        self.acknowledge(receipt, moved | told)

    @precondition(lambda self: self.saves)
    @rule(pick=picks)
    def undoes_a_save(self, pick):
        saved = self.saves[pick % len(self.saves)]
        if all(self.newest[key] is saved for key in saved.changed):
            receipt = self.book.undo(*saved.fact_ids, why="a slip")
            self.acknowledge(receipt, {k: before for k, (before, _a) in saved.changed.items()})
        else:
            with pytest.raises(ReplacedMeanwhileError):
                self.book.undo(*saved.fact_ids, why="a slip")

    @rule(who=persons, effort=efforts)
    def types_and_does_not_save(self, who, effort):
        self.book.keep_draft(f"evening:{who}", f"Y 1 {effort}")

    @rule(who=persons)
    def types_nonsense(self, who):
        with pytest.raises(ImplausibleError):
            evening.save_row(self.book, self.book.case(who), [session(who, 0, effort=11)])

    @rule()
    def crashes(self):
        self.book._store.drop_connections()
        self.book._lock.release()
        self.open_again()

    @rule()
    def closes(self):
        self.book.close()
        self.open_again()

    # --- what must hold

    @invariant()
    def exactly_the_acknowledged_facts_stand(self):
        for case_id, at_start in self.start.items():
            facts = self.book.case(case_id).facts
            assert at_start <= {fact.fact_id for fact in facts}
            found = [fact for fact in facts if fact.fact_id not in at_start]
            expected = [v for v in self.stands.values() if v is not None]
            assert sorted(repr(fact.value) for fact in found) == sorted(
                repr(value) for value in expected if value.case_id == case_id
            )
            assert all(fact.versions == 1 for fact in found)

    # --- the model

    def save(self, who, values):
        history = self.book.case(who)
        twice = bool(self.of_tonight(who))
        if twice:
            with pytest.raises(evening.SavedTwiceError):
                evening.save_row(self.book, history, values)
        receipt = evening.save_row(self.book, history, values, again=twice)
        self.acknowledge(receipt, {key_of(value): value for value in values})

    def acknowledge(self, receipt, after):
        changed = {key: (self.stands.get(key), value) for key, value in after.items()}
        saved = Saved(receipt.fact_ids, changed)
        self.stands |= after
        self.newest |= dict.fromkeys(after, saved)
        self.saves.append(saved)

    def there(self, case_id):
        """Return what stands of one case."""
        return {k: v for k, v in self.stands.items() if v and v.case_id == case_id}

    def sessions(self):
        return {k: v for k, v in self.stands.items() if v and k.startswith("s")}

    def of_tonight(self, case_id):
        return [k for k in self.there(case_id) if k.startswith("s")]

    def pick(self, number):
        found = sorted(self.sessions().items())
        return found[number % len(found)]

    def answers_for(self, moved, to):
        """Return the answers to give about the other athlete, {} where none are missing."""
        felt = [getattr(value, "symptom", None) for value in moved.values()]
        if Symptom(5) not in felt or any(key.startswith("q") for key in moved):
            return {}
        self.made += 1
        key = f"q{self.made}"
        return {key: answers(to, check_id=key)}

    def fact_of(self, key, case_id):
        facts = self.book.case(case_id).facts
        return next(f for f in facts if key_of(f.value) == key)

    def open_again(self):
        self.book = open_casebook(
            self.book.folder, passphrase=books.SECRET, clock=self.book.clock
        )


def key_of(value: Any) -> str:
    """Return the id of what a value is about, "" for what no evening notes."""
    names = ("session_id", "check_id", "remark_id")
    return next((getattr(value, name) for name in names if hasattr(value, name)), "")


TestEvening = Evening.TestCase
TestEvening.settings = settings(
    max_examples=25,
    stateful_step_count=25,
    deadline=None,
    phases=(Phase.generate,),  # every example is a casebook: shrinking one would take minutes
)
