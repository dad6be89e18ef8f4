"""The decision by itself: facts in memory, no file, no window, no words unless asked.

The facts are the demo's, each plant copied until there are enough, with records of its
own: thirty looks and thirty pieces of care at the most. Seconds are of one core.
"""

from __future__ import annotations

import gc
import random
import time
from datetime import date, timedelta
from functools import cache
from itertools import cycle, islice
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.batches import plan_batches
from growdesk.domain.change import would_change
from growdesk.domain.facts import House, Place, Plant
from growdesk.domain.judging import judge
from growdesk.domain.servings import Serving
from growdesk.domain.week import walk_rounds
from growdesk.services.demo_unfold import as_facts, read_data, unfold
from growdesk.services.kinds import kind_of, table
from growdesk.services.serving import plan_of
from tests.bench.bars import Bar, Limit, Pair

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.domain.explain import Judgement
    from growdesk.domain.kinds import Kind
    from tests.bench.ground import Ground

    Facts = list[tuple[Plant, Kind, bool]]

RECORDS = 30
ROUNDS = (0, 3, 7)
HOUSE = House()
CHANGE_DAYS = [date(2028, 1, 1) + timedelta(days=14 * number) for number in range(26)]
WORST = 5


@cache
def demo(on: date) -> Facts:
    """Give the demo's plants as they stand on a day."""
    plants = as_facts(unfold(read_data(), on))
    return [(plant, *kind_of(plant, table())) for plant in plants]


@cache
def facts(count: int, on: date) -> Facts:
    """Give so many plants: places are shared, looks and care are each plant's own."""
    places: dict[str, Place] = {}
    return [
        (_copied(plant, number, places), kind, known)
        for number, (plant, kind, known) in enumerate(islice(cycle(demo(on)), count))
    ]


def _copied(plant: Plant, number: int, places: dict[str, Place]) -> Plant:
    return replace(
        plant,
        tag=f"{plant.tag}-{number}",
        place=places.setdefault(plant.place.name, plant.place),
        looks=tuple(replace(look) for look in plant.looks[-RECORDS:]),
        care=tuple(replace(care) for care in plant.care[-RECORDS:]),
    )


def _judged(known: Facts, on: date) -> list[Judgement]:
    return [
        judge(p, kind, HOUSE, on, kind_known=is_known) for p, kind, is_known in known
    ]


def _core_s(work: Callable[[], object]) -> float:
    """Give the seconds of one core; what it gives is let go afterwards."""
    gc.collect()
    began = time.process_time()
    done = work()
    spent = time.process_time() - began
    del done
    return spent


class _Told(Struct, frozen=True):
    """As much as any decision has to be: an object with a sentence of its own."""

    tag: str
    verdict: str
    strength_ppm_n: float
    sentence: str


def _floor(known: Facts) -> list[_Told]:
    told = (
        _Told(p.tag, "feed", 100.0, f"Feed {p.tag}: seen growing {len(p.looks)} times.")
        for p, _, _ in known
    )
    return sorted(told, key=lambda each: each.tag)


def judging(ground: Ground) -> Pair:
    """Judge every plant; give how many a second."""
    known = facts(ground.plants, ground.today)
    often = max(1, 2_000 // ground.plants)

    def ours() -> float:
        spent = _core_s(lambda: [_judged(known, ground.today) for _ in range(often)])
        return often * ground.plants / spent

    return Pair(ours)


def judging_floor(ground: Ground) -> Pair:
    """Judge every plant, beside making so many objects with a sentence each."""
    known = facts(ground.plants, ground.today)
    return Pair(
        lambda: _core_s(lambda: _judged(known, ground.today)),
        lambda: _core_s(lambda: _floor(known)),
    )


def change(_ground: Ground) -> Pair:
    """Ask every plant of the demo through a year; give the longest that one took."""

    def asked(number: tuple[int, int]) -> float:
        on = CHANGE_DAYS[number[0]]
        plant, kind, known = demo(on)[number[1]]
        return _core_s(lambda: would_change(plant, kind, HOUSE, on, kind_known=known))

    all_asked = [
        (day, plant)
        for day, on in enumerate(CHANGE_DAYS)
        for plant in range(len(demo(on)))
    ]
    gc.freeze()
    longest = sorted(all_asked, key=asked)[-WORST:]
    return Pair(
        lambda: max(min(asked(each) for _ in range(3)) for each in longest),
        close=gc.unfreeze,
    )


def week(ground: Ground) -> Pair:
    """Walk the week, beside judging each plant on each of its rounds."""
    known = facts(ground.plants, ground.today)
    plants = [plant for plant, _, _ in known]
    kinds = [kind for _, kind, _ in known]
    days = [ground.today + timedelta(days=number) for number in ROUNDS]
    return Pair(
        lambda: _core_s(lambda: walk_rounds(plants, kinds, HOUSE, days)),
        lambda: _core_s(lambda: [_judged(known, day) for day in days]),
    )


def batches(ground: Ground) -> Pair:
    """Share three jugs among all plants that are fed."""
    known = facts(ground.plants, ground.today)
    judged = _judged(known, ground.today)
    pairs = [(plant, each) for (plant, _, _), each in zip(known, judged, strict=True)]
    return Pair(lambda: _core_s(lambda: plan_of(pairs, HOUSE, jugs=3)))


def batches_fine(ground: Ground) -> Pair:
    """Share three jugs among plants of every whole strength from 30 to 400 ppm N."""
    dice = random.Random(7)  # noqa: S311 -- a fixed seed
    servings = [
        Serving(f"P{n}", float(dice.randint(30, 400)), 400.0, dice.choice((0.1, 0.35)))
        for n in range(ground.plants)
    ]
    return Pair(lambda: _core_s(lambda: plan_batches(servings, jugs=3)))


BARS: tuple[Bar, ...] = (
    Bar(
        "judging",
        "Judging all plants, reasons as data, plants a second and core",
        "",
        Limit.per_s(20_000),
        judging,
    ),
    Bar(
        "judging-floor",
        "Judging all plants",
        "so many frozen objects with a sentence each, sorted",
        Limit.times(75),
        judging_floor,
        grows=True,
    ),
    Bar(
        "would-change",
        "What would change the verdict, the slowest plant and day of the demo's year",
        "",
        Limit.ms(5),
        change,
        sizes=(40,),
    ),
    Bar(
        "week",
        "The week walked forward over three rounds",
        "each plant judged on each round",
        Limit.times(1.3),
        week,
        grows=True,
    ),
    Bar(
        "batches",
        "Three jugs shared among all plants that are fed, exactly",
        "",
        Limit.ms(100),
        batches,
        grows=True,
    ),
    Bar(
        "batches-fine",
        "The same for every whole strength from 30 to 400 ppm N, all fed",
        "",
        Limit.ms(100),
        batches_fine,
        grows=True,
    ),
)
