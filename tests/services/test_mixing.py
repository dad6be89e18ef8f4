"""Mixing: jugs from verdicts, the shelf behind them, and the free calculator."""

from __future__ import annotations

import json
import re
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import DamagedError, InputError
from growdesk.domain.explain import Judgement, Strength
from growdesk.domain.facts import House, Plant, Verdict, Water
from growdesk.services.house_rules import DECLARED
from growdesk.services.planning import mix_plan, pour_l
from growdesk.services.shelf import Shelf
from growdesk.services.values import (
    Changed,
    MixPlan,
    SettingKind,
    TinDraft,
    WaterDraft,
    WaterView,
)
from growdesk.store.schema import SettingRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

ON = date(2026, 5, 20)
HOUSE = House()
GREEN = TinDraft("Green tin", "20-20-20")


def judged(
    tag: str,
    verdict: Verdict,
    *,
    ppm_n: tuple[float, float] = (150.0, 400.0),
    round_l: float | None = 0.4,
    pot_l: float | None = None,
    water: Water = Water.THROUGH,
) -> tuple[Plant, Judgement]:
    """Give a plant and a judgement; ``ppm_n`` is its strength and its ceiling."""
    strength = Strength(*ppm_n, ()) if verdict is Verdict.FEED else None
    plant = Plant(tag, volume_l=round_l, pot_volume_l=pot_l)
    volume = None if water is Water.NONE else round_l
    judgement = Judgement(
        tag, "", ON, verdict, water, "rule", strength, volume, reasons=()
    )
    return plant, judgement


def plan(*pairs: tuple[Plant, Judgement], shelf: Shelf | None = None) -> MixPlan:
    return mix_plan(pairs, HOUSE, shelf or Shelf(GREEN, WaterDraft("rain")))


def test_a_jug_is_dosed_with_its_spare_counted_in() -> None:
    mix = plan(judged("A1", Verdict.FEED, round_l=2.0), judged("A2", Verdict.FEED))
    (jug,) = mix.jugs
    assert jug.tags == ("A1", "A2")
    assert jug.volume_l == pytest.approx(2.4)
    assert jug.spare_l == pytest.approx(0.12)
    # 150 mg N/L from 20 % N is 0.75 g of product a litre
    (dose,) = jug.doses
    assert dose.given_g == pytest.approx(0.75 * 2.52)
    assert dose.unit == "g"
    assert dict(jug.elements_mg_per_l)["N"] == pytest.approx(150.0)
    assert (dose.product.name, mix.tin) == ("Green tin", "Green tin")
    assert mix.water == "rain"
    assert jug.warnings == ()


def test_a_small_jug_has_fifty_millilitres_spare() -> None:
    (jug,) = plan(judged("A1", Verdict.FEED, round_l=0.2)).jugs
    assert jug.spare_l == pytest.approx(0.05)


def test_a_liquid_is_given_in_millilitres() -> None:
    shelf = Shelf(TinDraft("Bottle", "3-1-5", 1.2), WaterDraft("RO"))
    (jug,) = plan(judged("A1", Verdict.FEED, round_l=2.0), shelf=shelf).jugs
    # 150 mg/L from 3 % is 5 g/L; with the spare 2.1 L
    (dose,) = jug.doses
    assert dose.given_g == pytest.approx(10.5)
    assert dose.amount == pytest.approx(8.75)
    assert dose.unit == "mL"


def test_the_ladder_adds_up_with_the_spare_and_weighs_its_first_jug() -> None:
    mix = plan(
        judged("A1", Verdict.FEED, ppm_n=(200.0, 400.0), round_l=2.0),
        judged("B1", Verdict.FEED, ppm_n=(50.0, 400.0), round_l=1.0),
    )
    assert [jug.letter for jug in mix.jugs] == ["A", "B"]
    first, second = mix.ladder
    strong, weak = (jug.strength_ppm_n for jug in mix.jugs)
    kept = 1.05 * weak / strong
    litres = float(re.findall(r"Mix ([0-9.]+) L", first)[0])
    assert litres == pytest.approx(2.1 + kept, abs=0.01)
    grams = float(re.findall(r"takes ([0-9.]+) g of Green tin", first)[0])
    assert grams == pytest.approx(litres * strong / 200, rel=0.01)
    assert "Green tin" not in second


