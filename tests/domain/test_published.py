"""The decision held against what is published: rests by months, winters, bloom.

Each row names where it was read. *Common practice, no source* stands where nothing
better was found. The astronomy is held in ``test_sun.py`` and the figures of strength
in ``test_strength.py``.
"""

from __future__ import annotations

from datetime import date

import pytest

from growdesk.domain.facts import Flowering, Leaves, NewLeaf, RootTips, Verdict
from growdesk.domain.kinds import Rest
from growdesk.domain.season_factor import half_light, light_class, light_factor
from growdesk.domain.sun import sun
from growdesk.services import kinds
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    NOTHING,
    SOUTH,
    fed,
    judged,
    moving,
    plant,
    still,
)

AOS_WEEKLY = "S. Bottom, Fertilize Weakly Weekly, American Orchid Society, July 2023"
FED, UNFED, DRY = Verdict.FEED, Verdict.CLEAR_WATER, Verdict.KEEP_DRY

# -- rests by months -------------------------------------------------------------------
# kind, a day inside the published rest, the verdict there, where the months were read.
# All plants show nothing on the move; deciduous ones are bare.

RESTS = [
    (
        "encyclia",
        "01-15",
        UNFED,
        "A New Zealand grower's page on Encyclia: rest from November to March, turned",
    ),
    ("dendrobium-nobile", "12-15", UNFED, AOS_WEEKLY),
    (
        "dendrobium-nobile",
        "10-20",
        UNFED,
        "Bichsel, Starman & Wang, HortScience 43(2), 2008: late feed delays bloom",
    ),
    (
        "dendrobium-kingianum",
        "10-20",
        UNFED,
        (
            "Sheffield & District Orchid Society, Dendrobium speciosum: no feed from"
            " mid-September, dry and cool from mid-October to February"
        ),
    ),
    (
        "dendrobium-callista",
        "01-15",
        UNFED,
        (
            "J. O'Brien, Orchids (about 1910), Resting Orchids: from November, December"
            " to March"
        ),
    ),
    (
        "dendrobium-formosae",
        "01-15",
        UNFED,
        "American Orchid Society, Dendrobium section Formosae: no feed in winter",
    ),
    (
        "dendrobium-biggibum",
        "12-15",
        UNFED,
        "Growers' sheets (opinion): no feed from November to mid-February",
    ),
    (
        "catasetum",
        "02-15",
        DRY,
        (
            "Catasetums, Cycnoches and Clowesias, Orchids (AOS), March 2012: dry until"
            " new roots in spring"
        ),
    ),
    ("habenaria", "02-15", DRY, "American Orchid Society, Habenarias, October 2024"),
    (
        "lycaste",
        "01-15",
        DRY,
        "Lycaste sheet, American Orchid Society text: dry from leaf fall to new growth",
    ),
    (
        "calanthe",
        "02-15",
        DRY,
        "Writhlington school orchid project, Calanthe: no water once bare and over",
    ),
    (
        "chysis",
        "02-15",
        DRY,
        "Writhlington school orchid project, Chysis: water cut from late November",
    ),
    (
        "pleione",
        "01-15",
        DRY,
        "Pleione cultivation pages: dry and near frost from November to February",
    ),
    (
        "rhyncholaelia",
        "12-15",
        UNFED,
        "A grower's page on Rhyncholaelia glauca: no feed from mid-autumn to March",
    ),
    (
        "rossioglossum",
        "01-15",
        UNFED,
        "Growers' pages on Rossioglossum: nothing from flowering to the new shoot",
    ),
]


REST_RULES = {UNFED: "unfed-rest", DRY: "leafless-rest"}


