"""How any test is judged: the newest that counts, its age, its symptom."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import takewhile
from typing import Generic

from teamrehab.domain.decision import Evidence, Verdict
from teamrehab.domain.measures import Feeling, Symptom
from teamrehab.domain.protocol import Criterion
from teamrehab.domain.situation import Situation, T
from teamrehab.language import _

_WORST_LAST = (Verdict.MET, Verdict.DUE_AGAIN, Verdict.NEVER_TESTED, Verdict.NOT_MET)


def whole(criterion: Criterion, name: str) -> int:
    """Return a parameter that is a whole number."""
    return int(criterion.parameters[name])


def word(criterion: Criterion, name: str, default: str) -> str:
    """Return a parameter that is a word."""
    return str(criterion.parameters.get(name, default))


@dataclass(frozen=True, slots=True)
class SymptomLimit:
    """The symptom a criterion allows: ``at_most`` None where only a sharp one matters.

    ``unasked_counts``: the observation itself says that it was clean.
    """

    at_most: int | None = None
    unasked_counts: bool = False

    @classmethod
    def of(cls, criterion: Criterion, *, unasked_counts: bool = False) -> "SymptomLimit":
        """Return the limit a criterion names."""
        named = "symptom" in criterion.parameters
        return cls(whole(criterion, "symptom") if named else None, unasked_counts)

    def trouble(self, symptom: Symptom | None) -> str:
        """Return why a test with this symptom does not count, or nothing."""
        if symptom is None:
            asked = self.at_most is not None and not self.unasked_counts
            return _("The symptom was not noted with this test.") if asked else ""
        if symptom.feeling is Feeling.SHARP:
            return _("Sharp symptom: this test does not count, whatever the number.")
        if self.at_most is None or symptom.score <= self.at_most:
            return ""
        said = _("Symptom {score} in this test; at most {limit} is allowed.")
        return said.format(score=symptom.score, limit=self.at_most)


@dataclass(frozen=True, slots=True)
class Judged(Generic[T]):
    """A verdict with the test it rests on and what must be said about it (may be empty)."""

    verdict: Verdict
    test: T | None = None
    remarks: tuple[str, ...] = ()


def judge_newest(
    tests: Sequence[T],
    holds: Callable[[T], bool],
    limit: SymptomLimit,
    situation: Situation,
    days: int,
) -> Judged[T]:
    """Return how the newest test stands; ``tests`` come newest first.

    A result that would pass was it not for a painkiller is passed over: it opens no gate. A
    bad result under a painkiller is bad all the same. A pass older than ``days`` is due again.
    """

    def good(test: T) -> bool:
        return holds(test) and not limit.trouble(test.symptom)

    if not tests:
        return Judged(Verdict.NEVER_TESTED)
    tests = _worse_version_first(tests, good)
    masked = list(takewhile(lambda test: test.painkiller and good(test), tests))
    said = painkiller_remark() if masked else ""
    if len(masked) == len(tests):
        return Judged(Verdict.NOT_MET, tests[0], (said,))
    test = tests[len(masked)]
    if not good(test):
        return Judged(Verdict.NOT_MET, test, (said, limit.trouble(test.symptom)))
    old = situation.too_old(test.on, days)
    return Judged(Verdict.DUE_AGAIN if old else Verdict.MET, test, (said,))


def _worse_version_first(tests: Sequence[T], good: Callable[[T], bool]) -> list[T]:
    """Return tests with, of two versions of one, first the one that does not pass."""
    place = {test.test_id: nth for nth, test in reversed(list(enumerate(tests)))}
    return sorted(tests, key=lambda test: (place[test.test_id], good(test)))


def painkiller_remark() -> str:
    """Return what is said of a pass within 24 hours of a painkiller."""
    return _("A newer test was done within 24 hours of a painkiller: kept, but opens no gate.")


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the verdict of a criterion that asks several things at once."""
    return max(verdicts, key=_WORST_LAST.index)


def joined(remarks: Iterable[str]) -> str:
    """Return sentences one after another, each once."""
    return " ".join(dict.fromkeys(remark for remark in remarks if remark))


def inside_error(evidence: Evidence, needed: float) -> bool:
    """Return whether the gap to the number asked for is smaller than the error of the test."""
    if evidence.value is None or evidence.error is None:
        return False
    return abs(evidence.value - needed) < evidence.error