def test_without_a_tin_the_jugs_stand_without_a_mass() -> None:
    mix = plan(judged("A1", Verdict.FEED), shelf=Shelf())
    (jug,) = mix.jugs
    assert (jug.doses, mix.tin, mix.water) == ((), None, None)
    assert jug.ec_low_ms_per_cm is None
    assert jug.elements_mg_per_l == ()
    assert len(mix.ladder) == 1


def test_a_tin_without_nitrogen_says_so_on_the_jug() -> None:
    shelf = Shelf(TinDraft("Bloom salt", "0-52-34"))
    (jug,) = plan(judged("A1", Verdict.FEED), shelf=shelf).jugs
    assert jug.doses == ()
    assert jug.warnings[0].startswith("Bloom salt cannot make this jug.")


@pytest.mark.parametrize(
    ("water", "house_ec", "added"),
    [
        (WaterDraft("tap", 0.4), 0.0, 0.4),
        (WaterDraft("tap", 0.4), 0.9, 0.4),
        (WaterDraft("rain"), 0.9, 0.0),
        (WaterDraft("RO"), 0.0, 0.0),
        (WaterDraft("tap"), 0.9, 0.9),
        (WaterDraft("tap"), 0.0, None),
        (None, 0.0, None),
    ],
)
def test_the_waters_ec_is_in_the_figure_or_said_to_be_missing(
    water: WaterDraft | None, house_ec: float, added: float | None
) -> None:
    house = replace(HOUSE, water_ec_ms_per_cm=house_ec)
    pairs = [judged("A1", Verdict.FEED, ppm_n=(100.0, 400.0))]
    (jug,) = mix_plan(pairs, house, Shelf(GREEN, water)).jugs
    (pure,) = mix_plan(pairs, house, Shelf(GREEN, WaterDraft("RO"))).jugs
    for ec, of_feed in (
        (jug.ec_low_ms_per_cm, pure.ec_low_ms_per_cm),
        (jug.ec_high_ms_per_cm, pure.ec_high_ms_per_cm),
    ):
        assert ec is not None
        assert of_feed is not None
        # In company ions carry a twelfth less, and the band widens with the figure.
        assert ec - of_feed == pytest.approx(added or 0.0, rel=0.13)
    assert bool(jug.notes) == (added is None)


def test_clear_water_counts_sparing_half_and_a_flush_by_the_pot() -> None:
    mix = plan(
        judged("A1", Verdict.CLEAR_WATER, water=Water.IF_DRY),
        judged("A2", Verdict.CLEAR_WATER, water=Water.SPARING),
        judged("A3", Verdict.CLEAR_WATER, water=Water.NONE),
        judged("A4", Verdict.FLUSH, pot_l=3.0),
        judged("A5", Verdict.FLUSH),
        judged("A6", Verdict.KEEP_DRY, water=Water.NONE),
        judged("A7", Verdict.LOOK_FIRST, water=Water.IF_DRY),
        judged("A8", Verdict.CLEAR_WATER, round_l=None),
    )
    assert mix.clear_l == pytest.approx(0.4 + 0.2)
    assert mix.flush_l == pytest.approx(3.0 + 1.6)
    shelf = Shelf(water=WaterDraft("rain"), water_id=1)
    shelf = replace(shelf, waters=(WaterView(1, WaterDraft("rain")),))
    (need,) = plan(judged("A4", Verdict.FLUSH, pot_l=3.0), shelf=shelf).waters
    assert (need.flush_l, need.spare_l) == (3.0, 0.15), "a twentieth to spare"
    assert mix.volume_unknown == ("A8",)
    assert mix.jugs == ()


