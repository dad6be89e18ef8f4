from __future__ import annotations

from math import pi

import pytest
from msgspec.structs import replace

from growdesk.domain import rain
from growdesk.domain.case import Case
from growdesk.domain.facts import Care, CareKind, House, Medium, RootTips, Verdict
from tests.domain.builders import (
    EXTENDING,
    HOUSE,
    day,
    fed,
    judged,
    kind_of,
    look,
    plant,
)


def rained(on: str, mm: float | None) -> Care:
    return Care(day(on), CareKind.RAIN, rain_mm=mm)


@pytest.mark.parametrize(
    ("mm", "waters", "flushes"),
    [
        (None, True, False),
        (3.9, False, False),
        (4.0, True, False),
        (24.9, True, False),
        (25.0, True, True),
    ],
)
def test_rain_counts_by_how_much_fell(
    mm: float | None, waters: bool, flushes: bool
) -> None:
    care = rained("05-10", mm)
    assert rain.waters(care, HOUSE) is waters
    assert rain.flushes(care, HOUSE) is flushes
    assert rain.washes(care, HOUSE) is flushes


def test_the_limits_are_the_houses() -> None:
    house = House(rain_waters_mm=10, rain_flushes_mm=50)
    assert not rain.waters(rained("05-10", 9), house)
    assert not rain.flushes(rained("05-10", 49), house)
    assert rain.flushes(rained("05-10", 50), house)


def test_only_rain_is_rain() -> None:
    poured = Care(day("05-10"), CareKind.CLEAR_WATER, rain_mm=60)
    assert not rain.waters(poured, HOUSE)
    assert not rain.washes(poured, HOUSE)
    assert rain.washes(Care(day("05-10"), CareKind.FLUSH), HOUSE)


def test_a_pot_catches_what_falls_on_its_mouth() -> None:
    """A cylinder 10 cm wide and high holds 0.785 L; 10 mm on its mouth is 78.5 mL."""
    assert rain.caught_l(pi / 4, 10) == pytest.approx(0.0785, abs=1e-4)


def grower(*care: Care) -> Case:
    one = plant(
        "cattleya",
        look("05-18", new_growths=EXTENDING, root_tips=RootTips.RUNNING),
        care=care,
        pot_volume_l=1.0,
        medium=Medium.BARK,
    )
    return Case(one, kind_of(one), HOUSE, day("05-20"))


THREE = (fed("04-22", 100), fed("04-29", 100), fed("05-06", 100))


def test_a_downpour_begins_the_count_of_feeds_anew() -> None:
    due = judged(grower(*THREE).plant, "05-20")
    assert due.verdict is Verdict.FLUSH
    soaked = judged(grower(*THREE, rained("05-12", 30)).plant, "05-20")
    assert soaked.verdict is Verdict.FEED
    shower = judged(grower(*THREE, rained("05-12", 12)).plant, "05-20")
    assert shower.verdict is Verdict.FLUSH


def test_a_downpour_of_the_day_itself_is_what_was_done() -> None:
    assert judged(grower(*THREE, rained("05-20", 30)).plant, "05-20").verdict is (
        Verdict.FLUSH
    )


def test_salts_go_with_the_rain_that_fell() -> None:
    """From the flush on the estimate takes rain as the litres that the pot caught."""
    flush = Care(day("04-20"), CareKind.FLUSH)
    dry = grower(flush, *THREE).salts
    wet = grower(flush, *THREE, rained("05-12", 20)).salts
    wetter = grower(flush, *THREE, rained("05-12", 24)).salts
    assert dry is not None
    assert wet is not None
    assert wetter is not None
    assert wetter.ended.ec < wet.ended.ec < dry.ended.ec
    last = wet.course.waterings[-1]
    assert last.volume_l == pytest.approx(rain.caught_l(1.0, 20))


def test_burn_is_washed_out_by_a_downpour() -> None:
    from growdesk.domain.facts import Health  # noqa: PLC0415 -- for this one

    burnt = look(
        "05-01",
        new_growths=EXTENDING,
        root_tips=RootTips.RUNNING,
        health=frozenset({Health.SALT_BURN}),
    )
    one = grower().plant
    burning = replace(one, looks=(burnt,))
    assert judged(burning, "05-20").verdict is Verdict.FLUSH
    rinsed = replace(burning, care=(rained("05-10", 40),))
    assert judged(rinsed, "05-20").verdict is Verdict.FEED
