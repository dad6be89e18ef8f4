"""What is mixed is said in the language chosen, names and units with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain import measure_words, speech
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.dose import TOO_LITTLE_TO_WEIGH, dose
from growdesk.domain.dose_measured import as_tool_gives, tool_of
from growdesk.domain.errors import InputError
from growdesk.domain.measuring import Tool, ToolKind, measured
from growdesk.domain.product import Product
from growdesk.domain.recipe_misses import misses
from growdesk.domain.salt_table import Salt
from growdesk.domain.speech import Manner
from growdesk.domain.units import Target, parse_volume_l
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.domain.water_blend import of_share

if TYPE_CHECKING:
    from collections.abc import Iterator

GERMAN = {
    "small": "as it is",
    "{count} level {spoon}s": "{count} gestrichene {spoon}",
    "Weigh {amount} on the {tool}": "{amount} abwiegen ({tool})",
    "scale that reads {step} g": "Waage, die {step} g zeigt",
    TOO_LITTLE_TO_WEIGH: "Zu wenig für eine Waage.",
    "monopotassium phosphate": "Monokaliumphosphat",
    "potassium nitrate; nitrate of potash; saltpetre": "Kaliumnitrat; Kalisalpeter",
    "rain": "Regenwasser",
    "tap": "Leitungswasser",
    "{list} and {parts}": "{list} und {parts}",
    "is not a volume": "ist kein Volumen",
}
GREEN = Product("Green", parse_analysis("20-20-20"), key=1)


class _Told:
    """A catalogue of the few texts above."""

    def gettext(self, message: str, /) -> str:
        return GERMAN.get(message, message)

    def ngettext(self, one: str, many: str, count: int, /) -> str:
        return GERMAN.get(many, one if count == 1 else many)

    def pgettext(self, context: str, message: str, /) -> str:
        return GERMAN.get(message, message) if context else message


@pytest.fixture(autouse=True)
def _german() -> Iterator[None]:
    speech.speak(Manner(_Told(), ","))
    yield
    speech.speak()


def test_a_tool_keeps_its_capital_where_nouns_have_one() -> None:
    scale = Tool(ToolKind.SCALE, "Küchenwaage", 0.1)
    assert measure_words.how(measured(GREEN, 2.5, (scale,))) == (
        "2,5 g abwiegen (Küchenwaage)"
    )
    speech.speak()
    assert measure_words.how(measured(GREEN, 2.5, (scale,))) == (
        "Weigh 2.5 g on the küchenwaage"
    )


def test_a_spoon_is_known_by_its_german_name() -> None:
    spoon = Tool(ToolKind.SPOON, "Teelöffel", 0.25, None, ((1, 4.0),))
    assert measure_words.amount_text(measured(GREEN, 10.0, (spoon,))) == (
        "2½ gestrichene Teelöffel"
    )


def test_a_finer_scale_takes_away_the_common_warning_in_any_language() -> None:
    analysis = parse_analysis("20-20-20")
    small = dose(analysis, Target("N", 10.0), 1.0)
    assert small.warnings == ("Zu wenig für eine Waage.",)
    told = as_tool_gives(small, analysis, tool_of("0.001 g", analysis))
    assert told.warnings == ()
    assert told.sentence.startswith("0,050 g abwiegen (Waage, die 0,001 g zeigt)")


def test_the_salt_that_would_help_is_named_in_the_language_of_the_day() -> None:
    parts = ((Product("Lime nitrate", parse_analysis("15.5-0-0 + 19 Ca")), 0.5),)
    wanted = {"N": 77.5, "P": 30.0}
    assert {miss.cure for miss in misses(parts, wanted, {})} == {"Monokaliumphosphat"}
    speech.speak()
    assert {miss.cure for miss in misses(parts, wanted, {})} == {
        "monopotassium phosphate"
    }


def test_a_salt_says_its_names_and_keeps_the_english_ones() -> None:
    names = ("potassium nitrate", "nitrate of potash", "saltpetre")
    salt = Salt("KNO3", names, "13-0-46", "potassium with nitrate", "")
    assert salt.called == ("Kaliumnitrat", "Kalisalpeter")
    assert salt.name == "Kaliumnitrat"
    assert salt.names == names


def test_a_blend_is_called_by_the_kinds_of_its_waters() -> None:
    made = of_share(WaterAnalysis("rain"), WaterAnalysis("tap"), 0.5)
    assert made.water.name == "Regenwasser und Leitungswasser"


def test_forms_of_nitrogen_are_read_as_german_labels_print_them() -> None:
    read = parse_analysis("15-5-15, davon 8,5 Nitrat-N, 2 Ammonium-N, 4,5 Harnstoff-N")
    assert read.nitrogen_forms_percent() == {
        "nitrate": 8.5,
        "ammonium": 2.0,
        "urea": 4.5,
    }


def test_what_is_no_volume_is_said_whole() -> None:
    with pytest.raises(InputError) as caught:
        parse_volume_l("5 g")
    assert caught.value.problem == "ist kein Volumen"
