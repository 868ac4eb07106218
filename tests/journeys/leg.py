"""What an ordinary injured leg shows in the tests that a protocol asks for, day by day.

It mends in a straight line until it does all that the other leg does. The numbers are made up:
they only make an athlete who can pass each gate sooner or later.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

from teamrehab.domain.decision import CriterionResult, Verdict
from teamrehab.domain.history import History
from teamrehab.domain.measures import (
    FunctionCheck,
    HeelRaiseTest,
    Hops,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    Loaded,
    LoadedRaiseTest,
    Raises,
    RunTest,
    Symptom,
)

EVERY = timedelta(days=2)
"""What fell short is tested again after two days at the soonest."""

SPEEDS = (60, 70, 80, 92, 94, 96)
"""Share of the own speed of one run after another, where the leg lets the athlete."""

NEEDS = {"no_signs": 0.75, "brisk_walk": 0.7, "change_of_direction": 0.9}
"""How far a leg must have mended before this is seen; 0.4 of the way for everything else."""

LEG_TESTS: dict[str, type] = {
    "raises_at_least": HeelRaiseTest,
    "raises_to_target": HeelRaiseTest,
    "raises_within": HeelRaiseTest,
    "loaded_raises_within": LoadedRaiseTest,
    "hops_at_least": HopTest,
    "reactive_within": HopTest,
    "jump_within": JumpTest,
    "knee_to_wall_within": KneeToWallTest,
    "speed_over": RunTest,
    "clean_runs": RunTest,
    "observed": FunctionCheck,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """An injured left leg: ``mended`` is the day from which it is as good as the right one.

    ``start`` is what it does on day 0, as a share; ``best`` the raises of a whole leg.
    ``symptom`` is what each test and session brings. ``heights`` are the mean heights of a
    raise in mm, left and right, None where nobody measures them.
    """

    mended: int = 24
    start: float = 0.3
    best: int = 32
    symptom: int = 0
    heights: tuple[int, int] | None = None

    def share(self, day: int) -> float:
        """Return what the leg does on a day, of all that the other one does."""
        return min(1.0, self.start + (1 - self.start) * day / self.mended)

    def raises(self, day: int) -> int:
        """Return how many single-leg raises it does."""
        return round(self.best * self.share(day) ** 2)

    def tests(self, results: Sequence[CriterionResult], known: History, day: int) -> list[Any]:
        """Return the tests that a physio does on a day because of what is not met."""
        due = [r for r in results if not r.waits and _is_due(r, known, day)]
        asked = [(kind, r) for r in due if (kind := kind_of(r)) is not None]
        asked = [one for one in asked if not (one[0] is RunTest and _ran_lately(known, day))]
        kinds = dict.fromkeys((kind, _knee(r)) for kind, r in asked)
        return [self._test(kind, knee, asked, known, day) for kind, knee in kinds]

    def _test(self, kind: type, knee: Knee | None, asked: Any, known: History, day: int) -> Any:
        results = [r for one, r in asked if one is kind]
        makes: dict[type, Callable[[], dict[str, Any]]] = {
            HeelRaiseTest: lambda: self._both_raise(day) | {"knee": knee},
            LoadedRaiseTest: lambda: self._loaded(day) | {"knee": knee},
            HopTest: lambda: self._hops(day),
            JumpTest: lambda: {"left_mm": round(200 * self.share(day)), "right_mm": 200},
            KneeToWallTest: lambda: {"left_mm": round(120 * self.share(day)), "right_mm": 120},
            RunTest: lambda: self._run(known, day),
            FunctionCheck: lambda: self._seen(results, day),
        }
        return kind(
            **_ours(known, kind, knee, day), symptom=Symptom(self.symptom), **makes[kind]()
        )

    def _both_raise(self, day: int) -> dict[str, Any]:
        left, right = self.heights or (None, None)
        return {"left": Raises(self.raises(day), left), "right": Raises(self.best, right)}

    def _loaded(self, day: int) -> dict[str, Any]:
        return {"left": Loaded(7, round(40_000 * self.share(day))), "right": Loaded(7, 40_000)}

    def _hops(self, day: int) -> dict[str, Any]:
        flight = round(220 * self.share(day))
        return {
            "left": Hops(round(26 * self.share(day)), 200, flight),
            "right": Hops(26, 200, 220),
        }

    def _run(self, known: History, day: int) -> dict[str, Any]:
        nth = min(len({run.on for run in known.of(RunTest)}), len(SPEEDS) - 1)
        return {"percent_of_own": min(SPEEDS[nth], round(97 * self.share(day)))}

    def _seen(self, results: Iterable[CriterionResult], day: int) -> dict[str, Any]:
        what = [str(r.criterion.parameters["what"]) for r in results]
        return {one: self.share(day) >= NEEDS.get(one, 0.4) for one in what}


def kind_of(result: CriterionResult) -> type | None:
    """Return the kind of test a criterion asks for, None where it asks for none."""
    return LEG_TESTS.get(result.criterion.check)


def lacks_only_full_sessions(missing: Sequence[CriterionResult]) -> bool:
    """Return whether of sessions only full ones are asked for: those with limits were clean."""
    asked = [one.criterion.check for one in missing if "sessions" in one.criterion.check]
    return asked == ["full_sessions"]


def _knee(result: CriterionResult) -> Knee | None:
    if kind_of(result) not in (HeelRaiseTest, LoadedRaiseTest):
        return None
    bent = Knee.BENT if kind_of(result) is LoadedRaiseTest else Knee.STRAIGHT
    return Knee(str(result.criterion.parameters.get("knee", bent)))


def _is_due(result: CriterionResult, known: History, day: int) -> bool:
    """Return whether something is tested today: never seen, too old, or a while ago."""
    if result.verdict in (Verdict.NEVER_TESTED, Verdict.DUE_AGAIN):
        return True
    kind: type[Any] = kind_of(result) or FunctionCheck
    days = [test.on for test in known.of(kind)]
    return not days or max(days) + EVERY <= known.case.on + timedelta(days=day)


def _ran_lately(known: History, day: int) -> bool:
    yesterday = known.case.on + timedelta(days=day - 1)
    return any(run.on >= yesterday for run in known.of(RunTest))


def _ours(known: History, kind: type, knee: Knee | None, day: int) -> dict[str, Any]:
    case = known.case
    return {
        "test_id": f"{case.case_id}-{kind.__name__}-{knee}-{day}",
        "case_id": case.case_id,
        "athlete_id": case.athlete_id,
        "on": case.on + timedelta(days=day),
    }
