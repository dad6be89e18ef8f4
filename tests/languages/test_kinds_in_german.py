"""Kinds in German: found by either language's words, their moments read alike."""

from __future__ import annotations

from gettext import GNUTranslations
from io import BytesIO
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.domain.facts_file import parse_json
from growdesk.domain.jobs.repot_moments import moment_of, months_of
from growdesk.domain.kind_corrections import corrected, read_field
from growdesk.domain.kind_words import corrected_told, value_text
from growdesk.domain.mugs import in_mugs
from growdesk.domain.name_words import parts_line
from growdesk.domain.speech import Manner, speak, tr
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.kind_views import matching, shipped_views
from growdesk.services.kinds import table
from growdesk.services.names import read
from tests.languages.catalogue import compiled

if TYPE_CHECKING:
    from collections.abc import Iterator

KINDS = table().kinds


@pytest.fixture(scope="module", autouse=True)
def german() -> Iterator[None]:
    speak(Manner(GNUTranslations(BytesIO(compiled("de"))), ","))
    yield
    speak()


@pytest.mark.parametrize("key", KINDS)
def test_a_moment_is_read_in_german_as_in_english(key: str) -> None:
    english = KINDS[key].repot_moment
    german = tr(english)
    assert german != english
    assert moment_of(german) is moment_of(english)
    assert months_of(german) == months_of(english)


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("Schmetterlings", "phalaenopsis"),
        ("moth orchids", "phalaenopsis"),
        ("zweiblättrig", "cattleya-bifoliate"),
        ("two-leaved", "cattleya-bifoliate"),
        ("Rlc.", "cattleya"),
    ],
)
def test_a_kind_is_found_by_the_words_of_either_language(typed: str, key: str) -> None:
    assert matching(shipped_views(), typed)[0].key == key


def test_a_field_is_told_with_its_unit_in_german() -> None:
    assert value_text("repot_years", 1.0) == "1 Jahr"
    assert value_text("repot_years", 2.5) == "2,5 Jahre"
    assert value_text("lead_rate_mm_per_week", 12.0) == "12 mm je Woche"
    assert value_text("rest_months", (11, 12, 1)) == "November bis Januar"
    assert value_text("feeder", KINDS["cattleya"].feeder) == "mittel"
    kind = corrected(KINDS["cattleya"], {"least_night_c": "11.5"})
    assert "Kälteste Nacht 11,5 °C" in corrected_told(kind)[0]


def test_refusals_are_told_in_german_also_where_they_were_declared_once() -> None:
    with pytest.raises(InputError) as no_json:
        parse_json("{", "facts.json")
    assert no_json.value.hint == "Als JSON schreiben, wie im Beispiel der README."
    with pytest.raises(InputError) as no_word:
        read_field("habit", "bush")
    assert no_word.value.problem == ("ist keines von sympodial, monopodial, tuberous")
    with pytest.raises(InputError) as too_cold:
        read_field("least_night_c", "-5")
    assert too_cold.value.hint == "Eine Zahl von 0 bis 60 °C angeben."


def test_names_and_mugs_are_told_in_german() -> None:
    name = read("C. maxima var. coerulea 'Hector' AM/AOS")
    assert parts_line(name) == (
        "Gattung Cattleya; Art maxima; Varietät coerulea; Klon ‘Hector’; "
        "Auszeichnung AM/AOS"
    )
    mug = Vessel(VesselKind.MUG, "Mug", 0.25)
    assert in_mugs(0.625, mug) == "2½ Becher"
