"""What the closing list says of a proposal, and what it asks before one is noted."""

from collections.abc import Sequence
from dataclasses import dataclass

from teamrehab.domain.history import History
from teamrehab.domain.injuries import StageMoved
from teamrehab.language import _
from teamrehab.reports.closing import EveningCount, Proposed
from teamrehab.reports.wording_closing import misled_words
from teamrehab.tasks.board import protocol_of


@dataclass(frozen=True, slots=True)
class Question:
    """What is asked, with the athlete's name large; what Y does; what else there is to know."""

    words: str
    yes: str
    how: str


def sentences(proposed: Proposed) -> tuple[str, ...]:
    """Return what a line says below each other: the proposal first, cautions last."""
    if not proposed.moves:
        said = _("{proposal}: {reason}")
        return (said.format(proposal=proposed.words, reason=proposed.reason),)
    return (proposed.words, proposed.reason, coach_words(proposed), *proposed.cautions)


def coach_words(proposed: Proposed) -> str:
    """Return what the coach's sheet would say anew and says now, and for how long it holds."""
    if proposed.coach_before == proposed.coach_after:
        said = _("Coach's sheet: nothing changes.")
    else:
        said = _("Coach's sheet: {after} (now: {before}).").format(
            after=proposed.coach_after, before=proposed.coach_before
        )
    if not proposed.provisional:
        return said
    morning = _("Provisional until tomorrow morning's response is in.")
    return _("{coach} {morning}").format(coach=said, morning=morning)


def question_about(proposed: Proposed, history: History) -> Question:
    """Return what is asked before a proposal is noted for a name."""
    confirm = _("Y confirms it, any other key leaves it.")
    how = "\n".join((coach_words(proposed), *proposed.cautions, confirm))
    name, large = proposed.name, proposed.name.upper()
    if isinstance(proposed.value, StageMoved):
        stage = _stage_name(history, proposed.value)
        asked, done = _("Open {stage} for {name}?"), _("Open {stage} for {name}")
        return Question(
            asked.format(stage=stage, name=large), done.format(stage=stage, name=name), how
        )
    asked, done = _("State the availability of {name}?"), _("State it for {name}")
    return Question(
        asked.format(name=large), done.format(name=name), f"{proposed.words}\n{how}"
    )


def question_before_signing(
    count: EveningCount, proposals: Sequence[Proposed], me: str
) -> Question:
    """Return what is asked before an evening is signed: who is stopped, what is open."""
    stopped = dict.fromkeys(one.name for one in proposals if one.stopped)
    told = _("Rehab stopped: {names}").format(names=", ".join(stopped)) if stopped else ""
    how = (
        told,
        misled_words(count.misled),
        open_words(count),
        _("Y signs, any other key leaves it."),
    )
    return Question(
        _heading(count),
        _("Sign as {name}").format(name=me),
        "\n".join(part for part in how if part),
    )


def _heading(count: EveningCount) -> str:
    if count.typed:
        return _("Sign without what is typed?")
    return _("Sign with rows not entered?") if count.open else _("Sign the evening?")


def typed_words(count: EveningCount) -> str:
    """Return whose row is typed and not saved, and how it is; "" where none is."""
    if not count.typed:
        return ""
    words = _("Typed and not saved: {names}. Esc goes back to the rows, Enter saves there.")
    return words.format(names=", ".join(count.typed))


def open_words(count: EveningCount) -> str:
    """Return whose rows are not entered, in a sentence."""
    if not count.open:
        return _("No row is left open.")
    return _("Not entered: {names}").format(names=", ".join(count.open))


def _stage_name(history: History, moved: StageMoved) -> str:
    protocol = protocol_of(history)
    known = protocol is not None and moved.stage <= len(protocol.stages)
    return protocol.stages[moved.stage - 1].name if protocol and known else str(moved.stage)