@pytest.mark.parametrize(("kind", "on", "verdict", "source"), RESTS)
def test_its_months_hold_the_published_rest_and_leave_midsummer_out(
    kind: str, on: str, verdict: Verdict, source: str
) -> None:
    months = kinds.table().kinds[kind].rest_months
    assert int(on[:2]) in months, source
    assert not {6, 7} & set(months), source
    if verdict is UNFED:  # by the rest's own rule in its months, by another in July
        in_rest = judged(plant(kind, still(on)), on)
        in_july = judged(plant(kind, still("07-15")), "07-15")
        if kinds.table().kinds[kind].rest is not Rest.NO_NITROGEN:
            assert in_july.rule == "not-growing", source
        assert in_rest.rule == "unfed-rest", source


@pytest.mark.parametrize(("kind", "on", "verdict", "source"), RESTS)
def test_in_its_published_rest_a_still_plant_is_not_fed(
    kind: str, on: str, verdict: Verdict, source: str
) -> None:
    bare = verdict is DRY
    seen = still(on, leaves=Leaves.LEAFLESS if bare else Leaves.FIRM)
    got = judged(plant(kind, seen), on)
    assert (got.verdict, got.rule) == (verdict, REST_RULES[verdict]), source


@pytest.mark.parametrize(("kind", "on", "verdict", "source"), RESTS)
def test_and_half_a_year_on_it_rests_so_in_the_south(
    kind: str, on: str, verdict: Verdict, source: str
) -> None:
    month, day = (int(part) for part in on.split("-"))
    turned = date(2026, (month + 5) % 12 + 1, day)
    bare = verdict is DRY
    seen = still(turned, leaves=Leaves.LEAFLESS if bare else Leaves.FIRM)
    assert judged(plant(kind, seen), turned, SOUTH).verdict is verdict, source


@pytest.mark.parametrize(
    "kind", sorted({kind for kind, _, _, _ in RESTS} - {"catasetum"})
)
def test_in_summer_growth_each_of_them_is_fed(kind: str) -> None:
    seen = moving("06-20", leaves=Leaves.FIRM, longest_new_root_mm=60)
    assert judged(plant(kind, seen), "06-22").verdict is FED


def test_a_catasetum_in_summer_leaf_is_fed_heavily() -> None:
    """Orchids (AOS), March 2012: heavy feed at once when the roots are established."""
    seen = moving("06-20", leaves=Leaves.FIRM, longest_new_root_mm=120)
    got = judged(plant("catasetum", seen), "06-22")
    assert got.verdict is FED
    assert got.strength_ppm_n is not None
    assert got.strength_ppm_n > HOUSE.full_strength_ppm_n


@pytest.mark.parametrize(
    ("kind", "source"),
    [
        ("phalaenopsis", f"{AOS_WEEKLY}: feed on in winter, lower"),
        (
            "masdevallia",
            "Palomar Orchid Society, monthly notes: cool growers are fed on",
        ),
        (
            "coelogyne",
            "Coelogyne culture sheet, AOS: the warm evergreen ones stay moist",
        ),
        ("paphiopedilum", "Paphiopedilum culture sheet, AOS text, which names no rest"),
        ("psychopsis", "Psychopsis papilio, AOS, which names no rest"),
    ],
)
def test_kinds_without_a_rest_are_fed_in_winter_while_they_grow(
    kind: str, source: str
) -> None:
    winter = judged(plant(kind, moving("01-15")), "01-17")
    summer = judged(plant(kind, moving("06-15")), "06-17")
    assert winter.verdict is FED, source
    assert summer.verdict is FED, source
    assert (winter.strength_ppm_n or 0) <= (summer.strength_ppm_n or 0)


# -- how much in winter ----------------------------------------------------------------


def light_share(kind: str, on: date, latitude: float) -> float:
    """Give the share of full strength that the sun leaves a kind on a day."""
    half = half_light(light_class(kinds.table().kinds[kind], HOUSE), HOUSE)
    return light_factor(sun(latitude, on).ra_mj_per_m2_d / 40.0, half)


