"""Benches: their order is the order of the round, after every way to change it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import Engine, event, select

from growdesk.domain.errors import InputError
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import BenchRow, PlantRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection


class Sill:
    """A place with two benches and five plants, none of them on a bench yet."""

    def __init__(self, collection: Collection) -> None:
        self.collection = collection
        self.place = collection.places.add(PlaceDraft("Sill")).ids[0]
        self.plants = {
            tag: collection.plants.add(PlantDraft(tag, "", "cattleya", self.place)).ids[
                0
            ]
            for tag in ("A1", "A2", "A3", "A4", "A5")
        }
        self.top, self.low = (
            collection.benches.add(self.place, BenchDraft(name)).ids[0]
            for name in ("Top", "Low")
        )

    def ids(self, *tags: str) -> list[int]:
        return [self.plants[tag] for tag in tags]

    def put(self, bench: int | None, *tags: str) -> None:
        self.collection.benches.put(self.place, bench, self.ids(*tags))

    @property
    def benches(self) -> dict[str, list[str]]:
        views = self.collection.benches.of_place(self.place).benches
        return {v.draft.name: [each.tag for each in v.plants] for v in views}


@pytest.fixture
def sill(collection: Collection) -> Sill:
    return Sill(collection)


def walk(collection: Collection) -> list[str]:
    return [
        line.tag
        for each in collection.sheet.week(collection.clock.today()).rounds[:1]
        for place in each.places
        for line in place.lines
    ]


def test_plants_go_after_those_on_the_bench_and_benches_before_the_loose(
    sill: Sill, collection: Collection
) -> None:
    sill.put(sill.low, "A4", "A2")
    sill.put(sill.top, "A5")
    sill.put(sill.low, "A1")
    assert sill.benches == {"Top": ["A5"], "Low": ["A4", "A2", "A1"], "": ["A3"]}
    assert walk(collection) == ["A5", "A4", "A2", "A1", "A3"]


def test_the_benches_order_is_the_rounds(sill: Sill, collection: Collection) -> None:
    sill.put(sill.top, "A1", "A2")
    sill.put(sill.low, "A3")
    collection.benches.order(sill.place, (sill.low, sill.top))
    assert walk(collection) == ["A3", "A1", "A2", "A4", "A5"]
    collection.history.undo()
    assert walk(collection) == ["A1", "A2", "A3", "A4", "A5"]
    collection.history.redo()
    assert walk(collection) == ["A3", "A1", "A2", "A4", "A5"]


def test_an_order_along_a_bench_is_one_step_and_numbers_from_one(
    sill: Sill, collection: Collection
) -> None:
    sill.put(sill.top, "A1", "A2", "A3")
    done = collection.benches.along(sill.place, sill.top, sill.ids("A3", "A1", "A2"))
    assert done.title == "Plants along Top put in order"
    assert walk(collection)[:3] == ["A3", "A1", "A2"]
    assert [collection.plants.get(each).bench for each in sill.ids("A3", "A1")] == [
        1,
        2,
    ]
    assert collection.history.undo() is not None
    assert walk(collection)[:3] == ["A1", "A2", "A3"]


def test_the_loose_are_put_in_order_too(sill: Sill, collection: Collection) -> None:
    turned = ("A5", "A4", "A3", "A2", "A1")
    collection.benches.along(sill.place, None, sill.ids(*turned))
    assert walk(collection) == list(turned)


def test_a_bench_that_goes_leaves_its_plants_in_the_place(
    sill: Sill, collection: Collection
) -> None:
    sill.put(sill.top, "A2", "A1")
    collection.benches.remove(sill.top)
    assert sill.benches == {"Low": [], "": ["A3", "A4", "A5", "A2", "A1"]}
    assert walk(collection) == ["A3", "A4", "A5", "A2", "A1"]
    collection.history.undo()
    assert sill.benches == {"Top": ["A2", "A1"], "Low": [], "": ["A3", "A4", "A5"]}
    collection.history.redo()
    assert sill.benches["Low"] == []
    assert "Top" not in sill.benches


def test_a_plant_in_the_bin_holds_no_bench_back(
    sill: Sill, collection: Collection
) -> None:
    sill.put(sill.top, "A1")
    collection.plants.remove(sill.ids("A1"))
    collection.benches.remove(sill.top)
    with collection.ledger.reading() as session:
        held = session.scalars(
            select(PlantRow.id).where(PlantRow.bench_id.is_not(None))
        )
        assert held.all() == []


def test_a_bench_is_changed_and_named_once_in_its_place(
    sill: Sill, collection: Collection
) -> None:
    draft = BenchDraft("Pane", at_glass=True, note="cold in January")
    collection.benches.change(sill.low, draft)
    views = collection.benches.of_place(sill.place).benches
    assert [view.draft for view in views][:2] == [BenchDraft("Top"), draft]
    with pytest.raises(InputError, match="is a bench here already"):
        collection.benches.add(sill.place, BenchDraft("tOP"))
    with pytest.raises(InputError, match="is empty"):
        collection.benches.change(sill.low, BenchDraft("  "))
    other = collection.places.add(PlaceDraft("Tent")).ids[0]
    collection.benches.add(other, BenchDraft("Top"))
    assert [each.name for each in collection.benches.choices()] == [
        "Top",
        "Pane",
        "Top",
    ]


def test_what_does_not_belong_there_is_refused(
    sill: Sill, collection: Collection
) -> None:
    other = collection.places.add(PlaceDraft("Tent")).ids[0]
    elsewhere = collection.benches.add(other, BenchDraft("Tray")).ids[0]
    with pytest.raises(InputError, match="is in another place"):
        sill.put(elsewhere, "A1")
    with pytest.raises(InputError, match="does not stand in this place"):
        collection.benches.put(other, elsewhere, sill.ids("A1"))
    with pytest.raises(InputError, match="not those that are there now"):
        collection.benches.order(sill.place, (sill.top,))
    with pytest.raises(InputError, match="not those that are there now"):
        collection.benches.along(sill.place, None, sill.ids("A1", "A1"))
    with pytest.raises(InputError, match="are not named"):
        collection.benches.put(sill.place, sill.top, ())
    collection.benches.remove(elsewhere)
    with pytest.raises(InputError, match="is not there any more"):
        collection.benches.remove(elsewhere)
    with collection.ledger.reading() as session:
        assert set(session.scalars(select(BenchRow.name))) == {"Top", "Low"}


def test_list_week_and_sheet_name_the_bench_and_keep_its_order(
    sill: Sill, collection: Collection
) -> None:
    sill.put(sill.low, "A4")
    sill.put(sill.top, "A5", "A2")
    benches = {"A5": "Top", "A2": "Top", "A4": "Low", "A1": "", "A3": ""}
    on = collection.clock.today()
    view = collection.day.view()
    assert {line.tag: line.bench_name for line in view.lines} == benches
    week = collection.day.week(on)
    assert {line.tag: line.bench_name for line in week.lines} == benches
    order = ["A5", "A2", "A4", "A1", "A3"]
    assert [line.tag for line in week.lines] == order
    places = collection.sheet.week(on).rounds[0].places
    assert [(p.name, p.bench, p.has_benches) for p in places] == [
        ("Sill", "Top", True),
        ("Sill", "Low", True),
        ("Sill", "", True),
    ]
    assert [line.tag for place in places for line in place.lines] == order


def test_a_place_without_benches_has_no_heading_of_one(
    sill: Sill, collection: Collection
) -> None:
    (place,) = collection.sheet.week(collection.clock.today()).rounds[0].places
    assert (place.name, place.bench, place.has_benches) == ("Sill", "", False)
    assert len(place.lines) == len(sill.plants)


def test_places_are_walked_in_their_own_order(
    sill: Sill, collection: Collection
) -> None:
    attic = collection.places.add(PlaceDraft("Attic")).ids[0]
    collection.plants.add(PlantDraft("B1", "", "cattleya", attic))
    assert [view.draft.name for view in collection.places.all()] == ["Attic", "Sill"]
    assert walk(collection)[0] == "B1"
    collection.benches.order_places((sill.place, attic))
    assert [view.draft.name for view in collection.places.all()] == ["Sill", "Attic"]
    assert walk(collection)[-1] == "B1"
    kept = next(v for v in collection.places.all() if v.draft.name == "Sill").draft
    collection.places.change(sill.place, replace(kept, outdoors=True))
    assert walk(collection)[-1] == "B1"
    with pytest.raises(InputError, match="not those that are there now"):
        collection.benches.order_places((attic,))


def statements(collection: Collection, size: int) -> int:
    """Count what ordering a bench of ``size`` plants asks of the database."""
    place = collection.places.add(PlaceDraft(f"Place {size}")).ids[0]
    bench = collection.benches.add(place, BenchDraft("Long")).ids[0]
    ids = [
        collection.plants.add(PlantDraft(f"{size}-{n}", "", "cattleya", place)).ids[0]
        for n in range(size)
    ]
    said: list[str] = []

    def note(*each: object) -> None:
        said.append(str(each[2]))

    event.listen(Engine, "before_cursor_execute", note)
    collection.benches.put(place, bench, ids)
    collection.benches.along(place, bench, ids[::-1])
    collection.benches.of_place(place)
    collection.benches.remove(bench)
    event.remove(Engine, "before_cursor_execute", note)
    return len(said)


def test_as_many_statements_for_many_plants_as_for_few(collection: Collection) -> None:
    few = statements(collection, 2)
    assert 0 < few == statements(collection, 12)
