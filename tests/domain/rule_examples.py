"""The examples of the rules' pages as facts, so that none of them can lie.

Each is made from a house, as the page's example is: with its limits and hemisphere.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

from msgspec.structs import replace

from growdesk.domain import seasons
from growdesk.domain.facts import (
    Care,
    CareKind,
    Facing,
    Flowering,
    Health,
    House,
    Lamps,
    Leaves,
    Medium,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    Reading,
    RootTips,
    Size,
    Verdict,
)
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    NOTHING,
    SOUTH,
    look,
    moving,
    plant,
    still,
    warm_place,
)

OTHER = House(
    latitude=52.0,
    full_strength_ppm_n=200.0,
    strength_floor_ppm_n=20.0,
    strength_step_ppm_n=25.0,
    strength_ceiling_ppm_n=250.0,
    look_limit_days=30,
    least_interval_days=10,
    feeds_before_flush=4,
    feeds_before_flush_sphagnum=3,
    settle_days=20,
    idle_interval_days=40,
    resume_root_mm=60.0,
    still_green_after=(1, 10),
    no_nitrogen_from=(9, 1),
    runoff_ratio=2.0,
    rain_flushes_mm=40.0,
    nitrogen_back_from=(3, 10),
    equatorial_band_deg=12.0,
    cold_window_days=10,
    stall_days=28,
    feeder_light_share=0.6,
    seedling_share=0.4,
    no_tips_share=0.3,
    fresh_repot_share=0.6,
    fresh_repot_most_days=100,
    slow_release_share=0.7,
    sphagnum_share=0.8,
    idle_share=0.25,
    temperature_window_days=14,
    performance_window_days=28,
)
HOUSES = (HOUSE, SOUTH, OTHER)

Example = tuple[Plant, date]


def at(house: House, month: int, day: int) -> date:
    """Give a day of 2026 named for the north, in the house's hemisphere."""
    return date(2026, *seasons.turned((month, day), house.latitude))


def ago(on: date, days: int) -> date:
    """Give the day so many days before another."""
    return on - timedelta(days=days)


def feeds(on: date, count: int, every: int = 12) -> tuple[Care, ...]:
    """Give feeds up to twelve days ago, after a flush."""
    flush = Care(ago(on, every * (count + 1)), CareKind.FLUSH)
    fed = (Care(ago(on, every * n), CareKind.FEED) for n in range(1, count + 1))
    return (flush, *fed)


def _overruled(house: House) -> Example:
    on = at(house, 4, 10)
    until = on + timedelta(days=10)
    said = Overrule(Verdict.FEED, "it is on trial", until)
    return plant("cattleya", still(ago(on, 1)), overrule=said), on


def _leafless(house: House) -> Example:
    seen = at(house, 3, 3)
    root_mm = (house.resume_root_mm or 80.0) / 2
    shown = look(
        seen,
        new_growths=EMERGING,
        leaves=Leaves.LEAFLESS,
        longest_new_root_mm=root_mm,
    )
    return plant("catasetum", shown), seen + timedelta(days=25)


def _look_old(house: House) -> Example:
    on = at(house, 6, 1)
    shown = moving(ago(on, house.look_limit_days + 1))
    return plant("cattleya", shown), on


def _rot(house: House) -> Example:
    on = at(house, 6, 1)
    return plant("oncidium", moving(ago(on, 3), health=[Health.ROT])), on


def _going_down(house: House) -> Example:
    seen = at(house, 11, 10)
    done = NewGrowths(0, 0, 0, 1)
    shown = look(seen, new_growths=done, leaves=Leaves.YELLOWING)
    return plant("catasetum", shown), seen + timedelta(days=2)


def _still_green(house: House) -> Example:
    on = at(house, *house.still_green_after) + timedelta(days=1)
    return plant("cycnoches", still(on, leaves=Leaves.FIRM)), on


def _cannot_drink(house: House) -> Example:
    on = at(house, 6, 1)
    shown = look(ago(on, 3), new_growths=EXTENDING, health=[Health.NO_ROOTS])
    return plant("miltoniopsis", shown), on


def _too_cold(house: House) -> Example:
    on = at(house, 11, 10)
    place = warm_place(12.0, on.isoformat())
    return plant("oncidium", moving(ago(on, 3)), place=place), on


def _too_hot(house: House) -> Example:
    on = at(house, 7, 10)
    place = warm_place(29.0, on.isoformat())
    return plant("masdevallia", moving(ago(on, 3)), place=place), on


