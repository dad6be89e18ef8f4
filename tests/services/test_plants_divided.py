"""Dividing: new plants from one, with what they keep of it, as one action."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Medium, Overrule, Size, Verdict
from growdesk.domain.holding import Descent, Status
from growdesk.services.bench_values import BenchDraft
from growdesk.services.plant_values import Dividing, Leaving
from growdesk.services.values import Changed, PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from growdesk.services.collection import Collection

DAY = date(2026, 5, 10)


@pytest.fixture
def place(collection: Collection) -> int:
    return collection.places.add(PlaceDraft("Sill")).ids[0]


@pytest.fixture
def parent(collection: Collection, place: int, today: date) -> int:
    draft = PlantDraft(
        "A1",
        "Cattleya labiata 'Harbour'",
        "cattleya",
        place,
        pot_volume_l=3.0,
        volume_l=0.5,
        medium=Medium.BARK,
        size=Size.BLOOMING,
        under_cover=True,
        repotted_on=date(2024, 4, 1),
        slow_release_until=today + timedelta(days=30),
        full_strength_ppm_n=140.0,
        feed_interval_days=5,
        ignores_rest=True,
        overrule=Overrule(Verdict.KEEP_DRY, "sour", today + timedelta(days=3)),
        acquired_on=date(2020, 1, 1),
        source="a swap",
        note="by the door",
        parentage="sib cross",
        papers="invoice of 2020",
        quarantine_until=date(2026, 6, 1),
    )
    plant_id = collection.plants.add(draft).ids[0]
    collection.kinds.correct_for_plant(plant_id, {"feeder": "light"})
    return plant_id


def dividing(place: int | None, *tags: str, **more: object) -> Dividing:
    made = Dividing(DAY, Descent.DIVISION, tags, "Cattleya labiata 'Harbour'", place)
    return replace(made, **more)


def corrected(collection: Collection, plant_id: int, today: date) -> bool:
    return bool(collection.day.detail(plant_id, today).kind_corrected)


def test_divisions_keep_what_the_plant_is_and_not_what_befell_it(
    collection: Collection, place: int, parent: int, today: date
) -> None:
    done = collection.plants.divide(
        parent,
        dividing(place, "A2", "A3", pot_volume_l=1.0, parent_repotted=True, note="ok"),
    )
    assert done.title == "Divisions of plant A1"
    assert done.changed == Changed.PLANTS | Changed.CARE | Changed.KINDS
    assert [collection.plants.get(each) for each in done.ids] == [
        PlantDraft(
            tag,
            "Cattleya labiata 'Harbour'",
            "cattleya",
            place,
            bench,
            pot_volume_l=1.0,
            medium=Medium.BARK,
            under_cover=True,
            repotted_on=DAY,
            full_strength_ppm_n=140.0,
            feed_interval_days=5,
            ignores_rest=True,
            acquired_on=DAY,
            parent_id=parent,
            parent_how=Descent.DIVISION,
            parentage="sib cross",
            papers="invoice of 2020",
        )
        for tag, bench in (("A2", 2), ("A3", 3))
    ]
    assert collection.plants.get(parent).repotted_on == DAY
    (care,) = collection.day.detail(parent, today).care
    assert (care.on, care.what) == (DAY, CareKind.DIVIDE)
    assert care.note == "Divisions: A2, A3. ok"
    (own,) = collection.day.detail(done.ids[1], today).care
    assert (own.what, own.note) == (CareKind.DIVIDE, "Division of A1. ok")
    assert (own.medium, own.pot_volume_l) == (Medium.BARK, 1.0)
    assert all(corrected(collection, each, today) for each in done.ids)
    assert {line.tag for line in collection.day.view().lines} == {"A1", "A2", "A3"}


def test_it_is_one_undo_and_one_redo(
    collection: Collection, place: int, parent: int, today: date
) -> None:
    before = collection.plants.all()
    done = collection.plants.divide(
        parent, dividing(place, "A2", "A3", parent_repotted=True)
    )
    after = collection.plants.all()
    collection.history.undo()
    assert collection.plants.all() == before
    assert collection.day.detail(parent, today).care == ()
    assert collection.plants.next_tag() == "A2"
    collection.history.redo()
    assert collection.plants.all() == after
    assert corrected(collection, done.ids[0], today)


def test_a_seedling_is_another_plant(
    collection: Collection, place: int, parent: int, today: date
) -> None:
    done = collection.plants.divide(
        parent, dividing(place, "A2", how=Descent.SEEDLING, name="Cattleya labiata")
    )
    assert done.title == "Seedling of plant A1"
    made = collection.plants.get(done.ids[0])
    assert made.name == "Cattleya labiata"
    assert (made.full_strength_ppm_n, made.feed_interval_days) == (None, None)
    assert (made.ignores_rest, made.parentage) == (False, "")
    assert made.papers == "invoice of 2020"
    assert not corrected(collection, done.ids[0], today)
    assert corrected(collection, parent, today)
    assert collection.plants.get(parent).repotted_on == date(2024, 4, 1)
    assert collection.day.detail(parent, today).care == (), "it was left in its pot"
    assert [kin.tag for kin in collection.plants.descendants(parent)] == ["A2"]


def test_a_keiki_of_a_mounted_plant_is_potted_or_mounted(
    collection: Collection, parent: int
) -> None:
    draft = collection.plants.get(parent)
    bare = replace(draft, mounted=True, pot_volume_l=None, medium=None)
    collection.plants.change(parent, bare)
    keiki = dividing(None, "K1", how=Descent.KEIKI)
    mounted = collection.plants.divide(parent, keiki).ids[0]
    potted = collection.plants.divide(
        parent, replace(keiki, tags=("K2",), pot_volume_l=0.3, medium=Medium.BARK)
    ).ids[0]
    assert collection.plants.get(mounted).mounted
    assert not collection.plants.get(potted).mounted
    assert not collection.plants.get(potted).under_cover, "it stands elsewhere"


def test_divisions_stand_last_on_the_bench_that_is_chosen(
    collection: Collection, place: int, parent: int
) -> None:
    bench = collection.benches.add(place, BenchDraft("nursery")).ids[0]
    collection.plants.add(PlantDraft("N1", "", "", place, bench_id=bench))
    done = collection.plants.divide(parent, dividing(place, "A2", "A3", bench_id=bench))
    numbers = [collection.plants.get(each).bench for each in done.ids]
    assert numbers == [2, 3]


def test_an_older_division_leaves_a_later_repot_alone(
    collection: Collection, place: int, parent: int, today: date
) -> None:
    draft = replace(collection.plants.get(parent), repotted_on=today)
    collection.plants.change(parent, draft)
    collection.plants.divide(parent, dividing(place, "A2", parent_repotted=True))
    assert collection.plants.get(parent).repotted_on == today


@pytest.mark.parametrize(
    ("changes", "field", "said"),
    [
        ({"tags": ()}, "tags", "names no new plant"),
        ({"tags": ("A2", "a2")}, "tags", "is there twice"),
        ({"tags": ("A2", "A1")}, "tag", "on another plant already"),
        ({"tags": ("A2", " ")}, "tag", "is empty"),
        ({"tags": tuple(f"T{n}" for n in range(201))}, "tags", "is too many"),
        ({"on": date(2026, 5, 21)}, "on", "still to come"),
        ({"on": date(2019, 5, 21)}, "on", "before A1 came, on 2020-01-01"),
        ({"place_id": 99}, "place_id", "not there any more"),
        ({"pot_volume_l": -1.0}, "pot_volume_l", "cannot be meant"),
        ({"note": "a\x00b"}, "note", "control"),
        ({"name": "x" * 121}, "name", "too long"),
    ],
)
def test_a_slip_in_it_is_named_and_nothing_is_written(
    collection: Collection,
    place: int,
    parent: int,
    changes: dict[str, object],
    field: str,
    said: str,
) -> None:
    undo = collection.history.view().undo
    with pytest.raises(InputError, match=said) as caught:
        collection.plants.divide(parent, replace(dividing(place, "A2"), **changes))
    assert caught.value.field == field
    assert len(collection.plants.all()) == 1
    assert collection.history.view().undo == undo


def test_a_plant_that_left_is_not_divided(
    collection: Collection, place: int, parent: int
) -> None:
    collection.plants.leave([parent], Leaving(Status.SOLD, DAY))
    with pytest.raises(InputError, match="sold on 10 May 2026"):
        collection.plants.divide(parent, dividing(place, "A2"))