def test_a_plant_without_a_volume_is_in_a_jug_and_named() -> None:
    mix = plan(judged("A1", Verdict.FEED, round_l=None), judged("A2", Verdict.FEED))
    (jug,) = mix.jugs
    assert jug.tags == ("A1", "A2")
    assert jug.volume_l == pytest.approx(0.4)
    assert mix.volume_unknown == ("A1",)
    (alone,) = plan(judged("A1", Verdict.FEED, round_l=None)).jugs
    assert (alone.volume_l, alone.spare_l, alone.doses) == (0.0, 0.0, ())


def test_a_strength_no_jug_can_have_is_named_and_stops_nothing() -> None:
    mix = plan(
        judged("A1", Verdict.FEED, ppm_n=(0.0, 400.0)),
        judged("A2", Verdict.FEED, ppm_n=(150.0, 0.4)),
    )
    assert mix.jugs == ()
    assert mix.outside_band == ("A1", "A2")


def test_too_few_jugs_name_who_is_outside_the_band() -> None:
    pairs = [
        judged(f"A{n}", Verdict.FEED, ppm_n=(ppm_n, 400.0))
        for n, ppm_n in enumerate((40.0, 100.0, 250.0))
    ]
    assert len(mix_plan(pairs, HOUSE, Shelf()).jugs) == 3
    assert mix_plan(pairs, HOUSE, Shelf()).outside_band == ()
    one = mix_plan(pairs, replace(HOUSE, jugs=1), Shelf())
    assert len(one.jugs) == 1
    assert one.outside_band
    assert mix_plan(pairs, HOUSE, Shelf()).one_more is None


def test_what_one_jug_more_would_do_is_the_plan_with_one_jug_more() -> None:
    pairs = [
        judged(f"A{n}", Verdict.FEED, ppm_n=(ppm_n, 400.0))
        for n, ppm_n in enumerate((40.0, 100.0, 250.0))
    ]
    for jugs, left in ((1, 1), (2, 0)):
        fewer = mix_plan(pairs, replace(HOUSE, jugs=jugs), Shelf())
        more = mix_plan(pairs, replace(HOUSE, jugs=jugs + 1), Shelf())
        assert fewer.one_more is not None
        assert fewer.one_more.strengths_ppm_n == tuple(
            jug.strength_ppm_n for jug in more.jugs
        )
        assert fewer.one_more.outside_band == more.outside_band
        assert fewer.one_more.fewest == 3
        assert bool(more.outside_band) == bool(left)


@pytest.mark.parametrize(
    ("verdict", "water", "poured"),
    [
        (Verdict.FEED, Water.THROUGH, 0.25),
        (Verdict.CLEAR_WATER, Water.SPARING, 0.15),
        (Verdict.FLUSH, Water.THROUGH, 1.0),
        (Verdict.KEEP_DRY, Water.NONE, None),
    ],
)
def test_what_is_poured_follows_the_verdict(
    verdict: Verdict, water: Water, poured: float | None
) -> None:
    plant, judgement = judged("A1", verdict, round_l=None, pot_l=1.0, water=water)
    assert pour_l(plant, judgement, HOUSE) == poured


def add(collection: Collection, draft: TinDraft | WaterDraft) -> None:
    if isinstance(draft, TinDraft):
        collection.mixing.add_tin(draft)
    else:
        collection.waters.add(draft)


