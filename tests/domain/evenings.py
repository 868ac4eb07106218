"""What a physio notes of an evening, with defaults that pass; days count from the onset."""

from typing import Any

from teamrehab.domain.injuries import LevelMoved, RedFlag, StageMoved, Urgency
from teamrehab.domain.measures import (
    OBSERVATIONS,
    Done,
    ExerciseDone,
    Feeling,
    FunctionCheck,
    HeelRaiseTest,
    Hops,
    HopTest,
    JumpTest,
    Knee,
    KneeToWallTest,
    Loaded,
    LoadedRaiseTest,
    MorningResponse,
    Raises,
    RunTest,
    SafetyCheck,
    SessionEntry,
    SessionKind,
    Symptom,
)
from teamrehab.domain.signs_asked import SignsAsked
from teamrehab.protocols import load_protocols
from tests.builders import day

CALF = load_protocols()["calf_strain"]
NONE = Symptom(0)


def _ours(on: int, kind: str, more: dict[str, Any]) -> dict[str, Any]:
    ours = {"case_id": "c1", "athlete_id": "a1", "on": day(on), "symptom": NONE}
    return ours | ({} if kind == "e" else {"test_id": f"{kind}{on}"}) | more


def raises(on, left=30, right=30, **more):
    legs = {
        "left": None if left is None else Raises(left, more.pop("left_mm", None)),
        "right": None if right is None else Raises(right, more.pop("right_mm", None)),
    }
    return HeelRaiseTest(**_ours(on, "h", legs | more))


def bent(on, left=30, right=30, **more):
    return raises(on, left, right, knee=Knee.BENT, **more)


def hops(on, left=20, right=20, **more):
    legs = {"left": _hops(left), "right": _hops(right)}
    return HopTest(**_ours(on, "j", legs | more))


def _hops(done):
    return Hops(done) if done and not isinstance(done, Hops) else done or None


def jump(on, left=200, right=200, **more):
    return JumpTest(**_ours(on, "u", {"left_mm": left, "right_mm": right} | more))


def to_wall(on, left=120, right=120, **more):
    return KneeToWallTest(**_ours(on, "w", {"left_mm": left, "right_mm": right} | more))


def loaded(on, left=40, right=40, times=7, **more):
    """Raises with so many kilograms, both legs as often."""
    legs = {
        "left": None if left is None else Loaded(times, left * 1000),
        "right": None if right is None else Loaded(times, right * 1000),
    }
    return LoadedRaiseTest(**_ours(on, "l", legs | more))


def looked(on, **more):
    return FunctionCheck(**_ours(on, "f", dict.fromkeys(OBSERVATIONS, True) | more))


def ran(on, percent=91, **more):
    return RunTest(**_ours(on, "r", {"percent_of_own": percent} | more))


def session(on, kind=SessionKind.TEAM_WITH_LIMITS, **more):
    return SessionEntry(**_ours(on, "e", {"session_id": f"e{on}", "kind": kind} | more))


def moved(on, stage):
    return StageMoved(case_id="c1", athlete_id="a1", on=day(on), stage=stage, proposed=stage)


def flag(on, **more):
    values: dict[str, Any] = {"urgency": Urgency.SAME_DAY, "what": "warm and swollen"}
    ours: dict[str, Any] = {"flag_id": "r1", "case_id": "c1", "athlete_id": "a1", "on": day(on)}
    return RedFlag(**(ours | values | more))


def passing(stage: int, on: int) -> list[Any]:
    """Return what meets the gate out of a stage of the calf protocol, by that day.

    Mornings, runs and full sessions are noted on days before it: those need several days.
    """
    even = {"left_mm": 90, "right_mm": 90}
    return {
        1: [looked(on)],
        2: [raises(on, 15, 15), bent(on, 15, 15)],
        3: [
            raises(on, 25, 25),
            bent(on, 25, 25, test_id=f"bent{on}", **even),
            loaded(on),
            loaded(on, knee=Knee.STRAIGHT, test_id=f"straight{on}"),
            hops(on),
            looked(on),
            before_hops(on - 1),
            morning(on - 2),
            morning(on - 1),
        ],
        4: [ran(on - 4, 70), ran(on - 2), ran(on), hopped_forward(on), looked(on)],
        5: [
            *(session(on - n, SessionKind.TEAM_FULL) for n in range(3)),
            raises(on, **even),
            looked(on),
            jump(on),
            to_wall(on),
            hops(on, left=Hops(20, 200, 400), right=Hops(20, 200, 400)),
        ],
    }[stage]


def hopped_forward(on, **more):
    """A rehab session in which the last level of the hops was passed."""
    return worked_at(on, **({"session_id": f"hop{on}", "hop": 4} | more))


def before_hops(on):
    """A rehab session that passed what is asked for before hops on one leg are tested."""
    return worked_at(on, session_id=f"before{on}", hop=2, raise_straight=2, raise_bent=2)


def worked_at(on, session_id, **more):
    """A rehab session in which levels of ladders, named by their keys, were passed."""
    keys = [ladder.key for ladder in CALF.ladders if ladder.key in more]
    work = tuple(ExerciseDone(exercise=key, level=more.pop(key), sets=3) for key in keys)
    values: dict[str, Any] = {"exercises": work, "done": Done.PARTLY, "limp": False}
    return session(on, SessionKind.REHAB, session_id=session_id, **(values | more))


def level(on, to, ladder="raise"):
    return LevelMoved(
        case_id="c1", athlete_id="a1", on=day(on), ladder=ladder, level=to, proposed=to
    )


def morning(on, score=0, feeling=Feeling.NOT_SAID, nth=1):
    return MorningResponse(
        response_id=f"m{on}-{nth}",
        case_id="c1",
        athlete_id="a1",
        on=day(on),
        symptom=Symptom(score, feeling),
    )


def asked(on, *seen, keys=("chest", "clot", "rupture")):
    """The red flags were asked for; ``seen`` are the keys answered with yes."""
    ours: dict[str, Any] = {"asked_id": f"w{on}", "case_id": "c1", "athlete_id": "a1"}
    return SignsAsked(**ours, on=day(on), asked=keys, seen=seen)


def four(on, **more):
    """Four answers that give no red flag, unless told otherwise."""
    answers = {"same_spot": True, "swollen_or_warm": False, "can_push_off": True}
    ours: dict[str, Any] = {"check_id": f"q{on}", "case_id": "c1", "athlete_id": "a1"}
    return SafetyCheck(**(ours | {"on": day(on), "chest_or_breath": False} | answers | more))
