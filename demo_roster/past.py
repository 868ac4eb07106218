"""The closed cases of the demo: what happened, to whom, when, for how long.

Sources of the mix and the lengths (median days of absence, spread of their logarithm):
shares of thigh injuries, women's elite football 2024: Br J Sports Med 2024;58:128,
doi 10.1136/bjsports-2023-107133; thigh and groin muscles: J Sports Sci 2014;32:1229,
doi 10.1080/02640414.2014.905695; calf muscles: Scand J Med Sci Sports 2020;30:174,
doi 10.1111/sms.13552; contusions, back, muscles without a tear: Br J Sports Med 2020;54:421,
doi 10.1136/bjsports-2019-100666; ankle and concussion: Br J Sports Med 2023;57,
doi 10.1136/bjsports-2021-105238; Achilles: Br J Sports Med 2013;47:763,
doi 10.1136/bjsports-2013-092271; torn knee ligaments, median 292 days: the women's paper above;
re-injuries 10-12 %: Br J Sports Med 2021;55:1084, doi 10.1136/bjsports-2020-103159. The
remaining kinds are common practice.
"""

from dataclasses import dataclass, replace
from datetime import date, timedelta
from math import exp
from random import Random
from statistics import NormalDist

from demo_roster.people import ANCHOR
from demo_roster.seasons import saturday, weeks_until
from teamrehab.domain.athletes import Athlete


@dataclass(frozen=True, slots=True)
class Sort:
    """A sort of injury: how many, how long, which muscles, how it comes about."""

    injury: str
    count: int
    median: float
    sigma: float
    what: str
    muscles: tuple[str, ...] = ()
    protocol: str = ""
    sided: bool = True
    in_matches: float = 0.35
    again: int = 0
    areas: tuple[str, ...] = ()
    grade: int | None = None


HAMSTRINGS = ("biceps_femoris", "biceps_femoris", "semimembranosus", "semitendinosus")
QUADRICEPS = ("rectus_femoris", "rectus_femoris", "vasti")
ADDUCTORS = ("adductor_longus", "adductor_longus", "other_adductors")
STARTER, CALF = "lower_limb_starter", "calf_strain"