def test_exactly_one_tin_is_in_use(collection: Collection) -> None:
    def in_use() -> list[str]:
        return [t.draft.name for t in collection.mixing.tins() if t.draft.in_use]

    mixing = collection.mixing
    one = mixing.add_tin(replace(GREEN, in_use=False)).ids[0]
    assert in_use() == ["Green tin"]
    two = mixing.add_tin(TinDraft("Bottle", "3-1-5", 1.2)).ids[0]
    assert in_use() == ["Bottle"]
    three = mixing.add_tin(TinDraft("Salt", "13-0-46", in_use=False)).ids[0]
    assert in_use() == ["Bottle"]
    assert mixing.use_tin(one).changed == Changed.SHELF
    assert in_use() == ["Green tin"]
    mixing.change_tin(three, TinDraft("Salt", "13-0-46"))
    assert in_use() == ["Salt"]
    assert mixing.tins()[0].tin_id == three
    assert mixing.remove_tin(three).title == "Tin Salt removed"
    assert in_use() == []
    collection.history.undo()
    assert in_use() == ["Salt"]
    with pytest.raises(InputError, match="not there any more"):
        mixing.use_tin(99)
    assert {t.tin_id for t in mixing.tins()} == {one, two, three}


def test_waters_are_kept_the_same_way(collection: Collection) -> None:
    waters = collection.waters
    tap = waters.add(WaterDraft("tap", 0.45, note="hard")).ids[0]
    rain = waters.add(WaterDraft("rain", in_use=False)).ids[0]
    assert waters.all()[0].draft == WaterDraft("tap", 0.45, note="hard")
    waters.use(rain)
    assert [w.draft.in_use for w in waters.all()] == [True, False]
    waters.change(tap, WaterDraft("tap", 0.5, in_use=False))
    waters.remove(rain)
    (view,) = waters.all()
    assert view.draft == WaterDraft("tap", 0.5, in_use=False)
    with pytest.raises(InputError, match="not there any more"):
        waters.remove(rain)


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (TinDraft(" ", "20-20-20"), "name"),
        (TinDraft("Tin", "50-40-30"), "analysis"),
        (TinDraft("Tin", "strong"), "analysis"),
        (TinDraft("Tin", "20-20-20", -1.0), None),
        (WaterDraft(""), "kind"),
        (WaterDraft("tap", -0.1), "ec_ms_per_cm"),
        (WaterDraft("tap", float("nan")), "ec_ms_per_cm"),
    ],
)
def test_an_impossible_tin_or_water_is_named(
    collection: Collection, draft: TinDraft | WaterDraft, field: str | None
) -> None:
    with pytest.raises(InputError) as caught:
        add(collection, draft)
    assert field is None or caught.value.field == field
    assert collection.mixing.tins() == ()
    assert collection.waters.all() == ()


def test_the_waters_ec_is_a_fact_of_the_judging(
    collection: Collection, bench: Bench
) -> None:
    del bench
    (before,) = collection.day.view().mix.jugs
    collection.waters.add(WaterDraft("tap", 0.4))
    (jug,) = collection.day.view().mix.jugs
    assert before.ec_low_ms_per_cm is not None
    assert jug.ec_low_ms_per_cm is not None
    gained = jug.ec_low_ms_per_cm - before.ec_low_ms_per_cm
    assert gained == pytest.approx(0.4, rel=0.2)


def test_settings_keep_only_what_was_given(collection: Collection) -> None:
    settings = collection.settings
    assert settings.house() == House()
    done = settings.save_house(replace(House(), jugs=2))
    assert done.changed == Changed.HOUSE
    assert done.title == "House rule changed: Jugs"
    assert settings.house() == replace(House(), jugs=2)
    assert settings.is_set("jugs")
    assert not settings.is_set("latitude")
    settings.save_house(settings.house())
    assert settings.is_set("latitude")
    many = replace(House(), latitude=-33.5, no_nitrogen_from=(9, 1), jugs=4)
    assert settings.save_house(many).title == "3 house rules changed"
    assert settings.house() == many
    collection.history.undo()
    assert settings.house() == replace(House(), jugs=2)
    settings.save_house(settings.house(), given=["rooted_mm"])
    assert settings.is_set("rooted_mm")


