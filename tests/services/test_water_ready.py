"""Each round's waters: jugs and clear water, a blend's two, the barrel, the week."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import Look, NewGrowths, RootTips, Verdict
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_blend import pour
from growdesk.services import drawing_down
from growdesk.services.shelf import read_shelf
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.values import PlantDraft, WaterDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.values import MixPlan
    from tests.services.conftest import Bench


def mix_of(collection: Collection) -> MixPlan:
    return collection.day.view().mix


def test_jugs_and_clear_water_are_of_the_water_in_use(
    collection: Collection, bench: Bench
) -> None:
    del bench
    mix = mix_of(collection)
    (need,) = mix.waters
    assert need.kind == "rain"
    assert need.jugs_l == pytest.approx(
        math.fsum(jug.volume_l + jug.spare_l for jug in mix.jugs)
    )
    assert need.clear_l == pytest.approx(mix.clear_l)
    assert need.clear_l > 0
    assert need.spare_l >= 0.05
    assert mix.poured_from == ()


def test_a_blend_in_use_takes_of_its_two(collection: Collection, bench: Bench) -> None:
    del bench
    rain = collection.waters.all()[0].water_id
    tap = collection.waters.add(
        WaterDraft("tap", 0.6, in_use=False, alkalinity_mg_per_l=200)
    ).ids[0]
    before = mix_of(collection).waters[0]
    collection.waters.add(
        WaterDraft(
            "blend",
            name="soft",
            first_id=tap,
            second_id=rain,
            aim="alkalinity",
            aim_value=50.0,
        )
    )
    mix = mix_of(collection)
    litres = {need.key: need.jugs_l + need.clear_l for need in mix.waters}
    whole = before.jugs_l + before.clear_l
    assert litres == pytest.approx({tap: 0.25 * whole, rain: 0.75 * whole})
    assert mix.water == "soft"
    assert {need.blended for need in mix.waters} == {"soft"}
    (jug,) = mix.jugs
    volume_l = jug.volume_l + jug.spare_l
    poured = pour(volume_l, 0.25)
    assert jug.mixing[0] == (
        f"For {volume_text(volume_l)}: {volume_text(poured.first_l)} of tap water and "
        f"{volume_text(poured.second_l)} of rain water."
    )
    assert mix.clear_blend.startswith("For ")
    assert mix.clear_blend.endswith(" of rain water.")
    assert sum(need.into_blend_l for need in mix.waters) == pytest.approx(
        sum(need.ready_l for need in mix.waters)
    )
    assert mix.remarks == ()
    collection.waters.change(
        tap, WaterDraft("tap", 0.6, in_use=False, alkalinity_mg_per_l=20)
    )
    now = mix_of(collection).remarks
    assert any(each.startswith("50 mg/L cannot be had") for each in now)


def test_what_a_round_has_ready_is_what_its_ticks_take(
    collection: Collection, bench: Bench, today: date
) -> None:
    mix = mix_of(collection)
    (need,) = mix.waters
    with collection.ledger.reading() as session:
        shelf = read_shelf(session)
    uses = drawing_down.of_round(mix, shelf)
    good = Good(Sort.WATER, need.key)
    assert uses[good] == pytest.approx(need.volume_l - need.spare_l)
    collection.day.tick([bench.feed, bench.clear], today)
    with collection.ledger.reading() as session:
        taken = read_shelf(session).record.taken_on(good, today)
    assert taken <= uses[good] + 1e-9


def test_where_the_tap_is_too_salty_clear_water_is_rain(
    collection: Collection, bench: Bench, today: date
) -> None:
    rain = collection.waters.all()[0].water_id
    tap = collection.waters.add(WaterDraft("tap", 1.7)).ids[0]
    detail = collection.day.detail(bench.feed, today)
    look = detail.looks[0].look
    collection.looks.record(
        bench.feed, replace(look, on=today, runoff_ec_ms_per_cm=3.5)
    )
    line = next(
        line for line in collection.day.view().lines if line.plant_id == bench.feed
    )
    assert line.verdict is Verdict.CLEAR_WATER
    mix = mix_of(collection)
    assert mix.poured_from == (("A1", rain),)
    litres = {need.key: need for need in mix.waters}
    assert litres[rain].clear_l > 0
    assert litres[tap].clear_l + litres[rain].clear_l == pytest.approx(mix.clear_l)
    collection.stocktaking.write(
        EntryDraft(Good(Sort.WATER, rain), today, What.COUNTED, 10, after_round=False)
    )
    collection.day.tick([bench.feed], today)
    with collection.ledger.reading() as session:
        record = read_shelf(session).record
    hand = record.on_hand(Good(Sort.WATER, rain), today)
    assert hand is not None
    assert hand.there == pytest.approx(10 - litres[rain].clear_l)


def test_the_sheet_says_what_to_have_ready_for_the_week(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    rain = collection.waters.all()[0].water_id
    collection.waters.change(rain, WaterDraft("rain", 0.02, capacity_l=120))
    (plain,) = collection.sheet.week(today).waters
    assert " of rain water for " in plain
    assert "barrel" not in plain
    collection.waters.add(WaterDraft("tap", 0.4, in_use=False))
    collection.stocktaking.write(
        EntryDraft(Good(Sort.WATER, rain), today, What.COUNTED, 0.1, after_round=False)
    )
    (short,) = collection.sheet.week(today).waters
    assert "; 100 mL in the barrel: fill it, or take " in short
    assert short.endswith(" of tap water.")
    assert collection.sheet.week(today).rounds[0].mix.waters[0].key == rain


def test_a_jug_says_where_its_water_takes_it_past_a_pot_s_limit(
    collection: Collection, bench: Bench
) -> None:
    del bench

    def warned(ec_ms_per_cm: float) -> list[str]:
        rain = collection.waters.all()[0].water_id
        collection.waters.change(rain, WaterDraft("tap", ec_ms_per_cm))
        (jug,) = mix_of(collection).jugs
        return [each for each in jug.warnings if "most sensitive pot" in each]

    assert warned(0.1) == []
    (said,) = warned(1.35)
    assert said.startswith("With this water the jug reads 1.55 mS/cm or more")
    assert "over the 1.5 that its most sensitive pot may read; 1.35 of it" in said
    (said,) = warned(1.6)
    assert said.startswith("The water alone reads 1.6 mS/cm")


def test_a_blend_is_told_in_litres_on_its_jugs_and_down_the_ladder(
    collection: Collection, bench: Bench, today: date
) -> None:
    tap = collection.waters.add(
        WaterDraft("tap", 0.6, in_use=False, alkalinity_mg_per_l=200)
    ).ids[0]
    blend = WaterDraft(
        "blend", name="soft", first_id=1, second_id=tap, aim="share", aim_value=0.75
    )
    collection.waters.add(blend)
    weak = PlantDraft(
        "W1",
        "Cattleya",
        "cattleya",
        place_id=bench.place,
        pot_volume_l=4.0,
        full_strength_ppm_n=40.0,
    )
    look = Look(today, new_growths=NewGrowths(extending=1), root_tips=RootTips.RUNNING)
    collection.looks.record(collection.plants.add(weak).ids[0], look)
    mix = collection.day.view(today).mix
    for jug in mix.jugs:
        (litres,) = jug.of_two
        assert litres in jug.mixing
        assert litres.startswith("For ")
        assert "of rain water and" in litres
        assert litres.endswith("of tap water.")
    poured = next(step for step in mix.ladder if step.startswith("Pour "))
    added = re.search(r"add (.+? m?L) of soft to make", poured)
    assert added is not None
    assert f"For {added[1]}: " in poured
    assert mix.ladder[0].count("of tap water.") == 1