def _unfed_rest(house: House) -> Example:
    seen = at(house, 2, 12)
    budded = look(seen, Flowering.BUDS)
    return plant("dendrobium-nobile", budded), seen + timedelta(days=3)


def _just_repotted(house: House) -> Example:
    on = at(house, 5, 10)
    shown = look(ago(on, 1), new_growths=EXTENDING, root_tips=RootTips.NONE)
    repot = Care(ago(on, house.settle_days), CareKind.REPOT)
    return plant("cattleya", shown, care=(repot,)), on


def _salts(house: House) -> Example:
    on = at(house, 6, 1)
    care = feeds(on, house.feeds_before_flush)
    return plant("cattleya", moving(ago(on, 1)), care=care), on


def _too_soon(house: House) -> Example:
    on = at(house, 6, 1)
    care = feeds(on, 1, house.least_interval_days - 1)
    return plant("cattleya", moving(ago(on, 1)), care=care), on


def _idle(house: House) -> Example:
    on = at(house, 1, 20)
    shown = look(ago(on, 1), new_growths=NOTHING, root_tips=RootTips.HIDDEN)
    care = feeds(on, 1, house.idle_interval_days)
    return plant("miltoniopsis", shown, care=care), on


def _not_growing(house: House) -> Example:
    on = at(house, 1, 20)
    return plant("cattleya", still(ago(on, 1), Flowering.OPEN)), on


def _growing(house: House) -> Example:
    on = at(house, 1, 20)
    shown = look(ago(on, 1), Flowering.OPEN, new_growths=EXTENDING)
    return plant("cattleya", shown), on


def _order(house: House) -> Example:
    on = at(house, 6, 1)
    shown = moving(ago(on, 1), health=[Health.ROT])
    care = feeds(on, house.feeds_before_flush)
    return plant("cattleya", shown, care=care), on


def _pests(house: House) -> Example:
    on = at(house, 6, 1)
    shown = look(ago(on, 3), new_growths=EXTENDING, health=[Health.PESTS])
    return plant("cattleya", shown), on


def _unheard_of(house: House) -> Example:
    on = at(house, 6, 1)
    shown = look(ago(on, 1), new_growths=EXTENDING)
    return plant("Unheardofia", shown), on


def _dated_later(house: House) -> Example:
    on = at(house, 6, 1)
    return plant("cattleya", still(ago(on, 1)), moving(on + timedelta(days=1))), on


OF_RULE: dict[str, tuple[Callable[[House], Example], str]] = {
    "order": (_order, "rot"),
    "overruled": (_overruled, "overruled"),
    "leafless-rest": (_leafless, "leafless-rest"),
    "look-out-of-date": (_look_old, "look-out-of-date"),
    "rot": (_rot, "rot"),
    "going-down": (_going_down, "going-down"),
    "still-green": (_still_green, "still-green"),
    "cannot-drink": (_cannot_drink, "cannot-drink"),
    "too-cold": (_too_cold, "too-cold"),
    "too-hot": (_too_hot, "too-hot"),
    "unfed-rest": (_unfed_rest, "unfed-rest"),
    "just-repotted": (_just_repotted, "just-repotted"),
    "salts": (_salts, "salts"),
    "too-soon": (_too_soon, "too-soon"),
    "idle-never-resting": (_idle, "idle-never-resting"),
    "not-growing": (_not_growing, "not-growing"),
    "growing": (_growing, "growing"),
    "suspect": (_pests, "growing"),
    "kind": (_unheard_of, "growing"),
    "dates": (_dated_later, "not-growing"),
}
"""For each page the facts of its example, and the rule that decides there."""

IN_BLOOM = (_growing, _not_growing)
"""The two plants of the page on bloom."""


# -- strength: a plant, and the house it stands in -------------------------------------

Fed = Callable[[House], "tuple[Plant, date, House]"]
DECEMBER, JUNE = date(2026, 12, 15), date(2026, 6, 15)


def _lit(kind: str, house: House, **more: Any) -> tuple[Plant, date, House]:
    """Give a plant that grows, in June, in a controlled place."""
    place = Place(controlled=True)
    shown = moving(ago(JUNE, 1))
    return plant(kind, shown, **{"place": place, **more}), JUNE, house


def _unlit(kind: str, house: House, **more: Any) -> tuple[Plant, date, House]:
    """Give a plant that grows at 48° north in December."""
    shown = moving(ago(DECEMBER, 1))
    return plant(kind, shown, **more), DECEMBER, replace(house, latitude=48.0)


