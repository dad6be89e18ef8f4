"""Titles in the history: what was done, to whom, and which field it was."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.services import action_titles
from growdesk.services.values import PlantDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

BEFORE = PlantDraft("B4", "Laelia anceps", "laelia", place_id=1, bench_id=1, bench=2)


@pytest.mark.parametrize(
    ("after", "said"),
    [
        (replace(BEFORE, place_id=2, bench_id=None, bench=1), "Place of B4 changed"),
        (replace(BEFORE, bench_id=2), "Bench of B4 changed"),
        (replace(BEFORE, tag="B5"), "Tag of B5 changed"),
        (replace(BEFORE, note="x", source="y"), "Plant B4 changed"),
        (BEFORE, "Plant B4 changed"),
    ],
)
def test_a_change_is_named_by_its_field_where_it_is_one(
    after: PlantDraft, said: str
) -> None:
    assert action_titles.plant_changed(BEFORE, after) == said


def test_every_field_of_a_plant_has_a_sentence_of_its_own() -> None:
    said = {
        action_titles.plants_changed(("B4",), {each})
        for each in PlantDraft.__struct_fields__
    }
    assert len(said) == len(PlantDraft.__struct_fields__)
    assert all("B4" in each and each.endswith("changed") for each in said)


def test_many_are_counted() -> None:
    tags = ("A1", "A2", "A3")
    assert action_titles.plants_changed(tags, {"medium"}) == (
        "Medium of 3 plants changed"
    )
    assert action_titles.plants_changed(tags, {"medium", "note"}) == "3 plants changed"


def test_a_form_saved_with_one_field_changed_says_which(
    collection: Collection, bench: Bench
) -> None:
    draft = collection.plants.get(bench.feed)
    done = collection.plants.change(bench.feed, replace(draft, note="repot soon"))
    assert done.title == "Note on A1 changed"
