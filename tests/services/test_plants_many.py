"""Many plants moved, changed and repotted at once: one action, one undo."""

from __future__ import annotations

from datetime import date, timedelta
from functools import partial
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Medium, Size
from growdesk.domain.holding import Status
from growdesk.services.bench_values import BenchDraft
from growdesk.services.plant_values import CHANGEABLE, Leaving, ManyChanges
from growdesk.services.ticking import Repot
from growdesk.services.values import Changed, PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from growdesk.services.collection import Collection
    from growdesk.services.values import CareView
    from tests.services.conftest import Bench


def care(made: Collection, plant_id: int, today: date) -> tuple[CareView, ...]:
    return made.day.detail(plant_id, today).care


def test_a_move_is_kept_with_where_from_and_where_to(
    collection: Collection, bench: Bench, today: date
) -> None:
    shelf = collection.places.add(PlaceDraft("Shelf <b>", "shelf")).ids[0]
    upper = collection.benches.add(shelf, BenchDraft("upper")).ids[0]
    on = today - timedelta(days=4)
    ids = (bench.clear, bench.feed)
    done = collection.plants.move(ids, shelf, upper, on)
    assert done.title == "2 plants moved to Shelf <b>"
    assert done.changed == Changed.PLANTS | Changed.CARE
    for number, plant_id in enumerate(ids, 1):
        draft = collection.plants.get(plant_id)
        assert (draft.place_id, draft.bench_id, draft.bench) == (shelf, upper, number)
        (entry,) = care(collection, plant_id, today)
        assert (entry.on, entry.what) == (on, CareKind.MOVE)
        assert (entry.from_place, entry.to_place) == ("East sill", "Shelf <b>")
    collection.history.undo()
    assert collection.plants.get(bench.feed).place_id == bench.place
    assert care(collection, bench.feed, today) == ()
    collection.history.redo()
    assert collection.plants.get(bench.feed).bench_id == upper
    assert len(care(collection, bench.feed, today)) == 1


def test_what_only_changes_its_bench_has_no_entry_of_a_move(
    collection: Collection, bench: Bench, today: date
) -> None:
    lower = collection.benches.add(bench.place, BenchDraft("lower")).ids[0]
    collection.plants.move([bench.feed], bench.place, lower)
    assert collection.plants.get(bench.feed).bench_id == lower
    assert care(collection, bench.feed, today) == ()


def test_what_stands_there_stays_and_is_named(
    collection: Collection, bench: Bench, today: date
) -> None:
    shelf = collection.places.add(PlaceDraft("Shelf", "shelf")).ids[0]
    collection.plants.move([bench.feed], shelf)
    done = collection.plants.move([bench.feed, bench.clear], shelf)
    assert done.title == "Plant A2 moved to Shelf"
    assert done.problems == ("Already there: A1.",)
    assert done.ids == (bench.clear,)
    assert collection.plants.get(bench.feed).bench == 1
    assert len(care(collection, bench.feed, today)) == 1
    with pytest.raises(InputError, match="stand there already"):
        collection.plants.move([bench.feed, bench.clear], shelf)