def _without_tips(stage: NewGrowths, **more: Any) -> Fed:
    shown = look(ago(JUNE, 1), new_growths=stage, root_tips=RootTips.NONE)
    return lambda house: (plant("cattleya", shown, **more), JUNE, house)


def _light_read(house: House) -> tuple[Plant, date, House]:
    read = tuple(Reading(ago(JUNE, n), light_mol_per_m2_d=4.0) for n in (1, 2, 3))
    shown = moving(ago(JUNE, 1))
    return plant("cattleya", shown, place=Place(readings=read)), JUNE, house


def _at_window(house: House) -> tuple[Plant, date, House]:
    shown = look(ago(DECEMBER, 1), new_leaf=NewLeaf.EXTENDING)
    place = Place(facing=Facing.EAST)
    north = replace(house, latitude=48.0)
    return plant("phalaenopsis", shown, place=place), DECEMBER, north


def _under_lamps(house: House) -> tuple[Plant, date, House]:
    shown = look(ago(JUNE, 1), new_leaf=NewLeaf.EXTENDING)
    place = Place(lamps=Lamps(12, 60))
    return plant("phalaenopsis", shown, place=place), JUNE, house


def _measured(house: House) -> tuple[Plant, date, House]:
    looks = [
        moving(ago(JUNE, days), lead_length_mm=mm)
        for days, mm in ((300, 20.0), (286, 60.0), (15, 30.0), (1, 50.0))
    ]
    place = Place(lamps=Lamps(12, 300))
    return plant("cattleya", *looks, place=place), JUNE, house


def _weak(house: House) -> tuple[Plant, date, House]:
    shown = look(ago(DECEMBER, 1), new_growths=EXTENDING, root_tips=RootTips.NONE)
    one = plant("masdevallia", shown, size=Size.SEEDLING, repotted_on=ago(DECEMBER, 60))
    return one, DECEMBER, replace(house, latitude=48.0)


def _half_a_step(house: House) -> tuple[Plant, date, House]:
    return _lit("cattleya", house, full_strength_ppm_n=house.strength_step_ppm_n * 4.5)


OF_STEP: dict[str, tuple[Fed, str, str]] = {
    "strength": (
        lambda h: _lit("masdevallia", h),
        "feeder-light",
        "{feeder_light_share}",
    ),
    "full-strength": (
        lambda h: _lit("cattleya", h, full_strength_ppm_n=120.0),
        "full-own",
        "120 ppm N",
    ),
    "feeder": (
        lambda h: _lit("masdevallia", h),
        "feeder-light",
        "{feeder_light_share}",
    ),
    "controlled-place": (lambda h: _lit("cattleya", h), "season-controlled", "100 %"),
    "season-light": (lambda h: _unlit("cattleya", h), "season-light", "49 %"),
    "light-read": (_light_read, "season-light-read", "44 %"),
    "daylight": (_at_window, "season-window", "74 %"),
    "season-lamps": (_under_lamps, "season-lamps", "75 %"),
    "season-temperature": (
        lambda h: _unlit("cattleya", h, place=warm_place(14.0, "2026-12-15")),
        "season-temperature",
        "67 %",
    ),
    "performance": (_measured, "performance-lead-own", "50 %"),
    "seedling": (
        lambda h: _lit("cattleya", h, size=Size.SEEDLING),
        "seedling",
        "{seedling_share}",
    ),
    "no-tips-yet": (_without_tips(EMERGING), "no-tips-yet", "{no_tips_share}"),
    "fresh-repot": (
        _without_tips(EXTENDING, repotted_on=ago(JUNE, 60)),
        "fresh-repot",
        "{fresh_repot_share}",
    ),
    "slow-release": (
        lambda h: _lit("cattleya", h, slow_release_until=JUNE + timedelta(days=30)),
        "slow-release",
        "{slow_release_share}",
    ),
    "sphagnum": (
        lambda h: _lit("cattleya", h, medium=Medium.SPHAGNUM),
        "sphagnum",
        "{sphagnum_share}",
    ),
    "fed-oftener": (
        lambda h: _lit("cattleya", h, feed_interval_days=h.least_interval_days // 2),
        "fed-oftener",
        "50 %",
    ),
    "floor": (_weak, "floor", "{strength_floor_ppm_n}"),
    "ceiling": (
        lambda h: _lit("cattleya", h, feed_ceiling_ppm_n=20.0),
        "ceiling-own",
        "20 ppm N",
    ),
    "rounded": (_half_a_step, "rounded", "{strength_step_ppm_n}"),
}
"""For each page of the strength: its example, its step, and what the example says."""
