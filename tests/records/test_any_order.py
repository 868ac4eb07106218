"""Any order of noting, correcting, moving, undoing and crashing: what stands is as modelled.

The model is a page of plain lists: what stands about each thing, and what each save replaced.
"""

from contextlib import suppress
from dataclasses import dataclass, field, replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from typing_extensions import override

from teamrehab.domain.availability import AvailabilityStated, Match, Training
from teamrehab.domain.injuries import Remark
from teamrehab.domain.measures import SessionEntry, SessionKind
from teamrehab.records import NotUndoneError, ReplacedMeanwhileError
from teamrehab.records.marks import EnteredInError
from tests.builders import athlete, case, day
from tests.records.books import OtherLaptop, new_book
from tests.records.test_drafts import crashed

KINDS = (Remark, AvailabilityStated, SessionEntry)
WHO = st.sampled_from([("c1", "a1"), ("c2", "a2")])
NUMBER = st.integers(0, 1)
PLACE = st.sampled_from(["evening/c1", "evening/c2", "team session"])
ANY = st.integers(0, 99)


def some(kind):
    """Return a condition: a value of this kind stands."""
    return precondition(lambda self: self.pick(kind, 0) is not None)


def remark(who, number, words):
    case_id, athlete_id = who
    about = {"case_id": case_id, "athlete_id": athlete_id, "on": day(1)}
    return Remark(remark_id=f"{case_id}-{number}", text=f"{words}", **about)


def session(who, number, effort):
    case_id, athlete_id = who
    about = {"case_id": case_id, "athlete_id": athlete_id, "on": day(2)}
    return SessionEntry(session_id=f"{number}", kind=SessionKind.REHAB, effort=effort, **about)


def stated(who, number, words):
    case_id, athlete_id = who
    return AvailabilityStated(
        case_id=case_id,
        athlete_id=athlete_id,
        on=day(number),
        training=list(Training)[words % 3],
        match=Match.NOT_AVAILABLE,
    )


def about(value: Any) -> tuple:
    """Return what a value is about: the note, the session, the case and its day."""
    match value:
        case Remark():
            return ("note", value.remark_id)
        case SessionEntry():
            return ("session", value.session_id)
        case _:
            return ("availability", value.case_id, value.on)


@dataclass(eq=False)
class Head:
    """One thing that stands; ``value`` None: it says that its place was entered in error.

    ``seen`` are the values its author saw beside it then.
    """

    place: tuple
    value: Any
    replaced: "list[Head]"
    seen: "list[Head]" = field(default_factory=list)
    stands_for: "list[Head]" = field(default_factory=list)
    fact_id: str = ""


