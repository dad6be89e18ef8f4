"""What is mixed reads alike on screen and sheet, and the grams are for the litres."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QFrame, QLabel

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import dose
from growdesk.domain.units import Target
from growdesk.domain.volume_words import volume_text
from growdesk.services.values import Jug, MixPlan, OneMore
from growdesk.ui import jug_words
from growdesk.ui.printing import mixing, wording
from growdesk.ui.printing.marks import Words
from growdesk.ui.widgets.jugs import Jugs, jug_card

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.ui.window import Window

JUG = Jug("A", 120, 0.55, 0.05, ("B1",), "Tin", 0.36, None, (), None, None, ())
PLAN = MixPlan(
    jugs=(JUG, replace(JUG, letter="B", strength_ppm_n=60, mass_g=0.18)),
    ladder=("Mix 1 L at 120 ppm N in jug A.", "Pour the rest into jug B."),
    outside_band=("M1",),
    volume_unknown=("P12",),
    clear_l=0.8,
    flush_l=2.7,
    water="rain",
    tin="Tin",
)


def texts(widget: QFrame | Jugs) -> list[str]:
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
    card = jug_card(jug, view.mix)
    litres, told = card.findChild(QLabel, "litres"), card.findChild(QLabel, "dose")
    assert isinstance(litres, QLabel)
    assert isinstance(told, QLabel)
    volume_l = litres_read(litres.text())
    assert volume_l > jug.volume_l, "the spare is in it"
    strength = Target("N", float(jug.strength_ppm_n))
    wanted = dose(parse_analysis("20-20-20"), strength, volume_l).mass_g
    found = re.search(
        r"Weigh ([\d.]+) g \(Blue tin\) into (\d+ mL|[\d.]+ L) of", told.text()
    )
    assert found is not None
    assert float(found[1]) == pytest.approx(wanted, abs=0.005)
    assert found[2] == litres.text()
    assert f"{volume_text(jug.spare_l)} of it to spare." in texts(card)


def test_the_card_says_what_the_sheet_says(qtbot: QtBot) -> None:
    card = jug_card(JUG, PLAN)
    qtbot.addWidget(card)
    assert wording.weigh(JUG, PLAN) == "Weigh 0.36 g (Tin) into 600 mL of rain water"
    assert f"{wording.weigh(JUG, PLAN)}." in texts(card)
    assert "600 mL, 50 mL of it to spare" in " ".join(on_paper(PLAN))


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


def test_clear_water_has_its_spare_in_both(qtbot: QtBot) -> None:
    jugs = Jugs()
    qtbot.addWidget(jugs)
    jugs.show_plan(PLAN)
    assert "Rain water, and a little to spare." in texts(jugs)
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
    empty = replace(JUG, volume_l=0.0, spare_l=0.0, mass_g=None)
    assert jug_words.volume(empty) == "litres not known"
    assert jug_words.weigh(empty, PLAN).startswith(
        "No plant of this jug has its volume"
    )
    assert "0 mL" not in jug_words.spoken(empty, PLAN)


def test_without_a_tin_the_card_says_what_to_do(qtbot: QtBot) -> None:
    bare = replace(JUG, tin=None, mass_g=None)
    card = jug_card(bare, replace(PLAN, tin=None))
    qtbot.addWidget(card)
    said = "Say what is in the tin, and the grams for 600 mL of rain water stand here."
    assert said in texts(card)


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
