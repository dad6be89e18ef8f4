"""How jugs are mixed, in whole sentences."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain import mix_words
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.batches import Batch
from growdesk.domain.fills import Fill, fills
from growdesk.domain.ladder import ladder
from growdesk.domain.measuring import Measured, Tool, ToolKind, measured
from growdesk.domain.mixing_order import in_order
from growdesk.domain.mixing_ways import Loss, Ways
from growdesk.domain.phrases import number_word
from growdesk.domain.product import Product
from growdesk.domain.vessels import Vessel, VesselKind

BUCKET = Vessel(VesselKind.JUG, "Bucket", 4.0)
JUG = Vessel(VesselKind.JUG, "White jug", 4.0, step_ml=200)
CAN = Vessel(VesselKind.CAN, "Long-spouted can", 2.5)
TIN = Product("Green tin", parse_analysis("20-20-20"))
CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 + 19 Ca"))
EPSOM = Product("Epsom salt", parse_analysis("0-0-0 + 9.8 Mg + 13 S"))


def doses(*products: Product) -> list[Measured]:
    return [measured(product, 1.0) for product in products]


def test_mixes_are_told_by_size() -> None:
    assert mix_words.several(fills(10.2, [BUCKET])) == (
        "Mix it in parts, each with its own dose: two mixes of 4 L and one of 2.2 L."
    )
    assert mix_words.several(fills(6.2, [BUCKET])) == (
        "Mix it in parts, each with its own dose: one mix of 4 L and one of 2.2 L."
    )
    assert mix_words.several(fills(10.2, [JUG])) == (
        "Mix it in parts, each with its own dose: three mixes of 3.4 L."
    )
    assert mix_words.several(fills(3.0, [JUG])) == ""
    assert mix_words.several(()) == ""


def test_cans_a_jug_without_a_scale_and_what_stays_over_are_told() -> None:
    assert mix_words.remarks(fills(3.0, [JUG, CAN]), 0.0, CAN.name) == (
        "Carry it out as two canfuls, with the long-spouted can.",
    )
    several = mix_words.remarks(fills(8.0, [JUG, CAN]), 0.0, CAN.name)
    assert several == (
        "Carry each part out as two canfuls at most, with the long-spouted can.",
    )
    assert mix_words.remarks(fills(6.2, [BUCKET]), 0.25) == (
        (
            "None of your jugs shows 2.2 L: measure it out, or weigh it, 1 L of water "
            "as 1 kg."
        ),
        ("250 mL stays over, spare included: use it today or pour it on the garden."),
    )
    assert mix_words.remarks(fills(3.0, [JUG]), 0.0) == ()
    assert mix_words.remarks((Fill(1.0, JUG),), 0.0) == ()


@pytest.mark.parametrize(
    ("products", "told"),
    [
        ((), ""),
        (
            (TIN,),
            "Fill in most of the water first, stir in Green tin, and fill up to 2 L.",
        ),
        (
            (TIN, EPSOM),
            (
                "Fill in most of the water first, stir in Green tin and Epsom salt "
                "until all is dissolved, and fill up to 2 L."
            ),
        ),
        (
            (CALCIUM, TIN, EPSOM),
            (
                "Fill in most of the water first and stir in Green tin and Epsom salt "
                "until all is dissolved, then what holds calcium: Calcium nitrate. "
                "Then fill up to 2 L."
            ),
        ),
    ],
)
def test_the_order_of_mixing(products: tuple[Product, ...], told: str) -> None:
    assert mix_words.order(doses(*products), 2.0) == told


def test_what_is_taken_from_a_bottle_is_told_by_its_name() -> None:
    (salt,) = doses(EPSOM)
    drawn = replace(salt, bottle="Epsom bottle")
    assert mix_words.order([drawn], 2.0) == (
        "Fill in most of the water first, stir in Epsom bottle, and fill up to 2 L."
    )


def test_mixes_of_two_sizes_are_filled_up_each_to_its_own() -> None:
    assert mix_words.order(doses(TIN), None).endswith("stir in Green tin, and fill up.")


def test_calcium_goes_in_last_and_the_rest_keeps_its_order() -> None:
    ordered = in_order(doses(CALCIUM, TIN, EPSOM))
    assert [dose.product for dose in ordered] == [TIN, EPSOM, CALCIUM]


def test_too_few_jugs_are_told() -> None:
    assert mix_words.more_recipes(3, 1) == (
        "Three recipes need a jug each, and your house rules have 1 jug: rinse one and "
        "use it again."
    )
    assert mix_words.more_than_stand(4, 2) == (
        "This round takes four jugs, and two stand on your shelf: rinse one and use "
        "it again."
    )
    assert mix_words.more_than_stand(3, 1) == (
        "This round takes three jugs, and one stands on your shelf: rinse it and use "
        "it again."
    )
    assert number_word(13) == "13"


def test_why_a_recipe_is_not_diluted() -> None:
    assert mix_words.not_the_same("Calcium feed", "") == (
        "Dose the jugs of Calcium feed each on its own: the water brings nutrients of "
        "its own, so that its shares change with the strength and a thinned jug is "
        "another feed."
    )
    step, _ = ladder([Batch("A", 200, 3.2, ("A1",)), Batch("B", 100, 6.0, ("A2",))])
    assert mix_words.not_in_a_jug("Green tin", step, "White jug") == (
        "Dose the jugs of Green tin each on its own: to dilute, jug A would begin with "
        "6.2 L, more than the white jug holds."
    )


SCALE = Tool(ToolKind.SCALE, "pocket scale", 0.1)


def test_what_a_step_takes_and_comes_to() -> None:
    both = [measured(TIN, 3.42, [SCALE]), measured(EPSOM, 1.0, [SCALE])]
    assert mix_words.takes(both) == (
        "That takes 3.4 g of Green tin and 1.0 g of Epsom salt."
    )
    assert mix_words.takes([]) == ""
    assert mix_words.comes_to("B", 98, 100) == (
        "Jug B then gives 98 of 100 ppm N (\N{MINUS SIGN}2 %)."
    )
    assert mix_words.comes_to("B", 99, 100) == (
        "Jug B then gives 99 of 100 ppm N (\N{MINUS SIGN}1 %)."
    )
    assert mix_words.comes_to("B", 99.1, 100) == ""


def test_a_way_is_told_with_both_losses() -> None:
    alone = Loss("A", 0.02, measured(TIN, 3.42, [SCALE]))
    assert mix_words.which_way(Ways(alone, Loss("B", 0.04))) == (
        "Dose each jug on its own: at worst that is 2 % off, and diluting 4 %."
    )


def test_a_dose_that_rounds_to_nothing_is_told_as_wanted() -> None:
    alone = Loss("C", 1.0, measured(TIN, 0.04, [SCALE]))
    said = mix_words.which_way(Ways(alone, Loss("B", 0.03)))
    assert "the 0.04 g of Green tin for jug C is read to 0.1 g" in said
    drawn = Product("Green liquid", parse_analysis("7-3-6", 1.2))
    syringe = Tool(ToolKind.SYRINGE, "syringe", 0.5, 10)
    alone = Loss("C", 0.2, measured(drawn, 2.4, [syringe]))
    said = mix_words.which_way(Ways(alone, Loss("B", 0.03)))
    assert "the 2 mL of Green liquid for jug C is read to 0.5 mL" in said
