"""What services put together from words and numbers is German in German."""

from __future__ import annotations

import io
from datetime import date
from gettext import GNUTranslations, NullTranslations
from typing import TYPE_CHECKING

import pytest
from typing_extensions import override

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Flowering, Look, NewGrowths, NewLeaf
from growdesk.domain.phrases import inside
from growdesk.domain.speech import Manner, speak
from growdesk.services import logger_words, view_starts
from growdesk.services.action_titles import plants_changed
from growdesk.services.care_checks import checked
from growdesk.services.care_values import CareDraft
from growdesk.services.intake_fields import FIELDS, Sort
from growdesk.services.look_words import signs_line
from growdesk.services.roster_values import SavedView, ViewDraft
from growdesk.services.values import WaterDraft
from tests.languages.catalogue import compiled

if TYPE_CHECKING:
    from collections.abc import Iterator

ON = date(2026, 5, 20)


class _Said(NullTranslations):
    """Says a few texts of another language, whatever their context."""

    def __init__(self, texts: dict[str, str]) -> None:
        super().__init__()
        self.texts = texts

    @override
    def gettext(self, message: str) -> str:
        return self.texts.get(message, message)

    @override
    def pgettext(self, context: str, message: str) -> str:
        return self.gettext(message)


@pytest.fixture(scope="module")
def german() -> GNUTranslations:
    return GNUTranslations(io.BytesIO(compiled("de")))


@pytest.fixture(autouse=True)
def spoken(german: GNUTranslations) -> Iterator[None]:
    speak(Manner(german, ","))
    yield
    speak()


def test_growths_are_counted_by_the_forms_of_the_language() -> None:
    one = Look(ON, new_growths=NewGrowths(extending=1))
    two = Look(ON, new_growths=NewGrowths(extending=2))
    assert signs_line(one) == "Neutriebe: 1 streckt sich."
    assert signs_line(two) == "Neutriebe: 2 strecken sich."


def test_a_spike_is_told_with_its_length() -> None:
    seen = frozenset({Flowering.SPIKE})
    look = Look(ON, flowering=seen, spike_mm=12.5, new_leaf=NewLeaf.NONE)
    assert signs_line(look) == "Kein neues Blatt; Blütentrieb 12,5 mm lang."


def test_a_title_inside_a_sentence_keeps_its_capital_where_nouns_have_one() -> None:
    speak(Manner(_Said({"small": "as it is"})))
    assert inside("Umtopfen") == "Umtopfen"
    speak()
    assert inside("Repot") == "repot"


def test_views_of_growdesk_are_named_in_the_language_and_own_ones_are_not() -> None:
    assert view_starts.STARTS[0].title == "Alle Pflanzen"
    assert SavedView(3, ViewDraft("All plants")).title == "All plants"


def test_a_field_of_a_table_is_known_by_its_english_head_and_told_in_the_language() -> (
    None
):
    field = FIELDS[Sort.LOOKS]["new_leaf"]
    assert field.title == "neues Blatt"
    assert "new leaf" in field.headers


def test_a_water_without_a_name_is_called_by_its_kind() -> None:
    speak(Manner(_Said({"tap": "Leitungswasser"})))
    assert WaterDraft(kind="tap").called == "Leitungswasser"
    assert WaterDraft(kind="tap", name="Butt").called == "Butt"


def test_a_field_of_other_care_is_refused_in_the_language() -> None:
    draft = CareDraft(ON, CareKind.FEED, rain_mm=3)
    with pytest.raises(InputError) as refused:
        checked(draft, ON)
    assert refused.value.problem == "gibt es nur bei Regen"
    assert refused.value.hint == "Leer lassen oder als Regen eintragen."


def test_titles_of_actions_count_plants_by_the_forms_of_the_language() -> None:
    assert plants_changed(["A1"], {"note"}) == "Notiz zu A1 geändert"
    assert plants_changed(["A1", "A2"], {"note", "size"}) == "2 Pflanzen geändert"


def test_rows_left_out_are_counted_by_the_forms_of_the_language() -> None:
    assert logger_words.left_out_count(1, 1) == ("Bei 1 Zeile wurde etwas weggelassen.")
    assert logger_words.left_out_count(9, 5) == (
        "Bei 9 Zeilen wurde etwas weggelassen; die ersten 5 stehen hier."
    )
