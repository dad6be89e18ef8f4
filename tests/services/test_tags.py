"""Which plants get new tags."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.domain.holding import HeldAs, Status
from growdesk.services.bench_values import BenchDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.tags import TagChoice
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection


def tags(collection: Collection, **asked: object) -> list[str]:
    choice = TagChoice(**asked)  # type: ignore[arg-type]
    return [each.tag for each in collection.tags.chosen(choice)]


@pytest.fixture
def stocked(collection: Collection, today: date) -> Collection:
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    bench = collection.benches.add(sill, BenchDraft("Top")).ids[0]
    old = today - timedelta(days=900)
    add = collection.plants.add
    add(PlantDraft("A1", "Vanda", "vanda", acquired_on=old))
    add(PlantDraft("A2", "", "cattleya", sill, 2, repotted_on=today, acquired_on=old))
    add(PlantDraft("A3", "", "cattleya", sill, 1, bench_id=bench, acquired_on=today))
    gone = PlantDraft("Z9", "Lost", "", status=Status.LOST, left_on=today)
    add(gone)
    return collection


def test_plants_come_as_they_are_walked(stocked: Collection) -> None:
    assert tags(stocked) == ["A1", "A3", "A2"]
    assert stocked.tags.places() == ("Sill",)
    (facts,) = stocked.tags.chosen(TagChoice(tags=("a3",)))
    assert facts.where == "Sill · Top"


def test_several_under_one_tag_are_counted(stocked: Collection) -> None:
    stocked.plants.add(PlantDraft("T1", "", "", held_as=HeldAs.TRAY, how_many=8))
    tray, single = stocked.tags.chosen(TagChoice(tags=("T1", "A1")))
    assert tray.together == "tray ×8"
    assert single.together == ""


def test_a_choice_narrows_them(stocked: Collection, today: date) -> None:
    assert tags(stocked, place="sill") == ["A3", "A2"]
    assert tags(stocked, since=today) == ["A3", "A2"]
    assert tags(stocked, since=today - timedelta(days=900)) == ["A1", "A3", "A2"]
    assert tags(stocked, since=today + timedelta(days=1)) == []
    assert tags(stocked, tags=("A2", " a1 ")) == ["A2", "A1"]


def test_what_left_is_given_only_by_name(stocked: Collection) -> None:
    assert tags(stocked, tags=("Z9",)) == ["Z9"]
    with pytest.raises(InputError, match="is no plant's tag"):
        tags(stocked, tags=("A1", "Q1"))
    with pytest.raises(InputError, match="has no plants") as refused:
        tags(stocked, place="Attic")
    assert refused.value.hint == "Plants stand in: Sill."


def test_a_tag_has_the_last_repot_on_record(stocked: Collection, today: date) -> None:
    """Also where the plant's own day was set back by hand, as judging takes it."""
    plant_id = stocked.plants.find("A1")
    assert plant_id is not None
    done = today - timedelta(days=3)
    stocked.care.add((plant_id,), CareDraft(done, CareKind.REPOT))
    for own in (None, done - timedelta(days=30), done):
        draft = replace(stocked.plants.get(plant_id), repotted_on=own)
        stocked.plants.change(plant_id, draft)
        (facts,) = stocked.tags.chosen(TagChoice(tags=("A1",)))
        assert facts.repotted_on == done
    assert tags(stocked, since=done) == ["A1", "A3", "A2"]
