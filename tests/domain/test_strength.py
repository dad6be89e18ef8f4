"""The strength chain: each factor, floor, ceilings, rounding, and published checks.

Published beside the checks: feed on 21 June = 2 x feed on 21 December (G. Hands,
orchid society note; F20 of the check values). Common practice, no source: a
bright-growing plant at full 300 ppm N in summer is given about 160 while a growth runs
in a temperate winter.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from msgspec.structs import replace

from growdesk.domain import wording
from growdesk.domain.facts import (
    Care,
    CareKind,
    House,
    Look,
    Medium,
    Place,
    Plant,
    RootTips,
    Size,
)
from growdesk.services import kinds
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    HOUSE,
    day,
    did,
    fed,
    judged,
    look,
    moving,
    plant,
)

if TYPE_CHECKING:
    from growdesk.domain.explain import Strength

CONTROLLED = Place(controlled=True)
KINDS = kinds.table().kinds


def grown(kind: str = "cattleya", *looks: Look, **more: Any) -> Plant:
    """Give a plant that is fed on 8 May in a controlled place."""
    return plant(kind, *(looks or (moving("05-05"),)), **{"place": CONTROLLED, **more})


def fed_at(one: Plant, house: House = HOUSE, on: str = "05-08") -> Strength:
    strength = judged(one, on, house).strength
    assert strength is not None
    return strength


def house_at(full: float, **more: Any) -> House:
    return replace(HOUSE, full_strength_ppm_n=full, **more)


# -- published and common-practice checks of the whole -----


def test_full_300_is_about_160_in_a_temperate_winter() -> None:
    """48° N, mid January, a bright-growing medium feeder; about half."""
    one = plant("cattleya", moving("01-12"))
    strength = fed_at(one, house_at(300, latitude=48.0), "01-15").ppm_n
    assert 140 <= strength <= 175


def test_full_300_is_about_full_in_summer() -> None:
    one = plant("cattleya", moving("06-20"))
    assert fed_at(one, house_at(300), "06-21").ppm_n == 300


def test_june_to_december_is_about_two_to_one() -> None:
    """F20: G. Hands, orchid society note: feed June 21 = 2 x feed December 21."""
    house = house_at(300, latitude=51.5, strength_step_ppm_n=1)
    june = fed_at(plant("cattleya", moving("06-20")), house, "06-21").ppm_n
    december = fed_at(plant("cattleya", moving("12-20")), house, "12-21").ppm_n
    assert 1.7 <= june / december <= 2.6


def test_an_uncontrolled_room_feeds_less_in_winter_than_in_summer() -> None:
    for kind in ("phalaenopsis", "cattleya", "oncidium", "cymbidium"):
        winter = fed_at(plant(kind, moving("01-12")), on="01-15").ppm_n
        summer = fed_at(plant(kind, moving("07-12")), on="07-15").ppm_n
        assert winter < summer, kind


def test_the_seasons_turn_in_the_south() -> None:
    south = replace(HOUSE, latitude=-48.2)
    june = fed_at(plant("cattleya", moving("06-20")), south, "06-21").ppm_n
    december = fed_at(plant("cattleya", moving("12-20")), south, "12-21").ppm_n
    assert december == 150
    assert june < 90


def test_polar_night_gives_the_floor_and_no_error() -> None:
    one = plant("cattleya", moving("12-20"))
    assert fed_at(one, replace(HOUSE, latitude=80), "12-21").ppm_n == 30


# -- full strength and feeder class -----


def test_full_strength_is_the_houses_or_the_plants_own() -> None:
    assert fed_at(grown()).ppm_n == 150
    assert fed_at(grown(), house_at(300)).ppm_n == 300
    assert fed_at(grown(full_strength_ppm_n=100), house_at(300)).ppm_n == 100


@pytest.mark.parametrize(
    ("kind", "expected"),
    [("tolumnia", 80), ("cattleya", 150), ("dendrobium-nobile", 190)],
)
def test_feeder_class(kind: str, expected: float) -> None:
    """Light half, medium whole, heavy a quarter more; 187.5 rounds to 190."""
    assert fed_at(grown(kind)).ppm_n == expected


# -- the plant's state -----


def test_a_seedling_takes_half() -> None:
    assert fed_at(grown(size=Size.SEEDLING)).ppm_n == 80


@pytest.mark.parametrize(
    ("signs", "expected"),
    [
        ({"new_growths": EMERGING, "root_tips": RootTips.NONE}, 80),
        ({"new_growths": EMERGING, "root_tips": RootTips.STARTING}, 150),
        ({"new_growths": EXTENDING, "root_tips": RootTips.NONE}, 150),
    ],
)
def test_an_emerging_growth_without_root_tips_takes_half(
    signs: dict[str, object], expected: float
) -> None:
    assert fed_at(grown("cattleya", look("05-05", **signs))).ppm_n == expected


@pytest.mark.parametrize(
    ("seen", "tips", "expected"),
    [
        ("05-05", RootTips.NONE, 80),
        ("05-05", RootTips.HIDDEN, 80),
        ("05-05", RootTips.RUNNING, 150),
    ],
)
def test_after_a_repot_half_until_root_tips_are_seen(
    seen: str, tips: RootTips, expected: float
) -> None:
    shown = look(seen, new_growths=EXTENDING, root_tips=tips)
    one = grown("cattleya", shown, care=(did("04-20", CareKind.REPOT),))
    assert fed_at(one).ppm_n == expected


def test_root_tips_seen_at_any_look_since_the_repot_count() -> None:
    looks = (moving("04-25"), look("05-05", new_growths=EXTENDING))
    one = grown("cattleya", *looks, care=(did("04-20", CareKind.REPOT),))
    assert fed_at(one).ppm_n == 150


@pytest.mark.parametrize(("until", "expected"), [("05-07", 150), ("05-08", 80)])
def test_slow_release_in_the_pot_takes_half(until: str, expected: float) -> None:
    assert fed_at(grown(slow_release_until=day(until))).ppm_n == expected


def test_sphagnum_takes_three_quarters() -> None:
    """Published: sphagnum holds salts, more dilute feed (AOS 2023, F23); 112.5."""
    assert fed_at(grown(medium=Medium.SPHAGNUM)).ppm_n == 110
    assert fed_at(grown(medium=Medium.BARK)).ppm_n == 150


@pytest.mark.parametrize(
    ("own", "expected"), [(2, 100), (3, 150), (4, 200), (6, 300), (7, 300), (30, 300)]
)
def test_fed_oftener_than_the_house_it_takes_its_share(
    own: int, expected: float
) -> None:
    assert fed_at(grown(feed_interval_days=own), house_at(300)).ppm_n == expected


@pytest.mark.parametrize(
    "more", [{"mounted": True}, {"medium": Medium.NONE}, {"medium": Medium.SEMI_HYDRO}]
)
@pytest.mark.parametrize(
    ("last", "expected"),
    [("05-06", 100), ("05-05", 150), ("05-02", 300), ("04-01", 300)],
)
def test_fed_at_every_watering_it_takes_its_share_of_the_days_since(
    more: dict[str, Any], last: str, expected: float
) -> None:
    one = grown(care=(fed(last),), **more)
    assert fed_at(one, house_at(300)).ppm_n == expected


def step_sentence(one: Plant, house: House = HOUSE) -> str:
    return wording.strength_sentence(judged(one, "05-08", house))


@pytest.mark.parametrize("care", [(), (fed("04-30"),)])
def test_an_own_interval_is_told_beside_the_houses(care: tuple[Care, ...]) -> None:
    told = step_sentence(grown(feed_interval_days=3, care=care))
    assert (
        "with feeds 3 days apart, where the house keeps 6 days, it takes 50 %" in told
    )


@pytest.mark.parametrize(("last", "ago"), [("05-07", "1 day"), ("05-05", "3 days")])
def test_at_every_watering_the_days_since_the_last_feed_are_told(
    last: str, ago: str
) -> None:
    told = step_sentence(grown(care=(fed(last),), mounted=True))
    assert f"fed again after {ago}, where the house keeps 6 days, it takes" in told
    assert "apart" not in step_sentence(grown(mounted=True))


def test_a_repot_of_months_ago_is_told_with_its_day() -> None:
    one = grown(
        "cattleya",
        look("05-05", new_growths=EXTENDING, root_tips=RootTips.NONE),
        repotted_on=day("2025-06-10"),
    )
    assert (
        "repotted on 10 June 2025 and without a root tip seen since, it takes half"
    ) in step_sentence(one)


def test_states_multiply() -> None:
    one = grown(size=Size.SEEDLING, medium=Medium.SPHAGNUM)
    assert fed_at(one, house_at(240)).ppm_n == 90


# -- floor, ceilings, rounding -----


def test_never_below_the_floor() -> None:
    weak = grown("tolumnia", size=Size.SEEDLING, full_strength_ppm_n=40)
    assert fed_at(weak).ppm_n == 30
    assert fed_at(weak, replace(HOUSE, strength_floor_ppm_n=20)).ppm_n == 20


def test_the_overall_ceiling() -> None:
    assert fed_at(grown("dendrobium-nobile"), house_at(500)).ppm_n == 400


def test_the_kinds_ceiling() -> None:
    strength = fed_at(grown("miltoniopsis"), house_at(400))
    assert strength.ppm_n == KINDS["miltoniopsis"].ceiling_ppm_n == 100
    assert any(step.key.startswith("ceiling-kind") for step in strength.steps)


def test_the_published_ceiling_of_odontoglossums() -> None:
    """Published: 80-100 ppm N, steady with growth."""
    assert fed_at(grown("odontoglossum"), house_at(300)).ppm_n == 100


@pytest.mark.parametrize("kind", ["masdevallia", "miltoniopsis", "phragmipedium"])
def test_our_careful_ceilings_are_marked_as_ours(kind: str) -> None:
    steps = fed_at(grown(kind), house_at(400)).steps
    assert "ceiling-kind-ours" in [step.key for step in steps]


@pytest.mark.parametrize("own", [60.0, 120.0])
def test_the_plants_own_ceiling(own: float) -> None:
    one = grown("cattleya", feed_ceiling_ppm_n=own)
    assert fed_at(one).ppm_n == own


def test_an_own_ceiling_overrides_the_kinds() -> None:
    one = grown("masdevallia", feed_ceiling_ppm_n=140)
    assert fed_at(one, house_at(300)).ppm_n == 140


def test_ceiling_beats_floor() -> None:
    one = grown(feed_ceiling_ppm_n=20)
    assert fed_at(one).ppm_n == 20


@pytest.mark.parametrize(
    ("full", "step", "expected"),
    [
        (154, 10, 150),
        (155, 10, 160),
        (145, 10, 150),
        (156, 10, 160),
        (162.5, 25, 175),
        (162.4, 25, 150),
        (151.5, 1, 152),
        (150, 1, 150),
    ],
)
def test_half_a_step_rounds_up(full: float, step: float, expected: float) -> None:
    assert fed_at(grown(), house_at(full, strength_step_ppm_n=step)).ppm_n == expected


@pytest.mark.parametrize(("ceiling", "expected"), [(155, 150), (159, 150), (160, 160)])
def test_rounding_never_passes_a_ceiling(ceiling: float, expected: float) -> None:
    one = grown(feed_ceiling_ppm_n=ceiling)
    assert fed_at(one, house_at(170)).ppm_n == expected


@pytest.mark.parametrize(
    ("full", "step", "expected"),
    [
        (24, 100, 30),
        (41, 100, 41),
        (49.9, 100, 49.9),
        (50, 100, 100),
        (40, 25, 50),
        (37, 25, 37),
        (24, 25, 30),
        (30, 1, 30),
    ],
)
def test_rounding_lifts_nothing_from_below_the_floor(
    full: float, step: float, expected: float
) -> None:
    """The floor is 30; a step below it is none, and the strength stands as it is."""
    strength = fed_at(grown(), house_at(full, strength_step_ppm_n=step))
    assert strength.ppm_n == pytest.approx(expected)
    rounded = "rounded" in [one.key for one in strength.steps]
    assert rounded is (expected not in (full, 30))


@given(st.floats(1, 400), st.floats(1, 400), st.floats(0, 100), st.floats(5, 400))
@example(1.0, 1.0, 6.0, 5.999999999999943)
def test_rounding_moves_half_a_step_at_most_and_keeps_floor_and_ceiling(
    full: float, step: float, floor: float, ceiling: float
) -> None:
    house = house_at(full, strength_step_ppm_n=step, strength_floor_ppm_n=floor)
    got = fed_at(grown(feed_ceiling_ppm_n=ceiling), house).ppm_n
    least = min(floor, ceiling)
    held = min(max(full, floor), ceiling)
    assert least <= got <= ceiling
    assert got <= held + step / 2 + 1e-6
    assert (
        got == held
        or got % step == pytest.approx(0, abs=1e-6)
        or (got % step == pytest.approx(step))
    )


def test_a_ceiling_under_the_step_holds_where_nothing_is_rounded() -> None:
    one = grown(feed_ceiling_ppm_n=45)
    assert fed_at(one, house_at(150, strength_step_ppm_n=100)).ppm_n == 45


def test_every_step_is_shown_and_leads_to_the_strength() -> None:
    one = plant("oncidium", moving("02-05"), medium=Medium.SPHAGNUM)
    strength = fed_at(one, house_at(300), "02-08")
    running = strength.steps[0].strength_ppm_n
    assert running == 300
    for step in strength.steps[1:]:
        if step.factor is not None:
            running *= step.factor
            assert step.strength_ppm_n == pytest.approx(running)
    assert strength.steps[-1].strength_ppm_n == strength.ppm_n


# -- litres -----


@pytest.mark.parametrize(
    ("more", "litres"),
    [
        ({"pot_volume_l": 1.5}, 0.375),
        ({"pot_volume_l": 1.5, "volume_l": 0.2}, 0.2),
        ({"volume_l": 0.5}, 0.5),
        ({}, None),
    ],
)
def test_a_plants_volume_is_its_own_else_a_quarter_of_its_pot(
    more: dict[str, Any], litres: float | None
) -> None:
    assert judged(grown(**more), "05-08").volume_l == litres


def test_the_share_of_the_pot_is_a_house_rule() -> None:
    house = replace(HOUSE, pot_share=0.5)
    assert judged(grown(pot_volume_l=2.0), "05-08", house).volume_l == 1.0
