"""The quick mix: texts as typed become what is measured, and slips name their field."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.services.quick_values import QuickAsk, QuickLine
from growdesk.services.values import TinDraft, WaterDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from growdesk.services.quick_values import QuickMix

PLAIN = QuickAsk((QuickLine("20-20-20"),), "150 ppm N", "5 L")


def answered(collection: Collection, ask: QuickAsk = PLAIN) -> QuickMix:
    return collection.mixing.quick(ask)


def test_one_label_is_answered_as_it_is_typed(collection: Collection) -> None:
    mix = answered(collection, replace(PLAIN, water_ec="0.3 mS/cm"))
    (dose,) = mix.doses
    assert dose.amount == pytest.approx(3.75)
    assert dose.unit == "g"
    assert mix.gives_mg_per_l == pytest.approx(150.0)
    assert dict(mix.elements_mg_per_l)["N"] == pytest.approx(150.0)
    assert dict(mix.oxides_mg_per_l)["P2O5"] == pytest.approx(150.0)
    assert mix.ec_low_ms_per_cm is not None
    assert mix.ec_low_ms_per_cm > 0.3
    assert mix.understood == (
        "20-20-20 at 150 mg N per litre in 5 L; EC of the water 0.3 mS/cm."
        " Here ppm means milligrams per litre of solution."
    )


def test_a_liquid_is_measured_in_millilitres(collection: Collection) -> None:
    line = QuickLine("3-1-5", "1.2 g/mL")
    ask = QuickAsk((line,), "100 ppm N", "1.5 gal")
    mix = answered(collection, ask)
    (dose,) = mix.doses
    assert mix.volume_l == pytest.approx(5.678, abs=0.001)
    assert dose.unit == "mL"
    assert dose.amount == pytest.approx(dose.mass_g / 1.2)
    assert "1.2 g/mL" in mix.understood
    bare = replace(ask, lines=(replace(line, density=" 1.2"),), water_ec="0.3 ")
    assert answered(collection, bare) == answered(
        collection, replace(ask, water_ec="0.3 mS/cm")
    )


def test_several_products_are_mixed_by_parts_and_by_their_own_strength(
    collection: Collection,
) -> None:
    lines = (
        QuickLine("13-3-15 + 8 Ca + 2 Mg", amount="2 parts"),
        QuickLine("15.5-0-0 Ca 19", amount="1"),
        QuickLine("Mg 9.86 S 13", amount="20 ppm Mg"),
    )
    mix = answered(collection, QuickAsk(lines, "120 ppm N", "10 L"))
    base, calcium, epsom = (dose.given_g for dose in mix.doses)
    assert base == pytest.approx(2 * calcium)
    assert epsom == pytest.approx(10 * 20 / 98.6)
    assert dict(mix.elements_mg_per_l)["N"] == pytest.approx(120.0)
    assert mix.understood.startswith(
        "2 parts 13-3-15 + 8 Ca + 2 Mg, 1 part 15.5-0-0 + 19 Ca, "
        "0-0-0 + 9.86 Mg + 13 S for 20 mg Mg per litre, together 120 mg N per litre"
    )


def test_what_the_scale_shows_decides_what_comes_out(collection: Collection) -> None:
    mix = answered(collection, replace(PLAIN, volume="1 L", step="0.1"))
    (dose,) = mix.doses
    assert dose.amount == pytest.approx(0.8)
    assert mix.gives_mg_per_l == pytest.approx(160.0)
    assert any("off by 7 %" in warning for warning in mix.warnings)
    fine = answered(collection, replace(PLAIN, volume="1 L", step="0.01 g"))
    assert fine.doses[0].amount == pytest.approx(0.75)
    assert fine.warnings == answered(collection).warnings


def test_products_and_waters_come_off_the_shelf(collection: Collection) -> None:
    tin_id = collection.mixing.add_tin(TinDraft("Blue", "20-20-20")).ids[0]
    draft = WaterDraft("tap", 0.4, no3_mg_per_l=44.2665)
    water_id = collection.waters.add(draft).ids[0]
    ask = replace(PLAIN, lines=(QuickLine(pick=f"tin:{tin_id}"),), water_id=water_id)
    mix = answered(collection, ask)
    (dose,) = mix.doses
    assert dose.product.name == "Blue"
    assert dose.given_g == pytest.approx(5 * 140 / 200, rel=1e-3)
    assert dict(mix.elements_mg_per_l)["N"] == pytest.approx(150.0)
    assert "EC of the water 0.4 mS/cm" in mix.understood
    collection.mixing.remove_tin(tin_id)
    with pytest.raises(InputError, match="not on the shelf") as caught:
        answered(collection, ask)
    assert caught.value.field == "pick"


@pytest.mark.parametrize(
    ("ratio", "litres", "ml_per_l"),
    [("1 in 100", 0.05, 10.0), ("1 + 100", 5 / 101, 1000 / 101), ("2 %", 0.1, 20.0)],
)
def test_a_concentrate_is_the_same_made_up_to_less(
    collection: Collection, ratio: str, litres: float, ml_per_l: float
) -> None:
    told = answered(collection, replace(PLAIN, ratio=ratio)).concentrate
    assert told is not None
    assert told.volume_l == pytest.approx(litres)
    assert told.ml_per_l == pytest.approx(ml_per_l)
    assert answered(collection).concentrate is None


def test_a_single_salt_is_known_by_its_atoms(collection: Collection) -> None:
    line = QuickLine(pick="salt:MgSO4.7H2O")
    mix = answered(collection, QuickAsk((line,), "20 ppm Mg", "5 L"))
    (dose,) = mix.doses
    assert dose.mass_g == pytest.approx(5 * 20 / 98.61, rel=1e-3)
    assert dose.product.name == "magnesium sulphate"
    assert mix.understood.startswith("magnesium sulphate at 20 mg Mg")


def test_calcium_and_sulphate_are_no_concentrate_but_a_fine_feed(
    collection: Collection,
) -> None:
    lines = (
        QuickLine(pick="salt:Ca(NO3)2.4H2O"),
        QuickLine(pick="salt:MgSO4.7H2O", amount="30 ppm Mg"),
    )
    ask = QuickAsk(lines, "100 ppm N", "10 L", ratio="1 in 100")
    mix = answered(collection, ask)
    told = mix.concentrate
    assert told is not None
    (why,) = told.refused
    assert "fall out as gypsum in one bottle" in why
    assert told.way_out[0].startswith("Make two bottles: ")
    assert mix.warnings == ()
    one = answered(collection, replace(ask, lines=lines[:1])).concentrate
    assert one is not None
    assert one.refused == ()


def test_the_house_says_how_cool_a_concentrate_stands(collection: Collection) -> None:
    line = QuickLine(pick="salt:KNO3")
    ask = QuickAsk((line,), "250 ppm N", "10 L", ratio="1 in 100")
    warm = answered(collection, ask).concentrate
    house = collection.settings.house()
    collection.settings.save_house(replace(house, stock_coolest_c=5.0))
    cool = answered(collection, ask).concentrate
    assert warm is not None
    assert cool is not None
    assert warm.refused == ()
    assert cool.refused != ()


def test_a_ratio_that_means_two_things_is_asked_back(collection: Collection) -> None:
    with pytest.raises(InputError) as caught:
        answered(collection, replace(PLAIN, ratio="1:100"))
    assert caught.value.field == "ratio"
    assert '"1 in 100"' in caught.value.hint
    assert '"1 + 100"' in caught.value.hint


def second(**typed: str) -> tuple[QuickLine, ...]:
    return (QuickLine("20-20-20"), replace(QuickLine("Mg 9.9"), **typed))


@pytest.mark.parametrize(
    ("ask", "field"),
    [
        (replace(PLAIN, lines=(QuickLine("50-60-20"),)), "analysis"),
        (replace(PLAIN, target="lots"), "target"),
        (replace(PLAIN, volume="-5 L"), "volume"),
        (replace(PLAIN, volume="5"), "volume"),
        (replace(PLAIN, lines=(QuickLine("20-20-20", "heavy"),)), "density"),
        (replace(PLAIN, water_ec="salty"), "water_ec"),
        (replace(PLAIN, step="coarse"), "step"),
        (replace(PLAIN, step="1 mL"), "step"),
        (replace(PLAIN, ratio="plenty"), "ratio"),
        (replace(PLAIN, lines=(QuickLine("20-20-20", amount="some"),)), "amount"),
        (replace(PLAIN, lines=second(analysis="x")), "analysis_2"),
        (replace(PLAIN, lines=second(density="x")), "density_2"),
        (replace(PLAIN, lines=second(amount="x")), "amount_2"),
        (replace(PLAIN, lines=second(amount="5 ppm Ca")), "amount_2"),
    ],
)
def test_what_cannot_be_read_is_named(
    collection: Collection, ask: QuickAsk, field: str
) -> None:
    with pytest.raises(InputError) as caught:
        answered(collection, ask)
    assert caught.value.field == field