def test_a_move_to_nowhere_and_from_nowhere_is_one_too(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert collection.plants.move([bench.feed], None).title == "Plant A1 moved"
    collection.plants.move([bench.feed], bench.place)
    ways = {
        (each.from_place, each.to_place) for each in care(collection, bench.feed, today)
    }
    assert ways == {("East sill", None), (None, "East sill")}


@pytest.mark.parametrize(
    ("place", "shelf", "on", "field"),
    [
        (99, None, None, "place_id"),
        (1, 99, None, "bench_id"),
        (2, 1, None, "bench_id"),
        (2, None, date(2026, 5, 21), "on"),
    ],
)
def test_a_slip_in_a_move_is_named(
    collection: Collection,
    bench: Bench,
    place: int,
    shelf: int | None,
    on: date | None,
    field: str,
) -> None:
    collection.places.add(PlaceDraft("Shelf", "shelf"))
    collection.benches.add(bench.place, BenchDraft("upper"))
    with pytest.raises(InputError) as caught:
        collection.plants.move([bench.feed], place, shelf, on)
    assert caught.value.field == field
    assert collection.plants.get(bench.feed).place_id == bench.place


TOUCHED = {
    "name": "Laelia <i>anceps</i>",
    "kind": "laelia",
    "hybrid": True,
    "medium": Medium.SEMI_HYDRO,
    "pot_volume_l": 0.8,
    "volume_l": 0.3,
    "mounted": True,
    "size": Size.SEEDLING,
    "under_cover": True,
    "slow_release_until": date(2026, 9, 1),
    "full_strength_ppm_n": 80.0,
    "feed_ceiling_ppm_n": 120.0,
    "feed_interval_days": 9,
    "ignores_rest": True,
    "acquired_on": date(2025, 3, 1),
    "source": "the autumn show",
    "parentage": "A × B",
    "papers": "permit 7",
    "quarantine_until": date(2026, 7, 1),
}


def test_each_field_is_given_to_many_and_all_else_stays(
    collection: Collection, bench: Bench
) -> None:
    assert set(TOUCHED) == set(CHANGEABLE)
    ids = (bench.feed, bench.clear)
    for field, value in TOUCHED.items():
        before = [collection.plants.get(each) for each in ids]
        aside = collection.plants.get(bench.dry)
        done = collection.plants.change_many(ids, ManyChanges({field: value}))
        assert "2 plants" in done.title
        assert done.title != "2 plants changed"
        wanted = [replace(each, **{field: value}) for each in before]
        assert [collection.plants.get(each) for each in ids] == wanted, field
        assert collection.plants.get(bench.dry) == aside
        collection.history.undo()
        assert [collection.plants.get(each) for each in ids] == before, field


def test_a_note_is_added_to_each_ones_own(collection: Collection, bench: Bench) -> None:
    draft = replace(collection.plants.get(bench.feed), note="by the door")
    collection.plants.change(bench.feed, draft)
    changes = ManyChanges({"papers": ""}, " seen by the vet \n")
    collection.plants.change_many([bench.feed, bench.clear], changes)
    assert collection.plants.get(bench.feed).note == "by the door\nseen by the vet"
    assert collection.plants.get(bench.clear).note == "seen by the vet"
    collection.history.undo()
    assert collection.plants.get(bench.feed).note == "by the door"


def test_a_field_may_be_emptied_of_many(collection: Collection, bench: Bench) -> None:
    changes = ManyChanges({"pot_volume_l": None, "kind": ""})
    collection.plants.change_many([bench.feed, bench.clear], changes)
    assert collection.plants.get(bench.clear).pot_volume_l is None
    assert collection.plants.get(bench.clear).kind == ""


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        (ManyChanges(), "plants"),
        (ManyChanges({}, "  "), "plants"),
        (ManyChanges({"tag": "X"}), "tag"),
        (ManyChanges({"parent_id": 1}), "parent_id"),
        (ManyChanges({"feed_interval_days": 0}), "feed_interval_days"),
        (ManyChanges({"quarantine_until": date(2026, 5, 1)}), "quarantine_until"),
        (ManyChanges({}, "a\x00b"), "note"),
    ],
)
def test_a_slip_in_one_of_them_changes_none(
    collection: Collection, bench: Bench, changes: ManyChanges, field: str
) -> None:
    came = replace(collection.plants.get(bench.clear), acquired_on=date(2026, 5, 2))
    collection.plants.change(bench.clear, came)
    before = collection.plants.all()
    with pytest.raises(InputError) as caught:
        collection.plants.change_many([bench.feed, bench.clear], changes)
    assert caught.value.field == field
    assert collection.plants.all() == before


def test_what_left_is_still_put_right(collection: Collection, bench: Bench) -> None:
    left = Leaving(Status.SOLD, date(2026, 5, 1))
    collection.plants.leave([bench.feed], left)
    changes = ManyChanges({"source": "a swap"})
    collection.plants.change_many([bench.feed, bench.clear], changes)
    assert collection.plants.get(bench.feed).source == "a swap"
    assert collection.plants.get(bench.feed).status is Status.SOLD


def test_a_repot_says_what_it_was_repotted_into(
    collection: Collection, bench: Bench, today: date
) -> None:
    draft = replace(collection.plants.get(bench.clear), medium=Medium.BARK)
    collection.plants.change(bench.clear, draft)
    new = Repot(today, 2.0, Medium.SPHAGNUM)
    collection.day.repot([bench.feed, bench.clear], new)
    for each in (bench.feed, bench.clear):
        (entry,) = care(collection, each, today)
        assert (entry.medium, entry.pot_volume_l) == (Medium.SPHAGNUM, 2.0)
    collection.history.undo()
    collection.day.repot([bench.clear], Repot(today))
    (entry,) = care(collection, bench.clear, today)
    assert (entry.medium, entry.pot_volume_l) == (None, None), "as before"
    assert collection.plants.get(bench.clear).medium is Medium.BARK


def test_statements_do_not_grow_with_the_plants(
    collection: Collection, bench: Bench
) -> None:
    shelf = collection.places.add(PlaceDraft("Shelf", "shelf")).ids[0]
    many = [
        collection.plants.add(PlantDraft(f"M{n}", "", "", bench.place)).ids[0]
        for n in range(30)
    ]

    def count(done: Callable[[], object]) -> int:
        statements: list[str] = []
        engine = collection.ledger.store._engine

        def heard(_c: object, _u: object, said: str, *_rest: object) -> None:
            statements.append(said)

        event.listen(engine, "before_cursor_execute", heard)
        done()
        event.remove(engine, "before_cursor_execute", heard)
        return len(statements)

    plants = collection.plants
    few = (bench.feed, bench.clear)
    changes = ManyChanges({"size": Size.BLOOMING}, "seen")
    left = Leaving(Status.SOLD, date(2026, 5, 1))
    deeds: tuple[Callable[[Sequence[int]], object], ...] = (
        lambda ids: plants.change_many(ids, changes),
        lambda ids: plants.move(ids, shelf),
        lambda ids: plants.leave(ids, left),
        plants.back,
    )
    for do in deeds:
        assert count(partial(do, few)) == count(partial(do, many))