SORTS = (
    Sort("hamstring_strain", 8, 14, 0.6, "Pulled up at full speed", HAMSTRINGS, STARTER,
         again=2),
    Sort("hamstring_strain", 5, 5, 0.63, "Tight thigh, no tear", HAMSTRINGS, grade=0, again=1),
    Sort("quadriceps_strain", 5, 12, 0.6, "Felt it in a long shot", QUADRICEPS, STARTER,
         again=1),
    Sort("quadriceps_strain", 3, 4, 0.8, "Tight thigh, no tear", QUADRICEPS, grade=0),
    Sort("adductor_strain", 5, 9, 0.65, "Felt it turning at speed", ADDUCTORS, STARTER,
         again=1),
    Sort("calf_strain", 5, 21.4, 0.5, "Tight after a run", ("soleus",), CALF, again=1),
    Sort("calf_strain", 3, 15.4, 0.5, "Pushed off, a snap", ("gastrocnemius",), CALF, again=1),
    Sort("calf_strain", 2, 4, 0.9, "Tight calf, no tear", ("soleus", "gastrocnemius"), grade=0),
    Sort("ankle_sprain", 12, 11, 1.1, "Rolled over the foot", (), STARTER, again=3),
    Sort("contusion", 21, 4, 0.93, "Knock in a duel", in_matches=0.6,
         areas=("thigh", "knee", "lower leg", "ankle", "foot")),
    Sort("knee_ligament", 4, 20, 0.8, "Foot caught in the turf"),
    Sort("knee_cartilage", 1, 32, 0.3, "Swollen after twisting"),
    Sort("low_back_pain", 5, 4, 1.03, "Stiff getting up", sided=False, in_matches=0.1),
    Sort("achilles_tendinopathy", 2, 12, 0.9, "Stiff in the morning", in_matches=0.1, again=1),
    Sort("concussion", 3, 10, 0.63, "Head to head in the air", sided=False, in_matches=0.7),
    Sort("foot", 3, 4, 0.8, "Trodden on", in_matches=0.5),
    Sort("shoulder", 1, 9, 0.6, "Fell on the arm", in_matches=0.5),
    Sort("wrist_hand", 3, 4, 0.6, "Ball on the fingers"),
    Sort("fracture", 2, 40, 0.3, "Fell on the hand", in_matches=0.5, areas=("arm and hand",)),
    Sort("laceration", 2, 2, 0.4, "Cut over the shin", in_matches=0.6, areas=("lower leg",)),
    Sort("bone_stress", 1, 62, 0.1, "Worse with every run", in_matches=0.0, areas=("foot",)),
    Sort("other", 4, 2, 0.6, "Blister on the heel", areas=("foot",)),
)  # fmt: skip
SERIOUS = (292, 178)
"""Days lost with two torn knee ligaments, both operated."""
ILLNESSES = 22
OPEN = frozenset({8, 9, 10, 16, 18, 25, 27, 30})
"""Shirts with a case on the anchor day: nothing else of theirs ends in the weeks before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """One closed case before it is written down. ``days`` were lost; -1 of no earlier case."""

    sort: Sort
    athlete: Athlete
    on: date
    days: int
    muscle: str = ""
    left_side: bool = True
    again_of: int = -1
    in_match: bool = False
    operation: bool = False
    area: str = ""

    @property
    def cleared(self) -> date:
        """Return the day of full return."""
        return self.on + timedelta(days=self.days + 1)


def lengths(sort: Sort, count: int, rng: Random) -> list[int]:
    """Return days lost, at least one each, spread evenly over a log-normal and shuffled."""
    normal = NormalDist()
    drawn = [
        max(1, round(sort.median * exp(sort.sigma * normal.inv_cdf((i + 0.5) / count))))
        for i in range(count)
    ]
    rng.shuffle(drawn)
    return drawn


def injuries(squad: tuple[Athlete, ...], rng: Random) -> list[Plan]:
    """Return the closed injuries by onset; no athlete has two at once."""
    plans: list[Plan] = []
    wanted = [
        (sort, days) for sort in SORTS for days in lengths(sort, sort.count - sort.again, rng)
    ]
    knee = Sort("knee_ligament", 1, 0, 0, "Knee gave way on landing")
    wanted += [(knee, days) for days in SERIOUS]
    wanted.sort(key=lambda pair: -pair[1])
    for sort, days in wanted:
        plans.append(_placed(sort, days, squad, plans, rng))
    for sort in SORTS:
        for days in lengths(sort, sort.again, rng) if sort.again else ():
            plans.append(_again(sort, round(days * 1.25) + 1, plans, rng))
    return _in_order(plans)


def _in_order(plans: list[Plan]) -> list[Plan]:
    """Return the plans by onset; ``again_of`` follows its case to the new place."""
    order = sorted(range(len(plans)), key=lambda i: (plans[i].on, plans[i].athlete.athlete_id))
    place = {old: new for new, old in enumerate(order)}
    return [replace(plans[i], again_of=place.get(plans[i].again_of, -1)) for i in order]


def _placed(
    sort: Sort, days: int, squad: tuple[Athlete, ...], plans: list[Plan], rng: Random
) -> Plan:
    """Return a case of a sort at a day and an athlete that are free for it."""
    matches = [(saturday(m), True) for m, match in weeks_until(ANCHOR) if match]
    training = [
        (m + timedelta(days=rng.choice((1, 2, 3))), False) for m, _ in weeks_until(ANCHOR)
    ]
    for _attempt in range(10_000):
        on, in_match = rng.choice(matches if rng.random() < sort.in_matches else training)
        athlete = rng.choices(squad, [_proneness(a, sort, on) for a in squad])[0]
        plan = Plan(
            sort=sort,
            athlete=athlete,
            on=on,
            days=days,
            muscle=rng.choice(sort.muscles) if sort.muscles else "",
            left_side=rng.random() < 0.5,
            in_match=in_match,
            operation=days in SERIOUS,
            area=rng.choice(sort.areas) if sort.areas else "",
        )
        if _fits(plan, plans):
            return plan
    raise ValueError(f"no athlete is free for {sort.injury}")


def _proneness(athlete: Athlete, sort: Sort, on: date) -> float:
    """Older players strain their calves more often (Am J Sports Med 2013;41:327)."""
    age = athlete.age_on(on) or 25
    if athlete.joined is None or athlete.joined >= on or age < 18:
        return 0.0
    return 1.93 if sort.injury == "calf_strain" and age > 26 else 1.0


def _again(sort: Sort, days: int, plans: list[Plan], rng: Random) -> Plan:
    """Return a re-injury: same athlete, site and side; within two months where one fits."""
    taken = {plan.again_of for plan in plans}
    earlier = [
        index
        for index, plan in enumerate(plans)
        if plan.sort is sort and plan.again_of < 0 and index not in taken
    ]
    for attempt in range(10_000):
        index = rng.choice(earlier)
        first = plans[index]
        gap = rng.randint(6, 55 + attempt // 20)
        plan = replace(
            first,
            on=first.cleared + timedelta(days=gap),
            days=days,
            again_of=index,
            in_match=False,
        )
        if _fits(plan, plans):
            return plan
    raise ValueError(f"no earlier {sort.injury} can come back")


def _fits(plan: Plan, plans: list[Plan]) -> bool:
    """Return whether a case ends in time and leaves the athlete one problem at a time."""
    free_weeks = 7 if plan.athlete.number in OPEN or "gastrocnemius" in plan.sort.muscles else 1
    if plan.cleared > ANCHOR - timedelta(weeks=free_weeks):
        return False
    in_season = any(
        monday <= plan.on <= monday + timedelta(days=6)
        for monday, _match in weeks_until(ANCHOR)
    )
    gap = timedelta(days=5)
    own = [p for p in plans if p.athlete.athlete_id == plan.athlete.athlete_id]
    return in_season and all(
        plan.cleared + gap < other.on or other.cleared + gap < plan.on for other in own
    )


ILLNESS = Sort("", ILLNESSES, 3, 0.70, "", sided=False)
COMPLAINTS = (
    "Sore throat and fever", "Cough and fever", "Stomach upset", "Cold, running nose",
    "Cough after a cold", "Fever in the night",
)  # fmt: skip


def illnesses(squad: tuple[Athlete, ...], plans: list[Plan], rng: Random) -> list[Plan]:
    """Return the closed illnesses: median three days, mostly of the airways.

    Scand J Med Sci Sports 2016, a season of professional football: see the demo's tests.
    """
    found: list[Plan] = []
    for days in lengths(ILLNESS, ILLNESSES, rng):
        found.append(_placed(ILLNESS, days, squad, plans + found, rng))
    return sorted(found, key=lambda plan: (plan.on, plan.athlete.athlete_id))