@pytest.mark.parametrize(
    ("kind", "low", "high", "source"),
    [
        (
            "cattleya",
            0.4,
            0.65,
            (
                "G. Hands, Conductivity Meter Readings (UK paper): 21 June is given"
                " twice what 21 December is"
            ),
        ),
        (
            "cattleya",
            0.33,
            1.0,
            (
                "R. Hutton, Orchid Council of New Zealand: from half strength to"
                " between a quarter and a half, 0.33 to 1 as a ratio, months turned"
            ),
        ),
        (
            "phalaenopsis",
            0.5,
            1.0,
            (
                "A greenhouse firm's advice (growers' opinion): half strength in autumn"
                " and winter; a kind that wants little light is left more"
            ),
        ),
        (
            "oncidium",
            0.25,
            0.65,
            "A society's November list: a half to a quarter of the package rate",
        ),
    ],
)
def test_the_winters_share_is_within_what_is_published(
    kind: str, low: float, high: float, source: str
) -> None:
    december, june = date(2026, 12, 21), date(2026, 6, 21)
    ratio = light_share(kind, december, 50) / light_share(kind, june, 50)
    assert low <= ratio <= high, (ratio, source)


@pytest.mark.parametrize("kind", ["cattleya", "oncidium", "phalaenopsis"])
def test_the_ratio_is_the_same_the_other_way_up_in_the_south(kind: str) -> None:
    december, june = date(2026, 12, 21), date(2026, 6, 21)
    north = light_share(kind, december, 40) / light_share(kind, june, 40)
    south = light_share(kind, june, -40) / light_share(kind, december, -40)
    assert south == pytest.approx(north, rel=0.07)  # the sun is nearer in January


# -- the trade's bloom cases -----------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "signs", "verdict", "source"),
    [
        (
            "cattleya",
            {"new_growths": EXTENDING, "root_tips": RootTips.RUNNING},
            FED,
            "common practice, no source: in flower with a new lead, it is fed",
        ),
        (
            "cattleya",
            {"new_growths": NOTHING, "root_tips": RootTips.NONE},
            UNFED,
            "common practice, no source: in flower with nothing moving, it is not",
        ),
        (
            "phalaenopsis",
            {"new_leaf": NewLeaf.NONE, "root_tips": RootTips.RUNNING},
            FED,
            "Wang & Chang, HortTechnology 27(2), 2017: feed on through forcing",
        ),
        (
            "cymbidium",
            {"new_growths": EXTENDING, "root_tips": RootTips.NONE},
            FED,
            (
                "Flower Research Journal 29(4), 2021: the best Cymbidium had the same"
                " feed through growth, initiation and flower"
            ),
        ),
        (
            "oncidium",
            {"new_growths": NOTHING, "root_tips": RootTips.STARTING},
            FED,
            "common practice, no source: roots on the move are fed, bloom or not",
        ),
    ],
)
def test_bloom_neither_forbids_nor_asks(
    kind: str, signs: dict[str, object], verdict: Verdict, source: str
) -> None:
    for stages in ((Flowering.NONE,), (Flowering.OPEN,), (Flowering.FADING,)):
        one = plant(kind, still("05-05", *stages, **signs))
        assert judged(one, "05-08").verdict is verdict, (source, stages)


def test_a_moth_orchids_spike_is_fed() -> None:
    """57 % of its nitrogen comes after cooling starts (HortTechnology 27(2), 2017)."""
    seen = still("11-05", Flowering.SPIKE, new_leaf=NewLeaf.NONE)
    assert judged(plant("phalaenopsis", seen), "11-08").verdict is FED


def test_an_oncidium_is_fed_while_it_spikes() -> None:
    """Chang & Kuo, ASHS 2013: nitrogen given then goes to spike and next bulb."""
    seen = still("05-05", Flowering.SPIKE)
    assert judged(plant("oncidium", seen), "05-08").verdict is FED


def test_three_feeds_then_clear_water_in_quantity() -> None:
    """Three feeds and one plain: common practice, no source."""
    care = (fed("04-10"), fed("04-17"), fed("04-24"))
    one = plant("cattleya", moving("05-01"), care=care)
    assert judged(one, "05-01").verdict is Verdict.FLUSH
