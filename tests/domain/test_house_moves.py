"""Every number of the decision is the house's own: changing it moves what it names."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain import day_words, wording
from growdesk.domain.facts import (
    CareKind,
    House,
    Lamps,
    Leaves,
    Medium,
    NewGrowths,
    NewLeaf,
    Place,
    Plant,
    Reading,
    RootTips,
    Size,
)
from growdesk.domain.season_factor import light_factor
from growdesk.domain.sun import sun
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    SOUTH,
    day,
    did,
    fed,
    judged,
    look,
    moving,
    outcome,
    plant,
    said,
    still,
)

if TYPE_CHECKING:
    from growdesk.domain.facts import Look

ON = "05-08"


def with_rule(house: House = HOUSE, **rules: Any) -> House:
    return replace(house, **rules)


def all_at(value: float, *rules: str) -> House:
    given: dict[str, Any] = dict.fromkeys(rules, value)
    return replace(HOUSE, **given)


def factor(one: Plant, key: str, house: House, on: str = ON) -> float | None:
    """Give the factor of the one step whose key begins so."""
    strength = judged(one, on, house).strength
    assert strength is not None
    found = [step.factor for step in strength.steps if step.key.startswith(key)]
    return found[0] if found else None


def unrooted(**more: Any) -> Plant:
    seen = look("05-05", new_growths=EXTENDING, root_tips=RootTips.NONE)
    return plant("cattleya", seen, **more)


EMERGED = look("05-05", new_growths=EMERGING, root_tips=RootTips.NONE)
HIDDEN = look("05-05", new_leaf=NewLeaf.NONE, root_tips=RootTips.HIDDEN)


@pytest.mark.parametrize(
    ("rule", "key", "one"),
    [
        ("feeder_light_share", "feeder-light", plant("tolumnia", moving("05-05"))),
        ("feeder_heavy_share", "feeder-heavy", plant("vanda", moving("05-05"))),
        (
            "seedling_share",
            "seedling",
            plant("cattleya", moving("05-05"), size=Size.SEEDLING),
        ),
        ("no_tips_share", "no-tips-yet", plant("cattleya", EMERGED)),
        (
            "fresh_repot_share",
            "fresh-repot",
            unrooted(care=(did("04-20", CareKind.REPOT),)),
        ),
        (
            "slow_release_share",
            "slow-release",
            plant("cattleya", moving("05-05"), slow_release_until=day(ON)),
        ),
        (
            "sphagnum_share",
            "sphagnum",
            plant("cattleya", moving("05-05"), medium=Medium.SPHAGNUM),
        ),
        ("idle_share", "idle", plant("phalaenopsis", HIDDEN)),
    ],
)
def test_each_share_is_the_houses(rule: str, key: str, one: Plant) -> None:
    assert factor(one, key, HOUSE) == getattr(HOUSE, rule)
    changed = all_at(0.6, rule)
    assert factor(one, key, changed) == 0.6
    assert "60 %" in (wording.strength_sentence(judged(one, ON, changed)))


def test_the_sentences_name_the_houses_share() -> None:
    idle = plant("phalaenopsis", HIDDEN)
    assert "it is fed at half." in said(judged(idle, ON))
    assert "it is fed at 60 %." in said(judged(idle, ON, with_rule(idle_share=0.6)))
    waiting = replace(idle, care=(fed("05-01"),))
    assert "so it is fed at three quarters every 14 days" in said(
        judged(waiting, ON, with_rule(idle_share=0.75))
    )
    repotted = unrooted(care=(did("05-01", CareKind.REPOT),))
    assert "then comes at half." in said(judged(repotted, ON))
    assert "then comes at a quarter." in said(
        judged(repotted, ON, with_rule(fresh_repot_share=0.25))
    )


@pytest.mark.parametrize(("limit", "halved"), [(18, True), (17, False)])
def test_fresh_from_a_repot_for_so_long(limit: int, halved: bool) -> None:
    one = unrooted(care=(did("04-20", CareKind.REPOT),))
    got = factor(one, "fresh-repot", with_rule(fresh_repot_most_days=limit))
    assert (got is not None) is halved


@pytest.mark.parametrize("full", [20.0, 40.0, 50.0])
def test_full_light_is_the_houses(full: float) -> None:
    one = plant("cattleya", moving("12-20"))
    ra = sun(HOUSE.latitude, day("12-20")).ra_mj_per_m2_d
    house = with_rule(full_radiation_mj_per_m2_d=full)
    got = factor(one, "season-light", house, "12-20")
    assert got == pytest.approx(light_factor(ra / full, 0.4))


@pytest.mark.parametrize(
    ("kind", "rule"),
    [
        ("cattleya", "half_light_bright"),
        ("phalaenopsis", "half_light_medium"),
        ("pleurothallis", "half_light_low"),
    ],
)
@pytest.mark.parametrize("lamps", [None, Lamps(12, 60)])
def test_each_light_has_its_own_bend(kind: str, rule: str, lamps: Lamps | None) -> None:
    seen = look("12-20", root_tips=RootTips.RUNNING)
    one = plant(kind, seen, place=Place(lamps=lamps))
    key = "season-light" if lamps is None else "season-lamps"
    usual = factor(one, key, HOUSE, "12-20")
    bent = factor(one, key, all_at(1.0, rule), "12-20")
    straighter = {"half_light_bright", "half_light_medium", "half_light_low"} - {rule}
    others = all_at(1.0, *straighter)
    assert usual is not None
    assert bent is not None
    assert bent < usual
    assert factor(one, key, others, "12-20") == usual


def test_bright_and_low_light_begin_where_the_house_says() -> None:
    middle = kinds.table().kinds["cattleya"].light_mid_fc
    one = plant("cattleya", moving("12-20"))
    bright = factor(one, "season-light", with_rule(bright_from_fc=middle), "12-20")
    medium = with_rule(bright_from_fc=middle + 1)
    low = replace(medium, low_light_under_fc=middle + 1)
    still_medium = replace(medium, low_light_under_fc=middle)
    got = [factor(one, "season-light", h, "12-20") for h in (medium, low, still_medium)]
    ra = sun(HOUSE.latitude, day("12-20")).ra_mj_per_m2_d
    assert bright == light_factor(ra / 40, 0.4)
    expected = [light_factor(ra / 40, half) for half in (0.25, 0.15, 0.25)]
    assert got == expected


def read_once(days_ago: int, mean_c: float) -> Plant:
    """Give a growing plant whose place was read on one day only."""
    reading = Reading(day(ON) - timedelta(days=days_ago), mean_c)
    return plant("cattleya", moving("05-05"), place=Place(readings=(reading,)))


@pytest.mark.parametrize(
    ("window", "days_ago", "counts"),
    [(21, 21, True), (21, 22, False), (20, 21, False), (40, 40, True)],
)
def test_readings_count_for_the_houses_days(
    window: int, days_ago: int, counts: bool
) -> None:
    house = with_rule(temperature_window_days=window)
    one = read_once(days_ago, 15)
    assert (factor(one, "season-temperature", house) is not None) is counts
    told = wording.strength_sentence(judged(one, ON, house))
    read_on = day_words.day_text(day(ON) - timedelta(days=days_ago), day(ON))
    assert (f"the 15 °C read on {read_on} leave" in told) is counts


@pytest.mark.parametrize(
    ("window", "days_ago", "held"),
    [(7, 7, True), (7, 8, False), (6, 7, False), (40, 40, True)],
)
@pytest.mark.parametrize(("mean_c", "rule"), [(9, "too-cold"), (36, "too-hot")])
def test_cold_and_heat_hold_for_the_houses_days(
    window: int, days_ago: int, held: bool, mean_c: float, rule: str
) -> None:
    got = judged(read_once(days_ago, mean_c), ON, with_rule(cold_window_days=window))
    assert (got.rule == rule) is held
    read_on = day_words.day_text(day(ON) - timedelta(days=days_ago), day(ON))
    assert (f"Its place read {mean_c} °C on {read_on}." in said(got)) is held


@pytest.mark.parametrize(("limit", "stalled"), [(14, True), (15, False)])
def test_a_lead_stands_still_after_the_houses_days(limit: int, stalled: bool) -> None:
    seen = {"new_growths": EXTENDING, "root_tips": RootTips.NONE}
    looks = (
        look("04-21", lead_length_mm=50, **seen),
        look("05-05", lead_length_mm=50, **seen),
    )
    got = judged(plant("cattleya", *looks), ON, with_rule(stall_days=limit))
    assert (got.rule == "not-growing") is stalled


def lead(on: str, mm: float) -> Look:
    seen = NewGrowths(0, 1, 0, 2)
    return look(on, new_growths=seen, root_tips=RootTips.NONE, lead_length_mm=mm)


@pytest.mark.parametrize(("window", "measured"), [(30, True), (29, False)])
def test_measures_count_inside_the_houses_window(window: int, measured: bool) -> None:
    one = plant("cattleya", lead("04-08", 40), lead("05-06", 60))
    house = with_rule(performance_window_days=window)
    assert (factor(one, "performance", house) is not None) is measured


@pytest.mark.parametrize(("window", "own"), [(28, True), (27, False)])
def test_the_best_season_is_measured_in_the_same_window(window: int, own: bool) -> None:
    looks = (lead("2025-05-01", 20), lead("2025-05-29", 100))
    one = plant("cattleya", *looks, lead("04-22", 40), lead("05-06", 60))
    got = judged(one, ON, with_rule(performance_window_days=window)).strength
    assert got is not None
    assert any("lead-own" in step.key for step in got.steps) is own


@pytest.mark.parametrize(("earlier", "own"), [(200, True), (201, False)])
def test_an_earlier_season_lies_so_far_back(earlier: int, own: bool) -> None:
    last = day(ON) - timedelta(days=200)
    looks = (lead(str(last - timedelta(days=28)), 20), lead(str(last), 100))
    one = plant("cattleya", *looks, lead("04-08", 40), lead("05-06", 60))
    got = judged(one, ON, with_rule(earlier_season_days=earlier)).strength
    assert got is not None
    assert any("lead-own" in step.key for step in got.steps) is own


@pytest.mark.parametrize("least", [0.0, 0.1, 0.3])
def test_the_least_share_of_slow_growth(least: float) -> None:
    one = plant("cattleya", lead("04-08", 40), lead("05-06", 42))
    got = factor(one, "performance", with_rule(performance_least=least))
    assert got == pytest.approx(max(least, 2 / 40))


@pytest.mark.parametrize("most", [1.0, 1.25, 1.5])
def test_the_most_that_growth_raises_the_season(most: float) -> None:
    one = plant("cattleya", lead("12-01", 40), lead("12-20", 140))
    season = light_factor(sun(HOUSE.latitude, day("12-20")).ra_mj_per_m2_d / 40, 0.4)
    house = with_rule(performance_most_raise=most)
    got = factor(one, "performance-lead-kind-in-season", house, "12-20")
    assert got == pytest.approx(season * most)


@pytest.mark.parametrize(("limit", "asked"), [(20, True), (21, False)])
def test_a_measure_is_asked_for_again_after_the_houses_days(
    limit: int, asked: bool
) -> None:
    bare: dict[str, Any] = {"leaves": Leaves.LEAFLESS, "new_growths": EMERGING}
    looks = (
        look("03-03", longest_new_root_mm=40, root_tips=RootTips.RUNNING, **bare),
        look("03-20", **bare),
    )
    got = judged(
        plant("catasetum", *looks), "03-24", with_rule(measure_again_days=limit)
    )
    assert got.rule == "leafless-rest"
    assert ("That measure is 21 days old" in said(got)) is asked


@pytest.mark.parametrize(("band", "near"), [(10.0, True), (9.9, False)])
@pytest.mark.parametrize("latitude", [10.0, -10.0])
def test_months_mean_nothing_within_the_houses_band(
    band: float, near: bool, latitude: float
) -> None:
    month = "12" if latitude > 0 else "06"
    one = plant("laelia-rupicolous", still(f"{month}-20"))
    house = House(latitude=latitude, equatorial_band_deg=band)
    assert (judged(one, f"{month}-22", house).rule == "unfed-rest") is not near


@pytest.mark.parametrize(("house", "month"), [(HOUSE, 4), (SOUTH, 10)])
def test_nitrogen_is_back_from_the_houses_day(house: House, month: int) -> None:
    later = with_rule(house, nitrogen_back_from=(4, 10))
    eve, first = f"{month:02d}-09", f"{month:02d}-10"
    one = plant("dendrobium-nobile", moving(eve))
    assert outcome(judged(one, eve, house))[1] == "feed"
    held = judged(one, eve, later)
    assert outcome(held) == ("unfed-rest", "clear-water", "if-dry")
    assert day_words.day_text(day(eve), day(eve)) in said(held)
    back = plant("dendrobium-nobile", moving(first))
    assert outcome(judged(back, first, later))[1] == "feed"


@pytest.mark.parametrize(("days", "fed_"), [(42, True), (43, False), (60, False)])
def test_hidden_roots_count_after_the_houses_days(days: int, fed_: bool) -> None:
    shoots = [
        look(on, new_growths=EXTENDING, root_tips=RootTips.HIDDEN)
        for on in ("05-20", "06-10", "06-28")
    ]
    house = with_rule(hidden_roots_days=days)
    got = judged(plant("dendrobium-nobile", *shoots), "07-01", house)
    assert (got.verdict == "feed") is fed_
    assert fed_ or f"on record for {days} days" in said(got)