@pytest.mark.parametrize(
    ("rule", "value"),
    [
        ("latitude", 90.5),
        ("latitude", float("nan")),
        ("full_strength_ppm_n", 0.0),
        ("strength_step_ppm_n", 0.0),
        ("strength_floor_ppm_n", 401.0),
        ("strength_ceiling_ppm_n", -1.0),
        ("jugs", 0),
        ("jugs", 27),
        ("jugs", 2.5),
        ("look_limit_days", 0),
        ("band_low", 1.0),
        ("band_high", float("inf")),
        ("pot_share", 1.5),
        ("resume_root_mm", -80.0),
        ("watering_weekdays", ()),
        ("watering_weekdays", (7,)),
        ("no_nitrogen_from", (2, 30)),
        ("still_green_after", (13, 1)),
        ("spike_draws_feed_always", "yes"),
        ("water_ec_ms_per_cm", -0.1),
    ],
)
def test_an_impossible_rule_is_named_and_not_kept(
    collection: Collection, rule: str, value: object
) -> None:
    slip = replace(House(), **{rule: value})
    with pytest.raises(InputError) as caught:
        collection.settings.save_house(slip)
    assert caught.value.field == rule
    assert collection.settings.house() == House()


def test_the_floor_may_not_pass_the_ceiling(collection: Collection) -> None:
    slip = replace(House(), strength_floor_ppm_n=200.0, strength_ceiling_ppm_n=150.0)
    with pytest.raises(InputError, match="above the ceiling"):
        collection.settings.save_house(slip)


def test_every_rule_of_the_house_is_declared_once(collection: Collection) -> None:
    keys = [setting.key for setting in collection.settings.declared()]
    assert sorted(keys) == sorted(House.__struct_fields__)
    for setting in DECLARED:
        default = getattr(House(), setting.key)
        assert setting.title
        assert setting.text.endswith(".")
        assert setting.optional == (default is None)
        if setting.kind in {SettingKind.INT, SettingKind.FLOAT}:
            assert setting.minimum is not None
            assert setting.maximum is not None
            value = setting.minimum if default is None else default
            assert setting.minimum <= value <= setting.maximum


def test_words_are_kept(collection: Collection) -> None:
    settings = collection.settings
    assert settings.word("name", "none yet") == "none yet"
    settings.set_word("name", "Mill Lane")
    settings.set_word("name", "Müllers Orchideen")
    assert settings.word("name") == "Müllers Orchideen"
    assert settings.is_set("name")
    with pytest.raises(InputError):
        settings.set_word("name", "x" * 20_000)


def test_a_rule_damaged_in_the_file_is_damage_not_a_traceback(
    collection: Collection,
) -> None:
    with collection.ledger.writing("Damage") as writing:
        values = {"key": "jugs", "value": json.dumps("many")}
        writing.insert(SettingRow, values)
    with pytest.raises(DamagedError, match="cannot be read"):
        collection.settings.house()


def test_a_day_of_many_jugs_stays_inside_every_band(
    collection: Collection, bench: Bench, today: date
) -> None:
    draft = collection.plants.get(bench.feed)
    look = collection.looks.start(bench.feed, today)
    for number, full in enumerate((60.0, 110.0, 160.0, 240.0, 330.0)):
        plant = collection.plants.add(
            replace(draft, tag=f"S{number}", full_strength_ppm_n=full, bench=None)
        ).ids[0]
        collection.looks.record(plant, replace(look, on=today - timedelta(days=1)))
    collection.settings.save_house(replace(House(), jugs=6))
    view = collection.day.view()
    strengths = {jug.letter: jug.strength_ppm_n for jug in view.mix.jugs}
    fed = [found for found in view.lines if found.verdict is Verdict.FEED]
    assert len(fed) == 6
    for found in fed:
        assert found.letter is not None
        assert found.strength_ppm_n is not None
        ratio = strengths[found.letter] / found.strength_ppm_n
        assert 0.75 - 1e-9 <= ratio <= 1.10 + 1e-9
    assert view.mix.outside_band == ()