class AnyOrder(RuleBasedStateMachine):
    """The casebook on one side, the plain lists on the other."""

    def __init__(self):
        super().__init__()
        self.folder = TemporaryDirectory()
        self.book = new_book(Path(self.folder.name) / "book")
        self.book.note(athlete(), case(), case(case_id="c2", athlete_id="a2"))
        self.colleague = OtherLaptop(self.book)
        self.heads: list[Head] = []
        self.saves: list[list[Head]] = []
        self.sitting: list[list[Head]] = []
        self.cancelled: set[str] = set()
        self.drafts: dict[str, str] = {}
        self.changed = 0

    # --- the model

    def put(self, receipt, *made, back=False):
        """Let these heads stand in place of what they replaced."""
        gone = [old for head in made for old in head.replaced]
        self.heads = [head for head in self.heads if head not in gone] + list(made)
        left = list(made)
        for fact_id, said in zip(
            receipt.fact_ids, self.book.values_of(*receipt.fact_ids), strict=True
        ):
            head = next(head for head in left if _says(head, said))
            head.fact_id = fact_id
            left.remove(head)
        self.saves.append(list(made))
        self.changed += 1
        self.sitting += [] if back else [list(made)]

    def at(self, place):
        return [head for head in self.heads if head.place == place]

    def pick(self, kind, which):
        found = [head for head in self.heads if isinstance(head.value, kind)]
        return found[which % len(found)] if found else None

    # --- what people do

    @rule(who=WHO, number=NUMBER, words=NUMBER, of=st.sampled_from([remark, session, stated]))
    def note(self, who, number, words, of):
        self._note(of(who, number, words))

    @rule(who=WHO, number=NUMBER, place=PLACE)
    def note_what_was_typed(self, who, number, place):
        self._note(remark(who, number, number), drops_draft=place)
        self.drafts.pop(place, None)

    def _note(self, value, **options):
        receipt = self.book.note(value, **options)
        self.put(receipt, Head(about(value), value, self.at(about(value))))

    @rule(who=WHO, numbers=st.just([0, 1]))
    def note_a_row(self, who, numbers):
        values = [remark(who, number, 7) for number in numbers] + [session(who, 0, 7)]
        receipt = self.book.note(*values)
        self.put(receipt, *(Head(about(v), v, self.at(about(v))) for v in values))

    @some(AvailabilityStated)
    @rule(which=ANY, number=NUMBER)
    def correct_the_day(self, which, number):
        old = self.pick(AvailabilityStated, which)
        self._correct(old, replace(old.value, on=day(number)))

    @some(SessionEntry)
    @rule(which=ANY, who=WHO)
    def move(self, which, who):
        old = self.pick(SessionEntry, which)
        self._correct(old, replace(old.value, case_id=who[0], athlete_id=who[1]))

    def _correct(self, old, value):
        receipt = self.book.note(value, replaces=[old.fact_id], why="seen to be wrong")
        self.put(receipt, Head(about(value), value, [old]))

    @some(KINDS)
    @rule(which=ANY)
    def withdraw(self, which):
        old = self.pick(KINDS, which)
        receipt = self.book.withdraw(old.fact_id, why="entered in error")
        beside = [head for head in self.at(old.place) if head is not old]
        self.put(receipt, Head(old.place, None, [old], beside))

    @some(Remark)
    @rule(number=NUMBER, words=NUMBER)
    def take_in_what_a_colleague_wrote(self, number, words):
        value = remark(("c1", "a1"), number, words)
        fact = self.colleague.writes(value)
        self.book.take_in([fact])
        self.heads.append(Head(about(value), value, [], fact_id=fact.header.id))

    @precondition(lambda self: self.saves)
    @rule(back=st.integers(0, 2))
    def undo(self, back):
        save = self.saves[-min(back + 1, len(self.saves))]
        ids = [head.fact_id for head in save]
        if not all(head in self.heads for head in save):
            with pytest.raises(ReplacedMeanwhileError):
                self.book.undo(*ids, why="too late")
        elif any(_settled(head) for head in save):
            with pytest.raises(NotUndoneError):
                self.book.undo(*ids, why="hasty")
        else:
            self.put(
                self.book.undo(*ids, why="taken back"), *self._again(save, save), back=True
            )

    @precondition(lambda self: self.sitting)
    @rule()
    def press_undo(self):
        """Take the newest save of the sitting back as the window does, time and again."""
        save = self.sitting.pop()
        ids, now = [head.fact_id for head in save], [self._now(head) for head in save]
        if None in now:
            with pytest.raises(ReplacedMeanwhileError):
                self.book.undo(*ids, why="", cancelled=self.cancelled)
        elif any(_settled(head) for head in save):
            with pytest.raises(NotUndoneError):
                self.book.undo(*ids, why="", cancelled=self.cancelled)
        else:
            receipt = self.book.undo(*ids, why="", cancelled=self.cancelled)
            self.cancelled |= {*ids, *receipt.fact_ids}
            self.put(receipt, *self._again(save, now, pressed=True), back=True)

    def _now(self, head):
        """Return what stands of a head or, after a step back, for it; None if nothing does."""
        return next((h for h in self.heads if head in _meant(h)), None)

    def _again(self, save, now, *, pressed=False):
        """Return what stands after an undo: values restored first, then marks."""
        restored, marked = [], []
        for said, head in zip(save, now, strict=True):
            values = [old for old in said.replaced if old.value is not None]
            for old in values:
                meant = [old] if pressed else []
                restored.append(Head(old.place, old.value, [head], stands_for=meant))
            marked += [] if values else [(said, head)]
        left = [head for head in self.heads if head not in now] + restored
        for said, head in marked:
            beside = [h for h in left if h.place == head.place]
            meant = said.replaced if pressed else []
            restored.append(Head(head.place, None, [head], beside, meant))
        return restored

    @rule(place=PLACE, words=st.text(st.characters(codec="ascii", exclude_characters="\0")))
    def type(self, place, words):
        self.book.keep_draft(place, words)
        self.drafts[place] = words

    @precondition(lambda self: self.drafts)
    @rule(place=PLACE)
    def empty(self, place):
        self.book.drop_draft(place)
        self.drafts.pop(place, None)

    @precondition(lambda self: self.changed > 5)
    @rule()
    def crash(self):
        self.changed = 0
        self.book = crashed(self.book)

    # --- what must hold

    @invariant()
    def what_stands_is_what_was_acknowledged(self):
        found = [fact for kind in KINDS for fact in self.book.all_of(kind)]
        ours = [head for head in self.heads if head.value is not None]
        assert {fact.fact_id: fact.value for fact in found} == {
            head.fact_id: head.value for head in ours
        }
        for fact in found:
            here = self.at(about(fact.value))
            values = [head for head in here if head.value is not None]
            unseeing = [head for head in here if head.value is None and _blind(head, values)]
            assert fact.versions == len(values) + len(unseeing)

    @invariant()
    def what_is_typed_is_kept(self):
        assert self.book.drafts() == self.drafts

    @override
    def teardown(self):
        assert self.book.check().troubles == ()
        self.book.close()
        with suppress(OSError):
            self.folder.cleanup()


def _says(head, said):
    """Return whether a fact that says this is the one a head means."""
    if isinstance(said, EnteredInError):
        return head.value is None and said.fact_id == head.replaced[0].fact_id
    return head.value == said


def _settled(head):
    """Return whether a fact replaced two versions: two values, or one and a blind mark."""
    values = [old for old in head.replaced if old.value is not None]
    marks = [old for old in head.replaced if old.value is None]
    return len(values) > 1 or any(_blind(mark, values) for mark in marks)


def _meant(head):
    """Return a head and all that it stands for after steps back."""
    return [head] + [one for old in head.stands_for for one in _meant(old)]


def _blind(mark, values):
    return any(value not in mark.seen for value in values)


TestAnyOrder = AnyOrder.TestCase
TestAnyOrder.settings = settings(max_examples=50, stateful_step_count=30, deadline=None)
