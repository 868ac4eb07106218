"""What can be true of tests; limits without a source are common practice."""

from teamrehab.domain.implausible import Found, Implausible, Moment, day_between, number
from teamrehab.domain.injuries import Side
from teamrehab.domain.measures import (
    OBSERVATIONS,
    FunctionCheck,
    HeelRaiseTest,
    HopTest,
    JumpTest,
    KneeToWallTest,
    LoadedRaiseTest,
    RunTest,
    Symptom,
    Test,
)
from teamrehab.language import _

RAISES = range(201)
HOPS = range(501)
HEIGHT_MM = range(251)
CONTACT_MS = range(50, 1001)
FLIGHT_MS = range(50, 1001)
BEAT = range(20, 241)
SPEED_PERCENT = range(1, 111)
JUMP_MM = range(701)
KNEE_TO_WALL_MM = range(251)
LOADED_RAISES = range(1, 31)
LOAD_KG = range(401)
SCORE = range(11)
MINUTES = range(301)


def heel_raises(test: HeelRaiseTest, moment: Moment) -> Found:
    """Yield what cannot be true of a heel-raise test."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom in heel raises"), test.symptom)
    yield from number(_("Beat"), test.beat, BEAT, _("a minute"))
    if test.left is None and test.right is None:
        yield _no_side(_("Heel raises"))
    for side in (Side.LEFT, Side.RIGHT):
        raises = test.of(side)
        if raises is not None:
            word = side_word(side)
            repetitions, height = raises.repetitions, raises.height_mm
            yield from number(_("Heel raises"), repetitions, RAISES, _("repetitions"), word)
            yield from number(_("Mean height of a raise"), height, HEIGHT_MM, "mm", word)


def hops(test: HopTest, moment: Moment) -> Found:
    """Yield what cannot be true of a hop test."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom in hops"), test.symptom)
    if test.left is None and test.right is None:
        yield _no_side(_("Hops"))
    for side in (Side.LEFT, Side.RIGHT):
        done = test.of(side)
        if done is not None:
            word = side_word(side)
            contact, flight = done.contact_ms, done.flight_ms
            yield from number(_("Hops"), done.hops, HOPS, _("hops"), word)
            yield from number(_("Ground contact of a hop"), contact, CONTACT_MS, "ms", word)
            yield from number(_("Flight of a hop"), flight, FLIGHT_MS, "ms", word)


def function_check(test: FunctionCheck, moment: Moment) -> Found:
    """Yield what cannot be true of a look at walking, stairs and signs."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom in the check"), test.symptom)
    if not any(getattr(test, what) is not None for what in OBSERVATIONS):
        yield Implausible(
            field=_("What was looked at"),
            value=_("nothing"),
            allowed=_("at least one answer is needed"),
            remedy=_("Answer what was looked at, or leave the check out."),
        )


def run(test: RunTest, moment: Moment) -> Found:
    """Yield what cannot be true of a run."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom in running"), test.symptom)
    field = _("Fastest run, of own speed")
    yield from number(field, test.percent_of_own, SPEED_PERCENT, "%")


def jump(test: JumpTest, moment: Moment) -> Found:
    """Yield what cannot be true of a single-leg jump for height."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom in jumps"), test.symptom)
    yield from _lengths(_("Single-leg jump"), test, JUMP_MM)


def knee_to_wall(test: KneeToWallTest, moment: Moment) -> Found:
    """Yield what cannot be true of a distance from toe to wall."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom, knee to wall"), test.symptom)
    yield from _lengths(_("Knee to wall"), test, KNEE_TO_WALL_MM)


def loaded_raises(test: LoadedRaiseTest, moment: Moment) -> Found:
    """Yield what cannot be true of heel raises with weight."""
    yield from _test_day(test, moment)
    yield from symptom_score(_("Symptom with weight"), test.symptom)
    if test.left is None and test.right is None:
        yield _no_side(_("Raises with weight"))
    for side in (Side.LEFT, Side.RIGHT):
        loaded = test.of(side)
        if loaded is not None:
            word = side_word(side)
            field = _("Raises with weight")
            yield from number(field, loaded.repetitions, LOADED_RAISES, _("repetitions"), word)
            yield from _weight(loaded.weight_g, word)


def _weight(grams: int, side: str) -> Found:
    """Yield a weight outside ``LOAD_KG``, in the kilograms in which it is typed."""
    if LOAD_KG[0] <= grams / 1000 <= LOAD_KG[-1]:
        return
    yield Implausible(
        field=_("Weight of these raises"),
        value=_("{side} {weight:g} kg").format(side=side, weight=grams / 1000),
        allowed=_("{low:g} to {high:g} kg is possible").format(
            low=LOAD_KG[0], high=LOAD_KG[-1]
        ),
        remedy=_("Check the number, and type it again."),
    )


def _lengths(field: str, test: JumpTest | KneeToWallTest, allowed: range) -> Found:
    """Yield a length outside ``allowed`` (mm), in the centimetres in which it is typed."""
    if test.left_mm is None and test.right_mm is None:
        yield _no_side(field)
    said = _("{low:g} to {high:g} cm is possible")
    for side in (Side.LEFT, Side.RIGHT):
        length = test.of(side)
        if length is not None and length not in allowed:
            typed = _("{side} {length:g} cm")
            yield Implausible(
                field=field,
                value=typed.format(side=side_word(side), length=length / 10),
                allowed=said.format(low=allowed[0] / 10, high=allowed[-1] / 10),
                remedy=_("Check the number, and type it again."),
            )


def side_word(side: Side) -> str:
    """Return the name of a leg inside a message."""
    return _("left") if side is Side.LEFT else _("right")


def _test_day(test: Test, moment: Moment) -> Found:
    """Yield a day in the future or before the injury; a healthy value has no injury."""
    earliest = moment.onset if test.case_id else None
    yield from day_between(_("Day"), test.on, earliest, moment.today)


def symptom_score(field: str, symptom: Symptom | None) -> Found:
    """Yield a symptom that is not 0 to 10; None was not asked."""
    if symptom is not None:
        yield from number(field, symptom.score, SCORE, "")


def _no_side(field: str) -> Implausible:
    return Implausible(
        field=field,
        value=_("nothing typed"),
        allowed=_("type at least one side"),
        remedy=_("Type left, right or both."),
    )
