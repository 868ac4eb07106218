"""A verdict worked out again from what is printed beside it, and from nothing else."""

from collections.abc import Callable

from teamrehab.domain.decision import CriterionResult


def holds(result: CriterionResult) -> bool:
    """Return whether the printed numbers reach what is printed to be asked for."""
    return _RULES[result.criterion.check](result)


def _numbers(result: CriterionResult) -> list[float]:
    return [-1 if seen.value is None else seen.value for seen in result.evidence]


def _asked(result: CriterionResult, name: str, default: int) -> int:
    return int(result.criterion.parameters.get(name, default))


def _needed(result: CriterionResult) -> float:
    assert result.needed is not None
    return result.needed


def _all_reach(result: CriterionResult) -> bool:
    return all(number >= _needed(result) for number in _numbers(result))


def _first_reaches(result: CriterionResult) -> bool:
    return _numbers(result)[0] >= _needed(result)


def _first_within(result: CriterionResult) -> bool:
    return 0 <= _numbers(result)[0] <= _needed(result)


def _each_target(result: CriterionResult) -> bool:
    numbers = _numbers(result)
    return all(d >= t for d, t in zip(numbers[::2], numbers[1::2], strict=True))


def _equal_and_high(result: CriterionResult) -> bool:
    """Percent apart, both legs, the work where it was measured, the days in a row."""
    days, floor = _asked(result, "days", 1), _asked(result, "floor", 0)
    apart, *rest = _numbers(result)
    if not (0 <= apart <= _needed(result) and min(rest[:2]) >= floor):
        return False
    worked, counted = rest[2:-1], rest[-1]
    return days == 1 or (worked[0] <= _needed(result) if worked else counted >= days)


def _fast_on_days(result: CriterionResult) -> bool:
    fastest, *days = _numbers(result)
    return fastest > _needed(result) and (not days or days[0] >= _asked(result, "days", 1))


def _seen(result: CriterionResult) -> bool:
    return _numbers(result) == [1]


_RULES: dict[str, Callable[[CriterionResult], bool]] = {
    "observed": _seen,
    "raises_at_least": _all_reach,
    "raises_to_target": _each_target,
    "raises_within": _equal_and_high,
    "loaded_raises_within": _first_within,
    "hops_at_least": _all_reach,
    "reactive_within": _first_within,
    "jump_within": _first_within,
    "knee_to_wall_within": _first_within,
    "symptom_at_most": _first_within,
    "clean_mornings": _first_reaches,
    "clean_runs": _first_reaches,
    "speed_over": _fast_on_days,
    "level_passed": _first_reaches,
    "sessions_at_least": _first_reaches,
    "full_sessions": _first_reaches,
    "days_in_stage": _first_reaches,
}
