"""Descent, papers, what shares a tag, quarantine: kept as given, slips named."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.holding import Descent, HeldAs, Status
from growdesk.services.bench_values import BenchDraft
from growdesk.services.plant_tags import following
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection
    from growdesk.services.values import Written

DAY = date(2026, 5, 3)


def test_all_of_it_comes_back_as_it_was_given(collection: Collection) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    bench = collection.benches.add(place, BenchDraft("top shelf")).ids[0]
    parent = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    draft = PlantDraft(
        "A2",
        "Cattleya <i>Example</i>",
        "cattleya",
        place,
        3,
        bench_id=bench,
        acquired_on=date(2024, 2, 29),
        status=Status.SOLD,
        left_on=DAY,
        left_why="at the show & <b>gladly</b>",
        parent_id=parent,
        parent_how=Descent.KEIKI,
        parentage="C. labiata × C. intermedia",
        papers="permit 12/345,\nkept in the drawer",
        held_as=HeldAs.COMPOT,
        how_many=30,
        quarantine_until=date(2026, 6, 30),
    )
    made = collection.plants.add(draft).ids[0]
    assert collection.plants.get(made) == draft
    unsaid = replace(draft, parent_how=None, how_many=None, left_on=None)
    collection.plants.change(made, unsaid)
    assert collection.plants.get(made) == unsaid
    collection.history.undo()
    assert collection.plants.get(made) == draft


@pytest.mark.parametrize(
    ("changes", "field", "said"),
    [
        ({"left_on": DAY}, "left_on", "it grows"),
        ({"left_why": "rot"}, "left_why", "it grows"),
        ({"status": Status.LOST, "left_on": date(2026, 5, 21)}, "left_on", "to come"),
        (
            {"status": Status.LOST, "left_on": DAY, "acquired_on": date(2026, 5, 4)},
            "left_on",
            "before C8 came, on 2026-05-04",
        ),
        ({"how_many": 6}, "how_many", "counts plants of one pot"),
        ({"held_as": HeldAs.TRAY, "how_many": 0}, "how_many", "cannot be meant"),
        ({"held_as": HeldAs.TRAY, "how_many": 1.5}, "how_many", "whole number"),
        ({"parent_how": Descent.KEIKI}, "parent_how", "of no plant named"),
        ({"parent_id": 99}, "parent_id", "not there any more"),
        ({"parentage": "one\ntwo"}, "parentage", "more than one line"),
        ({"papers": "a\x07b"}, "papers", "control character"),
        ({"quarantine_until": date(2999, 1, 1)}, "quarantine_until", "be meant"),
        (
            {"quarantine_until": DAY, "acquired_on": date(2026, 5, 4)},
            "quarantine_until",
            "before C8 came",
        ),
        ({"bench_id": 99}, "bench_id", "not there any more"),
    ],
)
def test_a_slip_is_named_and_nothing_is_written(
    collection: Collection, changes: dict[str, object], field: str, said: str
) -> None:
    plant_id = collection.plants.add(PlantDraft("C7", "One", "")).ids[0]
    before = collection.plants.get(plant_id)
    slip = replace(before, tag="C8", **changes)
    attempts: tuple[Callable[[], Written], ...] = (
        lambda: collection.plants.add(slip),
        lambda: collection.plants.change(plant_id, slip),
    )
    for attempt in attempts:
        with pytest.raises(InputError, match=said) as caught:
            attempt()
        assert caught.value.field == field
        assert caught.value.hint
    assert collection.plants.all() == ((plant_id, before),)


def test_a_bench_is_of_the_place(collection: Collection) -> None:
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    shelf = collection.places.add(PlaceDraft("Shelf", "shelf")).ids[0]
    bench = collection.benches.add(shelf, BenchDraft("lower")).ids[0]
    for place, said in ((sill, "is no bench of Sill"), (None, "no place is set")):
        draft = PlantDraft("A1", "", "", place, bench_id=bench)
        with pytest.raises(InputError, match=said) as caught:
            collection.plants.add(draft)
        assert (caught.value.field, caught.value.value) == ("bench_id", "lower")
    made = collection.plants.add(PlantDraft("A1", "", "", shelf, bench_id=bench))
    assert collection.day.detail(made.ids[0], DAY).bench_name == "lower"


def test_numbers_go_on_along_each_bench(collection: Collection) -> None:
    place = collection.places.add(PlaceDraft("Shelf", "shelf")).ids[0]
    upper = collection.benches.add(place, BenchDraft("upper")).ids[0]
    lower = collection.benches.add(place, BenchDraft("lower")).ids[0]
    made = [
        collection.plants.add(PlantDraft(tag, "", "", place, bench_id=bench)).ids[0]
        for tag, bench in (("A1", upper), ("A2", upper), ("A3", lower), ("A4", None))
    ]
    assert [collection.plants.get(each).bench for each in made] == [1, 2, 1, 1]
    moved = replace(collection.plants.get(made[0]), bench=None, bench_id=lower)
    collection.plants.change(made[0], moved)
    assert collection.plants.get(made[0]).bench == 2


def test_no_plant_comes_of_itself(collection: Collection) -> None:
    first = collection.plants.add(PlantDraft("A1", "", "")).ids[0]
    second = collection.plants.add(PlantDraft("A2", "", "", parent_id=first)).ids[0]
    third = collection.plants.add(PlantDraft("A3", "", "", parent_id=second)).ids[0]
    for parent, value, said in (
        (first, "A1", "is this plant itself"),
        (second, "A2", "came of A1 itself"),
        (third, "A3", "came of A1 itself"),
    ):
        draft = replace(collection.plants.get(first), parent_id=parent)
        with pytest.raises(InputError, match=said) as caught:
            collection.plants.change(first, draft)
        assert (caught.value.field, caught.value.value) == ("parent_id", value)
    assert collection.plants.get(first).parent_id is None


def test_kin_is_told_up_and_down_with_what_left(collection: Collection) -> None:
    def add(tag: str, parent: int | None, how: Descent | None = None) -> int:
        draft = PlantDraft(tag, f"name {tag}", "", parent_id=parent, parent_how=how)
        return collection.plants.add(draft).ids[0]

    old = add("A1", None)
    middle = add("A2", old, Descent.DIVISION)
    ten = add("A10", middle, Descent.KEIKI)
    nine = add("A9", middle, Descent.BACK_BULB)
    last = add("A11", nine, Descent.SEEDLING)
    other = add("B1", old, Descent.DIVISION)
    gone = replace(
        collection.plants.get(other), status=Status.LOST, left_on=DAY, left_why="rot"
    )
    collection.plants.change(other, gone)
    up = [(kin.tag, kin.how, kin.steps) for kin in collection.plants.ancestors(ten)]
    assert up == [("A2", Descent.KEIKI, 1), ("A1", Descent.DIVISION, 2)]
    down = collection.plants.descendants(old)
    assert [(kin.tag, kin.steps) for kin in down] == [
        ("A2", 1),
        ("A9", 2),
        ("A11", 3),
        ("A10", 2),
        ("B1", 1),
    ]
    assert [kin.left for kin in down] == [""] * 4 + ["lost on 3 May 2026"]
    detail = collection.day.detail(middle, DAY)
    assert [kin.tag for kin in detail.ancestors] == ["A1"]
    assert [kin.tag for kin in detail.descendants] == ["A9", "A11", "A10"]
    collection.plants.remove([middle])
    assert collection.plants.ancestors(ten) == ()
    assert [kin.tag for kin in collection.plants.descendants(old)] == ["B1"]
    kept = replace(collection.plants.get(ten), note="its parent lies in the bin")
    collection.plants.change(ten, kept)
    assert collection.plants.get(ten).parent_id == middle
    assert collection.plants.descendants(last) == ()


def test_a_tray_is_told_with_its_count_on_list_and_sheet(
    collection: Collection, today: date
) -> None:
    for tag, held, many in (
        ("A1", HeldAs.TRAY, 6),
        ("A2", HeldAs.FLASK, None),
        ("A3", None, None),
    ):
        draft = PlantDraft(tag, "", "", held_as=held, how_many=many)
        collection.plants.add(draft)
    told = ["tray ×6", "flask", ""]
    assert [line.together for line in collection.day.view().lines] == told
    sheet = collection.sheet.week(today).rounds[0]
    lines = [line for place in sheet.places for line in place.lines]
    assert [line.together for line in lines] == told


def test_tags_are_proposed_for_many(collection: Collection) -> None:
    collection.plants.add(PlantDraft("B 010", "", ""))
    collection.plants.add(PlantDraft("b 012", "", ""))
    collection.plants.add(PlantDraft("B 009", "", ""))
    assert collection.plants.next_tags(3) == ("B 011", "B 013", "B 014")
    assert collection.plants.next_tag() == "B 011"
    assert collection.plants.next_tags(0) == ()
    assert following("", (), 2) == ("A1", "A2")
    assert following("Lou", ["a1"], 2) == ("A2", "A3")
    assert following("A9", ["A10"], 1) == ("A11",)
