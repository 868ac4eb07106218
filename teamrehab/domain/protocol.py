"""A rehab protocol as values: stages, criteria, cautions. It knows no part of the body."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from teamrehab.domain.guidance import Guidance, KindOfWork
from teamrehab.domain.history import History

Parameter = int | str | bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """A level (from 1) of a ladder by its key that is to be passed first."""

    ladder: str
    level: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion:
    """One thing that must hold: a named check with its parameters (see ``checks``).

    ``sentence`` is what a person reads; ``source`` is a citation or "common practice".
    ``range`` words the range that is common, where there is one. ``after`` are levels of
    ladders that are passed before it is asked for, and before any result of it counts.
    """

    key: str
    check: str
    sentence: str
    source: str
    parameters: Mapping[str, Parameter] = field(default_factory=dict)
    range: str = ""
    after: tuple[Passed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """One level of a ladder: ``name`` says what is done, ``dose`` how much of it in a set.

    ``stage`` (from 1) opens the level, None where the ladder's own stage does. ``after`` are
    levels of other ladders that whoever opens this one should have seen passed.
    """

    name: str
    sets: int
    dose: str
    stage: int | None = None
    after: tuple[Passed, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """Ordered levels of one exercise, worked at from ``stage`` (from 1) to ``until``.

    ``until`` None: to the end. ``symptom`` is the most that is allowed in it. A level is passed
    when every set of its dose is done without a fault and within that symptom. ``work`` None:
    the file does not say what kind it is.
    """

    key: str
    name: str
    stage: int
    levels: tuple[Level, ...]
    symptom: int
    source: str
    until: int | None = None
    work: KindOfWork | None = None

    def open_at(self, stage: int) -> bool:
        """Return whether it is worked at while ``stage`` is the furthest thing opened."""
        return self.stage <= stage and (self.until is None or stage <= self.until)

    def opened_by(self, stage: int) -> int:
        """Return the highest level that ``stage`` has opened, 1 at least."""
        later = (n for n, level in enumerate(self.levels) if (level.stage or 0) > stage)
        return max(next(later, len(self.levels)), 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class FormFault:
    """A fault that makes a repetition not count."""

    key: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class IntakePattern:
    """A finding of the examination that points to a muscle of the catalogue, and how much.

    ``finding`` names a field of ``Examination``, ``value`` one of its answers.
    """

    finding: str
    value: str
    muscle: str
    weight: int
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A stage: the furthest thing opened. ``phase`` (1-5) is what the estimate knows it as.

    ``minutes`` is how long a session of it is planned to take, None where nobody says.
    ``symptom`` is the most that is allowed in any ladder meanwhile, None: the ladder's own.
    ``source`` says where these numbers and those of ``caution`` come from. With a confirmed
    diagnosis the stage is early before ``warn_before_day`` days from the onset: that warns.
    """

    name: str
    phase: int
    entry: tuple[Criterion, ...] = ()
    exit: tuple[Criterion, ...] = ()
    caution: str = ""
    minutes: int | None = None
    symptom: int | None = None
    source: str = ""
    warn_before_day: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Protocol:
    """A protocol in one version. ``injuries`` are keys of the injury catalogue.

    ``earlier`` are its versions from before that are at hand too, the newest first: cases that
    began with one of them keep it. They are no part of what this version says.
    """

    key: str
    name: str
    version: str
    injuries: tuple[str, ...]
    stages: tuple[Stage, ...]
    sign_off: tuple[Criterion, ...]
    reviewed_by: str = ""
    reviewed_on: date | None = None
    cautions: tuple[str, ...] = ()
    cautions_under_18: tuple[str, ...] = ()
    may_sign: tuple[str, ...] = ()
    starter: bool = False
    ladders: tuple[Ladder, ...] = ()
    faults: tuple[FormFault, ...] = ()
    intake: tuple[IntakePattern, ...] = ()
    guidance: Guidance = field(default_factory=Guidance)
    earlier: "tuple[Protocol, ...]" = field(default=(), compare=False, repr=False)

    @property
    def phases(self) -> tuple[int, ...]:
        """Return the phase of each stage, for the estimate."""
        return tuple(stage.phase for stage in self.stages)

    def gate(self, stage: int) -> tuple[Criterion, ...]:
        """Return what must hold to leave ``stage`` (from 1): for the next, or for sign-off."""
        leaving = self.stages[stage - 1].exit
        if stage == len(self.stages):
            return leaving + self.sign_off
        return leaving + self.stages[stage].entry


@dataclass(frozen=True, slots=True)
class Followed:
    """The protocol a case follows: None without one, or where this program lacks it.

    ``changed`` says that the version the case was started with is not at hand, and that this
    is the nearest one: to be read, not to decide by without a word.
    """

    protocol: Protocol | None = None
    changed: bool = False


def followed(history: History, protocols: Mapping[str, Protocol]) -> Followed:
    """Return the protocol a case follows, in the version it chose.

    ``protocols`` are the newest at hand by key, each with its earlier versions. Where the
    chosen version is lacking, the nearest is the newest from before it, else the oldest.
    """
    chosen = history.protocol
    newest = None if chosen is None else protocols.get(chosen.protocol)
    if chosen is None or newest is None:
        return Followed()
    versions = (newest, *newest.earlier)
    for protocol in versions:
        if protocol.version == chosen.version:
            return Followed(protocol)
    wanted = version_order(chosen.version)
    before = (one for one in versions if version_order(one.version) < wanted)
    return Followed(next(before, versions[-1]), changed=True)


def version_order(version: str) -> tuple[tuple[int, str], ...]:
    """Return what versions are sorted by: the numbers in them count as numbers, 9 before 10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", version)
    return tuple((int(part), "") if part.isdecimal() else (-1, part) for part in parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Muscle:
    """A muscle an injury may concern."""

    key: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class InjuryKind:
    """A row of the injury catalogue: what forms offer and priors and protocols refer to.

    ``area`` is "" for a kind that can be in any part of the body.
    """

    key: str
    name: str
    area: str
    muscles: tuple[Muscle, ...] = ()
    graded: bool = False
