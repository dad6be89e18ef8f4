"""Mixing in German: whole sentences, the same units, and cautions that are plain."""

from __future__ import annotations

import re
from datetime import date
from gettext import GNUTranslations
from io import BytesIO
from typing import TYPE_CHECKING, Final

import pytest

from growdesk.domain import (
    cautions,
    measure_words,
    mix_words,
    recipe_words,
    speech,
    stock_templates,
    stock_words,
    stocktaking_words,
    water_words,
)
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.fills import Fill
from growdesk.domain.keeping_apart import Apart, Rule, Severity, Where
from growdesk.domain.measuring import Tool, ToolKind, measured
from growdesk.domain.product import Product
from growdesk.domain.recipe_misses import Cause, Miss
from growdesk.domain.shortage import Short
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_blend import Aim, blend
from growdesk.domain.water_ready import WaterNeed, WaterStand, WaterWeek
from growdesk.services.salts import salt_named, salt_table
from tests.languages import catalogue
from tests.languages.texts import all_texts

if TYPE_CHECKING:
    from collections.abc import Iterator

UNITS: Final = r"mS/cm|mg/L|meq/L|ppm N|µS/cm|°C|mL|pH|EDTA|CaCO3|HCO3|NO3"
WEDNESDAY, SATURDAY = date(2026, 11, 25), date(2026, 11, 28)
GREEN: Final = Product("Grün", parse_analysis("20-20-20"), key=1)
SCALE: Final = Tool(ToolKind.SCALE, "Küchenwaage", 0.1, 500.0)


@pytest.fixture(scope="module", autouse=True)
def _german() -> Iterator[None]:
    table = GNUTranslations(BytesIO(catalogue.compiled("de")))
    speech.speak(speech.Manner(table, ","))
    yield
    speech.speak()


def test_no_text_of_the_area_loses_a_unit() -> None:
    told = catalogue.said("de")
    lost = [
        text.one
        for text, places in all_texts().items()
        if catalogue.area_of(places) == "mixing"
        and isinstance(said := told.get(text), str)
        and sorted(re.findall(UNITS, text.one)) != sorted(re.findall(UNITS, said))
    ]
    assert lost == []


def test_cautions_name_the_poison_centre_gloves_and_goggles() -> None:
    blocks = (cautions.SHORT, cautions.FULL, stock_templates.LABEL_CAUTIONS)
    for block in blocks:
        text = " ".join(block)
        for word in ("Giftnotruf", "Handschuhe", "Schutzbrille", "Kinder"):
            assert word in text, (word, text)
    assert "Etikett recht und nicht dieses Programm" in " ".join(cautions.FULL)


def test_a_label_says_in_german_when_a_bottle_is_not_used() -> None:
    assert stock_words.clear_text() == (
        "Gut schütteln. Nicht verwenden, wenn trüb oder mit Kristallen."
    )


def test_every_salt_has_a_german_name_use_and_caution() -> None:
    for salt in salt_table():
        english = {*salt.names, salt.use, salt.caution} - {"", "DAP", "MAP", "MKP"}
        said = {*salt.called, speech.tr(salt.use), speech.tr(salt.caution)}
        assert not english & said, salt.formula
    saltpetre = salt_named("KNO3")
    assert saltpetre is not None
    assert saltpetre.called == ("Kaliumnitrat", "Kalisalpeter")


def test_an_oxidizer_and_a_poison_are_called_so() -> None:
    for salt in salt_table():
        said = speech.tr(salt.caution)
        assert ("xidizer" in salt.caution) == ("randfördernd" in said), salt.formula
        harmful = "armful if swallowed" in salt.caution
        assert harmful == ("esundheitsschädlich bei Verschlucken" in said)


def test_a_dose_and_the_order_of_mixing() -> None:
    dose = measured(GREEN, 2.5, (SCALE,))
    assert measure_words.how(dose) == "2,5 g abwiegen (Küchenwaage)"
    assert mix_words.order((dose,), 1.5) == (
        "Zuerst das meiste Wasser einfüllen, Grün einrühren und auf 1,5 L auffüllen."
    )
    assert mix_words.takes((dose,)) == "Dazu braucht es 2,5 g Grün."


