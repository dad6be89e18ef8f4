"""What is mixed reads alike on screen and sheet, and the grams are for the litres."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from growdesk.domain import measure_words
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import dose
from growdesk.domain.expected_ec import ExpectedEc
from growdesk.domain.measuring import Measured, Tool, ToolKind, Trouble, measured
from growdesk.domain.product import Product
from growdesk.domain.units import Target
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_ready import WaterNeed
from growdesk.services.jug_values import JugFill, LadderJug
from growdesk.services.values import Jug, MixPlan, OneMore
from growdesk.ui import dose_words, jug_measuring, jug_words
from growdesk.ui.printing import mixing, wording
from growdesk.ui.printing.framed import TICK_PT
from growdesk.ui.printing.marks import Frame, Words
from growdesk.ui.widgets.doses import elements
from growdesk.ui.widgets.fold import Fold
from growdesk.ui.widgets.jug_card import JugCard
from growdesk.ui.widgets.jugs import Jugs
from growdesk.ui.widgets.text_link import TextLink

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

TIN = Product("Tin", parse_analysis("20-20-20"))
LIQUID = Product("Green", parse_analysis("3-1-5", 1.25))
POCKET = Tool(ToolKind.SCALE, "pocket scale", 0.01)
KITCHEN = Tool(ToolKind.SCALE, "kitchen scale", 1.0)
SYRINGE = Tool(ToolKind.SYRINGE, "syringe", 0.2)
SPOON = Tool(ToolKind.SPOON, "blue spoon", 1.0)


def grams(mass_g: float, product: Product = TIN, tool: Tool | None = None) -> Measured:
    return Measured(product, mass_g, mass_g, mass_g, "g", tool)


JUG = Jug(
    "A",
    120,
    0.55,
    0.05,
    ("B1",),
    (),
    0.5,
    0.9,
    (),
    recipe="Tin",
    doses=(grams(0.36),),
)
PLAN = MixPlan(
    jugs=(JUG, replace(JUG, letter="B", strength_ppm_n=60, doses=(grams(0.18),))),
    ladder=("Mix 1 L at 120 ppm N in jug A.", "Pour the rest into jug B."),
    outside_band=("M1",),
    volume_unknown=("P12",),
    clear_l=0.8,
    flush_l=2.7,
    water="rain",
    tin="Tin",
)


def texts(widget: QWidget) -> list[str]:
    """Give all that can be read in a widget, its fold opened."""
    for card in (widget, widget.parentWidget()):
        if isinstance(card, JugCard) and not card.fold.is_open:
            card.fold.turn()
    return [each.text() for each in widget.findChildren(QLabel)]


def on_paper(plan: MixPlan) -> list[str]:
    blocks = mixing.mixing(plan, 400.0)
    return [m.text for b in blocks for m in b.marks if isinstance(m, Words)]


def litres_read(text: str) -> float:
    number, unit = text.split()
    return float(number) / (1000 if unit == "mL" else 1)


def test_the_grams_on_a_card_are_the_dose_for_the_litres_on_the_card(
    window: Window,
) -> None:
    view = window.desk.view
    assert view is not None
    (jug,) = view.mix.jugs
    card = JugCard(jug, view.mix)
    litres, amount = card.findChild(QLabel, "litres"), card.findChild(QLabel, "amount")
    assert isinstance(litres, QLabel)
    assert isinstance(amount, QLabel)
    volume_l = litres_read(litres.text())
    assert volume_l > jug.volume_l, "the spare is in it"
    strength = Target("N", float(jug.strength_ppm_n))
    wanted = dose(parse_analysis("20-20-20"), strength, volume_l).mass_g
    found = re.fullmatch(r"([\d.]+) g", amount.text())
    assert found is not None
    assert float(found[1]) == pytest.approx(wanted, abs=0.005)
    assert "Blue tin" in texts(card)
    assert f"{volume_text(jug.spare_l)} of it to spare." in texts(card)


def test_the_card_says_what_the_sheet_says(qtbot: QtBot) -> None:
    card = JugCard(JUG, PLAN)
    qtbot.addWidget(card)
    said = "Weigh 0.36 g (Tin) into 600 mL of rain water"
    assert wording.weigh(JUG, PLAN) == said
    assert f"{said}." in card.accessibleName()
    shown = texts(card)
    assert shown.index("A") < shown.index("0.36 g") < shown.index("600 mL")
    assert "of rain water" in shown
    assert "600 mL, 50 mL of it to spare" in " ".join(on_paper(PLAN))


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (grams(0.364), "0.364 g"),
        (grams(12.34), "12.3 g"),
        (grams(0.004), "0.004 g"),
        (Measured(LIQUID, 0.04, 0.04, 0.032, "mL"), "0.032 mL"),
        (grams(12.34, tool=POCKET), "12.34 g"),
        (grams(12.0, tool=KITCHEN), "12 g"),
        (Measured(LIQUID, 2.0, 2.0, 1.6, "mL"), "1.6 mL"),
        (Measured(LIQUID, 2.0, 2.0, 1.6, "mL", SYRINGE), "1.6 mL"),
        (
            Measured(TIN, 9.2, 9.3, 3.0, "level spoons", SPOON),
            "3 level blue spoons (9.3 g)",
        ),
        (
            Measured(
                TIN, 0.4, 0.0, 0.0, "level spoons", SPOON, trouble=Trouble.NOTHING
            ),
            "under 1 level blue spoon",
        ),
    ],
)
def test_a_dose_is_told_as_its_tool_shows_it(given: Measured, said: str) -> None:
    assert dose_words.amount(given) == said


def test_the_two_waters_of_a_blend_are_in_sight(qtbot: QtBot) -> None:
    litres = "For 600 mL: 450 mL of rain water and 150 mL of tap water."
    jug = replace(JUG, mixing=(litres, "Carry it out."), of_two=(litres,))
    card = JugCard(jug, PLAN)
    qtbot.addWidget(card)
    card.show()
    seen = [each.text() for each in card.findChildren(QLabel) if each.isVisible()]
    said = texts(card)
    assert seen.count(litres) == said.count(litres) == 1
    assert "Carry it out." in said
    assert "Carry it out." not in seen


def test_what_really_comes_out_is_said_once_it_is_measured() -> None:
    exact = replace(JUG, gives_ppm_n=120.0)
    assert jug_words.gives(JUG) == jug_words.gives(exact) == ""
    weighed = replace(exact, doses=(grams(0.36, tool=POCKET),))
    assert jug_words.gives(weighed) == ""
    coarse = replace(weighed, gives_ppm_n=118.2)
    assert jug_words.gives(coarse) == "Gives 118 of 120 ppm N (−2 %)."


CALCIUM = Product("Calcium nitrate", parse_analysis("15.5-0-0 Ca 19"))


def test_several_products_stand_in_the_order_they_go_in(qtbot: QtBot) -> None:
    doses = (grams(1.2, CALCIUM), grams(0.36))
    jug = replace(JUG, doses=doses, recipe="Growth")
    card = JugCard(jug, replace(PLAN, jugs=(jug, JUG)))
    qtbot.addWidget(card)
    shown = texts(card)
    order = ["Growth", "0.36 g", "Tin", "1.2 g", "Calcium nitrate (last)", "600 mL"]
    assert [each for each in shown if each in order] == order
    paper = on_paper(replace(PLAN, jugs=(jug, JUG)))
    lines = ["0.36 g of Tin", "1.2 g of Calcium nitrate (last)"]
    assert [each for each in paper if each in lines] == lines
    assert "into 600 mL of rain water." in paper
    assert "Recipe: Growth" in paper, "there are two"
    assert jug_words.ORDER in " ".join(paper)
    assert jug_words.ORDER not in " ".join(on_paper(PLAN))
    assert jug_words.weigh(jug, PLAN) == (
        "Weigh 1.2 g (Calcium nitrate), 0.36 g (Tin) into 600 mL of rain water"
    )
    mixed = replace(jug, doses=(*doses, Measured(LIQUID, 2.0, 2.0, 1.6, "mL")))
    assert jug_words.weigh(mixed, PLAN).startswith("Take 1.2 g")


def test_one_recipe_of_all_jugs_is_named_once(qtbot: QtBot) -> None:
    both = tuple(
        replace(each, recipe="Growth", doses=(*each.doses, grams(1.2, CALCIUM)))
        for each in PLAN.jugs
    )
    plan = replace(PLAN, jugs=both)
    card = JugCard(both[0], plan)
    qtbot.addWidget(card)
    assert "Growth" not in texts(card), "the chooser above says it"
    paper = on_paper(plan)
    assert paper.count("Recipe: Growth.") == 1
    assert not any("Recipe" in each for each in on_paper(PLAN)), "a tin alone"


def test_calcium_alone_is_not_called_last(qtbot: QtBot) -> None:
    card = JugCard(replace(JUG, doses=(grams(1.2, CALCIUM),)), PLAN)
    qtbot.addWidget(card)
    assert "Calcium nitrate" in texts(card)


FILLS = (
    JugFill(2, 4.0, "jug", (grams(6.6),), 120.0),
    JugFill(1, 2.2, "jug", (grams(3.63),), 120.0),
)
IN_PARTS = replace(
    JUG,
    volume_l=9.7,
    spare_l=0.5,
    doses=(grams(16.83),),
    fills=FILLS,
    mixing=("Mix it in parts, each with its own dose: two mixes of 4 L.",),
)


def test_a_jug_in_parts_says_what_goes_into_each(qtbot: QtBot) -> None:
    card = JugCard(IN_PARTS, PLAN)
    qtbot.addWidget(card)
    shown = texts(card)
    order = ["Two mixes of 4 L, each", "6.6 g", "4 L", "One mix of 2.2 L", "3.63 g"]
    assert [each for each in shown if each in order] == order
    assert "16.8 g" not in shown
    paper = on_paper(replace(PLAN, jugs=(IN_PARTS,)))
    assert "Two mixes of 4 L, each 6.6 g of Tin" in paper
    assert "One mix of 2.2 L: 3.63 g of Tin" in paper
    assert ticks(IN_PARTS) == 3, "a box for each mix"
    assert ticks(JUG) == 1
    assert ticks(replace(JUG, doses=(grams(0.4), grams(1.2, CALCIUM)))) == 2
    assert ticks(replace(JUG, doses=())) == 0


def ticks(jug: Jug) -> int:
    blocks = mixing.mixing(replace(PLAN, jugs=(jug,)), 400.0)
    boxes = [m for b in blocks for m in b.marks if isinstance(m, Frame)]
    return sum(each.width_pt == TICK_PT for each in boxes)


def test_one_fill_of_one_jug_is_told_as_one_jug(qtbot: QtBot) -> None:
    plain = "Fill in most of the water first, stir in Tin, and fill up to 600 mL."
    cans = "Carry it out as two canfuls, with the can."
    jug = replace(JUG, fills=(JugFill(1, 0.6, "jug", JUG.doses),), mixing=(plain, cans))
    card = JugCard(jug, PLAN)
    qtbot.addWidget(card)
    assert plain not in texts(card)
    assert cans in texts(card)
    assert jug_words.how_mixed(replace(jug, doses=(*JUG.doses, *JUG.doses))) == (
        plain,
        cans,
    )


def ladders(jugs: Jugs) -> list[Fold]:
    """Give the folds of a ladder; one that is shown no more is let go of."""
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    folds = jugs.findChildren(Fold)
    return [each for each in folds if "dilute" in each.button.accessibleName()]


def test_a_ladder_that_goes_first_has_its_own_readings_on_screen_and_sheet(
    qtbot: QtBot,
) -> None:
    jugs = (
        LadderJug("A", 120, 118.0, ExpectedEc(0.5, 0.7, 0.6)),
        LadderJug("B", 60, 59.0),
    )
    plan = replace(PLAN, ladder_first=True, ladder_jugs=jugs)
    read = "_________\u00a0mS/cm at\u00a0_________\u00a0°C"
    assert wording.diluted(plan) == (
        f"EC of jug A at 25 °C: expect 0.60 (0.50 to 0.70), read {read}",
        f"EC of jug B: read {read}",
    )
    printed = [
        mark.text
        for block in mixing.mixing(plan, 450)
        for mark in block.marks
        if isinstance(mark, Words)
    ]
    assert any(text.startswith("EC of jug A") for text in printed)
    shown = Jugs()
    qtbot.addWidget(shown)
    shown.show_plan(plan)
    told = [each.text() for each in shown.findChildren(QLabel)]
    assert "A meter should read, diluted so: jug A 0.60 (0.50 to 0.70) mS/cm." in told
    assert jug_words.meters_diluted(PLAN) == ""


def test_whichever_way_is_closer_comes_first(qtbot: QtBot) -> None:
    why = "Mix once and dilute: closer."
    plan = replace(PLAN, ladder_first=True, ladder_why=why)
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(plan)
    shown, paper = texts(jugs), on_paper(plan)
    first, other = "Mix once and dilute down, jug by jug", "Or dose each jug on its own"
    caution = "This is instead of the weights below, never on top of them."
    for said in (shown, paper):
        places = [
            said.index(each)
            for each in (first, why, caution, other, "120 ppm N")
            if each in said
        ]
        assert places == sorted(places)
        assert caution in said
    (fold,) = ladders(jugs)
    assert fold.is_open
    jugs.show_plan(PLAN)
    (fold,) = ladders(jugs)
    assert not fold.is_open


NEED = WaterNeed(1, "", "rain", jugs_l=1.2, clear_l=0.8, flush_l=1.4, spare_l=0.15)
MUG = Vessel(VesselKind.MUG, "mug", 0.35)


def test_each_clear_water_has_its_litres_its_mugs_and_its_barrel(qtbot: QtBot) -> None:
    tap = WaterNeed(2, "Kitchen tap", "tap", clear_l=0.7, spare_l=0.05)
    jugs_only = WaterNeed(3, "", "ro", jugs_l=2.0)
    plan = replace(
        PLAN, waters=(NEED, tap, jugs_only), mug=MUG, stands=((1, 81.24), (3, 5.0))
    )
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(plan)
    shown, paper = texts(jugs), on_paper(plan)
    shares = "800 mL for clear water, 1.4 L for flushing, 150 mL to spare."
    in_all = "With what goes into the jugs, 3.55 L in all."
    stands = "81 L in the barrel by the record."
    for said in (shown, paper):
        assert shares in said
        assert in_all in said
        assert stands in said
    assert shown.count("Clear water") == 2
    assert "of rain water, 6¾ mugs" in shown
    assert "Clear water · 2.35 L of rain water, 6¾ mugs" in paper
    assert "Looked at the barrel" in paper
    assert "Clear water · 750 mL of tap water (Kitchen tap), about 2¼ mugs" in " ".join(
        paper
    )
    assert sum("RO" in each for each in paper) == 0


def small(mass_g: float, product: Product) -> Measured:
    coarse = Tool(ToolKind.SCALE, "coarse scale", 1.0)
    return measured(product, mass_g, (coarse,))


def test_doses_too_small_are_one_sentence_and_in_full_under_more(
    qtbot: QtBot,
) -> None:
    doses = (small(2.2, TIN), small(3.4, CALCIUM))
    told = tuple(measure_words.trouble(each) for each in doses)
    one = replace(JUG, doses=doses[:1], warnings=(told[0], "Too strong."))
    assert jug_measuring.to_mind(one) == one.warnings
    assert jug_measuring.in_full(one) == ()
    both = replace(one, doses=doses, warnings=(*told, "Too strong."))
    said = (
        "Too small to measure well: Tin and Calcium nitrate. A bottle of stock "
        "solution, or more litres at once, measures them better."
    )
    assert jug_measuring.to_mind(both) == ("Too strong.", said)
    assert jug_measuring.in_full(both) == told
    card = JugCard(replace(both, notes=("Only a note.",)), PLAN)
    qtbot.addWidget(card)
    folded = texts(card.fold.body)
    assert [each for each in folded if each in told] == list(told)
    assert "Only a note." in folded
    assert "Only a note." not in card.accessibleName()
    paper = " ".join(on_paper(replace(PLAN, jugs=(both,))))
    assert said in paper
    assert told[0] not in paper


def test_tools_are_named_once_and_hard_doses_told_in_full() -> None:
    plain = replace(JUG, doses=(grams(0.4, tool=POCKET), grams(1.2, CALCIUM, POCKET)))
    assert jug_measuring.measured_with(plain) == ("Measured with the pocket scale.",)
    assert jug_measuring.measured_with(JUG) == ()
    spooned = Measured(TIN, 9.2, 9.3, 3.0, "level spoons", SPOON, g_per_unit=3.1)
    told = jug_measuring.measured_with(replace(JUG, doses=(*plain.doses, spooned)))
    assert told == (
        "Measured with the pocket scale and blue spoon.",
        "3 level blue spoons (3.1 g each) = 9.3 g.",
    )


def test_elements_stand_as_labels_order_them() -> None:
    given = (("Mg", 25.0), ("B", 0.2), ("N", 120.0), ("Ca", 56.0), ("Zn", 0.001))
    assert elements(given).startswith(
        "N\u00a0120 · Ca\u00a056 · Mg\u00a025 · B\u00a00.2"
    )
    assert "Zn" not in elements(given)


def test_the_ec_of_today_leads_to_the_meter_s_reading(qtbot: QtBot) -> None:
    jug = replace(JUG, ec_why="From its ions.")
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(replace(PLAN, jugs=(jug,)), is_today=True)
    jugs.show()
    ec = jugs.findChild(TextLink, "ec")
    assert isinstance(ec, TextLink)
    assert ec.toolTip() == "From its ions."
    assert ec.accessibleName().startswith("What the meter read in jug A: 0.50 to 0.90")
    with qtbot.waitSignal(jugs.meter_wanted, timeout=1000) as asked:
        QTest.keyClick(ec, Qt.Key.Key_Return)
    assert asked.args == ["A"]
    to_come = JugCard(jug, PLAN)
    qtbot.addWidget(to_come)
    assert to_come.findChild(TextLink, "ec") is None
    assert any(each.startswith("Meter: 0.50 to 0.90") for each in texts(to_come))
    unknown = replace(jug, ec_low_ms_per_cm=None, ec_high_ms_per_cm=None)
    bare = JugCard(unknown, PLAN, is_today=True)
    qtbot.addWidget(bare)
    assert isinstance(bare.findChild(TextLink, "ec"), TextLink)


def test_what_runs_short_is_told_first(qtbot: QtBot) -> None:
    plan = replace(PLAN, short=("Tin runs short.",), remarks=("Rinse a jug.",))
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(plan)
    shown = texts(jugs)
    assert shown[0] == "Tin runs short."
    assert "Rinse a jug." in shown
    paper = on_paper(plan)
    assert paper[0] == "Tin runs short."
    assert "Rinse a jug." in paper


@pytest.mark.parametrize(
    ("known", "low", "high", "said"),
    [
        (None, None, None, ""),
        (None, 0.5, 0.9, "0.50 to 0.90"),
        (0.7, 0.66, 0.74, "0.70 (0.66 to 0.74)"),
        (0.7, 0.7, 0.7, "0.70"),
        (0.7, None, None, "0.70"),
    ],
)
def test_an_ec_is_told_by_what_is_known_of_it(
    known: float | None, low: float | None, high: float | None, said: str
) -> None:
    assert dose_words.ec_text(known, low, high) == said


def test_details_are_folded_and_stay_as_they_were_left(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    why = "From the label's figure."
    plan = replace(PLAN, jugs=(replace(JUG, ec_why=why), PLAN.jugs[1]))
    jugs.show_plan(plan)
    jugs.show()
    first, second = jugs.findChildren(JugCard)
    assert [first.fold.is_open, second.fold.is_open] == [False, False]
    assert first.fold.button.accessibleName() == "More on jug A, folded away"
    first.fold.button.setFocus()
    QTest.keyClick(first.fold.button, Qt.Key.Key_Space)
    assert [first.fold.is_open, second.fold.is_open] == [True, False]
    assert why in texts(first.fold.body)
    jugs.show_plan(replace(plan, clear_l=0.9))
    again = jugs.findChildren(JugCard)
    assert [card.fold.is_open for card in again] == [True, False]
    assert again[0].fold.button.accessibleName() == "More on jug A, shown"


def test_a_card_speaks_as_sentences() -> None:
    jug = replace(JUG, gives_ppm_n=118.0, warnings=("Mix more.",))
    assert jug_words.spoken(jug, PLAN) == (
        "Jug A, 120 ppm N, 600 mL. Weigh 0.36 g (Tin) into 600 mL of rain water. "
        "Gives 118 of 120 ppm N (−2 %). 50 mL of it to spare. "
        "A meter should read 0.50 to 0.90 mS/cm. Mix more. For B1."
    )


def test_the_ladder_is_told_as_another_way_and_not_as_a_second_dose(
    qtbot: QtBot,
) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(PLAN)
    shown = texts(jugs)
    paper = on_paper(PLAN)
    heading = "Or mix once and dilute down, jug by jug"
    caution = "This is instead of the weights above, never on top of them."
    for said in (shown, paper):
        assert heading in said
        assert caution in said
    assert shown.index(heading) < shown.index(caution)
    assert shown.index(caution) < shown.index("1.  Mix 1 L at 120 ppm N in jug A.")
    assert not any("In this order" in each for each in shown)


def test_one_jug_needs_no_ladder_on_the_screen(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(replace(PLAN, jugs=(JUG,), ladder=("Mix 600 mL in jug A.",)))
    assert not any("Mix 600 mL" in each for each in texts(jugs))


def test_what_stays_over_is_told_once() -> None:
    over = replace(JUG, over_l=0.05, mixing=("50 mL stays over.",))
    told = " ".join(on_paper(replace(PLAN, jugs=(over,))))
    assert "50 mL stays over." in told
    assert "to spare" not in told.split("Clear water")[0]


def test_clear_water_has_its_spare_in_both(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(PLAN)
    assert "And a little to spare." in texts(jugs)
    assert "And a little to spare." in on_paper(PLAN)
    shares = "800 mL for clear water, 2.7 L for flushing."
    assert shares in texts(jugs)
    assert shares in on_paper(PLAN)


def test_plants_left_out_are_named_alike(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(PLAN)
    assert jug_words.outside_band(PLAN) in texts(jugs)
    assert jug_words.outside_band(PLAN) in " ".join(on_paper(PLAN))
    assert any(each.startswith(jug_words.volume_unknown(PLAN)) for each in texts(jugs))


def test_litres_nobody_recorded_are_not_told_as_nothing() -> None:
    empty = replace(JUG, volume_l=0.0, spare_l=0.0, doses=())
    assert jug_words.volume(empty) == "litres not known"
    assert jug_words.weigh(empty, PLAN).startswith(
        "No plant of this jug has its volume"
    )
    assert "0 mL" not in jug_words.spoken(empty, PLAN)


def test_without_a_tin_the_card_says_what_to_do_and_leads_there(qtbot: QtBot) -> None:
    bare = replace(JUG, recipe="", doses=())
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(replace(PLAN, tin=None, jugs=(bare,)))
    said = "Say what is in the tin, and the grams for 600 mL of rain water stand here."
    assert said in texts(jugs)
    (to_tins,) = (b for b in jugs.findChildren(QPushButton) if b.text() == "Tins…")
    with qtbot.waitSignal(jugs.tins_wanted, timeout=1000):
        to_tins.click()


def test_a_tin_that_gives_no_weight_is_named() -> None:
    empty = replace(JUG, doses=())
    assert jug_words.weigh(empty, PLAN) == (
        "Into 600 mL of rain water: Tin gives no weight."
    )
    none = replace(empty, recipe="")
    assert "no tin is in use" in jug_words.weigh(none, replace(PLAN, tin=None))


def test_a_plan_that_stands_there_is_not_built_again(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(PLAN)
    before = jugs.findChildren(QLabel)
    jugs.show_plan(replace(PLAN))
    assert jugs.findChildren(QLabel) == before
    jugs.show_plan(replace(PLAN, clear_l=0.9))
    assert jugs.findChildren(QLabel) != before


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (None, ""),
        (
            OneMore((120, 60, 30), (), 3),
            (
                "One jug more, 3 in all, of 120, 60 and 30 ppm N, would serve every "
                "plant within its band."
            ),
        ),
        (
            OneMore((120, 60, 30), ("M1",), 5),
            (
                "One jug more, 3 in all, of 120, 60 and 30 ppm N, would leave 1 of "
                "these 2 outside; within its band every plant is served by 5 jugs."
            ),
        ),
        (
            OneMore((120, 60, 30), ("M1", "M2"), 5),
            (
                "One jug more, 3 in all, of 120, 60 and 30 ppm N, would leave as many "
                "outside; within its band every plant is served by 5 jugs."
            ),
        ),
    ],
)
def test_one_jug_more_is_told_with_what_it_would_do(
    more: OneMore | None, said: str
) -> None:
    plan = replace(PLAN, outside_band=("M1", "M2"), one_more=more)
    assert jug_words.one_more(plan) == said