def test_mixes_are_counted_in_the_right_form() -> None:
    jug = Vessel(VesselKind.JUG, "Messkrug", 4.0)
    fills = [Fill(4.0, jug), Fill(4.0, jug), Fill(2.2, jug)]
    assert mix_words.parts(fills) == "zwei Mischungen von 4 L und eine von 2,2 L"
    assert mix_words.parts(fills[2:]) == "eine Mischung von 2,2 L"
    assert mix_words.more_recipes(2, 1) == (
        "Zwei Rezepte brauchen je einen Krug, nach den Hausregeln gibt es 1 Krug: "
        "einen ausspülen und noch einmal nehmen."
    )


def test_spoons_are_counted_in_the_right_form() -> None:
    spoon = Tool(ToolKind.SPOON, "Teelöffel", 0.25, None, ((1, 4.0),))
    said = [measure_words.amount_text(measured(GREEN, g, (spoon,))) for g in (4, 10)]
    assert said == ["1 gestrichener Teelöffel", "2½ gestrichene Teelöffel"]


def test_what_falls_out_says_from_what() -> None:
    of_water = Apart(
        Rule.CALCIUM_PHOSPHATE, Severity.WARN, Where.FEED, (), ("MKP",), {"ph": 7.1}
    )
    assert stock_words.apart_text(of_water) == (
        "Bei pH 7,1 können das Calcium aus dem Wasser und das Phosphat aus MKP die "
        "Düngelösung trüben: mit Regen- oder Osmosewasser anmischen und am selben Tag "
        "verbrauchen."
    )
    own = Apart(
        Rule.OWN_LABEL,
        Severity.WARN,
        Where.STOCK,
        ("Grün",),
        values={"metals": ("Ca", "Mg")},
    )
    assert stock_words.apart_text(own).startswith(
        "Grün enthält selbst Calcium und Magnesium neben Phosphat"
    )


def test_a_miss_and_the_salt_against_it() -> None:
    miss = Miss("K", 80.0, 99.6, 0.0, Cause.TIED, "Grün", "Kalksalpeter", 4.0)
    assert recipe_words.miss_sentences([miss]) == (
        (
            "Kalium kommt auf 100 mg/L, 20 mg/L mehr als die gewünschten 80. "
            "Das meiste kommt mit Grün."
        ),
        "Mit Kalksalpeter dazu bliebe noch daneben: Kalium 4,0 mg/L.",
    )


def test_what_to_have_ready_of_a_water() -> None:
    need = WaterNeed(1, "", "rain", jugs_l=31.0)
    week = WaterWeek(
        need, (WEDNESDAY, SATURDAY), 31.0, WaterStand(24.0, 200.0), "Leitungswasser"
    )
    assert water_words.ready_text(week) == (
        "31 L Regenwasser für Mittwoch und Samstag; 24 L im Fass: nachfüllen oder "
        "7 L Leitungswasser nehmen."
    )


def test_a_blend_out_of_reach() -> None:
    made = blend(
        WaterAnalysis("rain", alkalinity_mg_per_l=0.0),
        WaterAnalysis("tap", alkalinity_mg_per_l=150.0),
        Aim.ALKALINITY,
        200.0,
    )
    assert water_words.unreached_text(made) == (
        "200 mg/L sind mit diesen beiden nicht zu erreichen: Sie enthalten 0 bis 150. "
        "Am nächsten kommt allein Leitungswasser."
    )


def test_the_shelf_says_what_is_short_and_what_it_still_makes() -> None:
    short = Short("Grün", "g", 12.0, 7.0, whole=("A", "B"), part=("C", 0.5))
    assert stocktaking_words.short_text(short) == (
        "Grün wird knapp: Die Gießrunde braucht 12 g, vorrätig 7 g. "
        "Das reicht für die Krüge A und B und 500 mL von Krug C."
    )
