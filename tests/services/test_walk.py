"""Walks: every plant in bench order with its last look, and what each form opens on."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Engine, event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Look, NewGrowths, Pot, RootTips
from growdesk.services.bench_values import BenchDraft
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.services.walk_values import AtStop, WalkChoice

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from growdesk.services.collection import Collection

SEEN = NewGrowths(extending=1)


@pytest.fixture
def shelf(collection: Collection, today: date) -> dict[str, int]:
    """Give a shelf with two benches, and a tent; A2 was looked at long ago."""
    place = collection.places.add(PlaceDraft("Shelf")).ids[0]
    tent = collection.places.add(PlaceDraft("Tent")).ids[0]
    low, top = (
        collection.benches.add(place, BenchDraft(name)).ids[0]
        for name in ("low", "top")
    )
    collection.benches.order(place, (top, low))
    stands = {"A1": low, "A2": top, "A3": low, "A4": None}
    ids = {
        tag: collection.plants.add(
            PlantDraft(tag, f"No. {tag}", "cattleya", place)
        ).ids[0]
        for tag in stands
    }
    for tag, bench in stands.items():
        collection.benches.put(place, bench, (ids[tag],))
    ids["B1"] = collection.plants.add(PlantDraft("B1", "", "cattleya", tent)).ids[0]
    for tag, days in (("A1", 3), ("A2", 400), ("A3", 0)):
        look = Look(today - timedelta(days=days), new_growths=SEEN)
        collection.looks.record(ids[tag], look, f"note of {tag}")
    return ids


def test_stops_are_in_walking_order_with_the_days_since_the_last_look(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    del shelf
    walk = collection.walks.stops(today)
    said = [(each.tag, each.where, each.days_since, each.is_due) for each in walk.stops]
    assert said == [
        ("A2", "Shelf · top", 400, True),
        ("A1", "Shelf · low", 3, False),
        ("A3", "Shelf · low", 0, False),
        ("A4", "Shelf", None, True),
        ("B1", "Tent", None, True),
    ]
    assert walk.on == today
    assert [name for _id, name in walk.places] == ["Shelf", "Tent"]
    assert walk.limit_days == collection.settings.house().look_limit_days


def test_a_look_is_due_a_day_past_its_limit(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    limit = collection.settings.house().look_limit_days
    seen = today - timedelta(days=3)
    at, past = (seen + timedelta(days=limit + more) for more in (0, 1))

    def due(on: date) -> bool:
        stops = collection.walks.stops(on).stops
        return next(each for each in stops if each.plant_id == shelf["A1"]).is_due

    assert (due(at), due(past)) == (False, True)


def test_a_choice_is_of_one_place_or_all_and_of_those_due(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    del shelf
    walk = collection.walks.stops(today)
    tent = next(key for key, name in walk.places if name == "Tent")

    def tags(choice: WalkChoice) -> list[str]:
        return [each.tag for each in walk.chosen(choice)]

    assert tags(WalkChoice()) == ["A2", "A1", "A3", "A4", "B1"]
    assert tags(WalkChoice(only_due=True)) == ["A2", "A4", "B1"]
    assert tags(WalkChoice(everywhere=False, place_id=tent)) == ["B1"]
    assert tags(WalkChoice(everywhere=False, place_id=None)) == []


def test_what_has_left_or_lies_in_the_bin_is_not_walked_to(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    collection.plants.remove((shelf["A1"],))
    assert "A1" not in [each.tag for each in collection.walks.stops(today).stops]


def test_a_stop_opens_on_the_last_look_without_its_measures(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    seen = Look(
        today - timedelta(days=1),
        new_growths=SEEN,
        root_tips=RootTips.RUNNING,
        longest_new_root_mm=30.0,
        pot=Pot.WET,
        keikis=1,
        keiki_root_mm=12.0,
        spike_mm=90.0,
    )
    collection.looks.record(shelf["A1"], seen, "sticky")
    stop = collection.walks.at(shelf["A1"], today)
    assert stop.look == Look(
        today, new_growths=SEEN, root_tips=RootTips.RUNNING, keikis=1
    )
    assert stop.look == collection.looks.start(shelf["A1"], today)
    assert (stop.note, stop.saved_id, stop.photo) == ("", None, None)
    assert stop.last is not None
    assert (stop.last.look, stop.last.note) == (seen, "sticky")
    assert "root tips running" in stop.last.signs
    blank = collection.walks.at(shelf["A4"], today)
    assert blank == AtStop(Look(today), "", None, None, None)
    with pytest.raises(InputError, match="is not there any more"):
        collection.walks.at(999, today)


def test_a_stop_come_back_to_opens_on_what_was_saved(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    plant = shelf["A1"]
    seen = Look(today, new_growths=SEEN, pot=Pot.DRY, longest_new_root_mm=8.0)
    saved = collection.looks.record(plant, seen, "two tips").ids[0]
    stop = collection.walks.at(plant, today, saved)
    assert (stop.look, stop.note, stop.saved_id) == (seen, "two tips", saved)
    assert stop.last is not None
    assert stop.last.note == "note of A1"
    collection.history.undo()
    back = collection.walks.at(plant, today, saved)
    assert (back.look, back.saved_id) == (Look(today, new_growths=SEEN), None)


def test_a_stop_shows_the_newest_photo_that_is_there(
    collection: Collection,
    shelf: dict[str, int],
    today: date,
    picture: Callable[..., Path],
) -> None:
    plant = shelf["A4"]
    collection.photos.add(plant, (picture("old.jpg", taken="2026:01:02 10:00:00"),))
    collection.photos.add(
        plant, (picture("new.jpg", "red", taken="2026:05:02 10:00:00"),)
    )
    photo = collection.walks.at(plant, today).photo
    assert photo is not None
    assert photo.taken_on == date(2026, 5, 2)
    photo.path.unlink()
    older = collection.walks.at(plant, today).photo
    assert older is not None
    assert older.taken_on == date(2026, 1, 2)


def statements(use: Callable[[], object]) -> int:
    said: list[str] = []

    def note(*each: object) -> None:
        said.append(str(each[2]))

    event.listen(Engine, "before_cursor_execute", note)
    use()
    event.remove(Engine, "before_cursor_execute", note)
    return len(said)


def test_a_walk_takes_as_many_statements_for_many_plants_as_for_few(
    collection: Collection, shelf: dict[str, int], today: date
) -> None:
    uses = (
        lambda: collection.walks.stops(today),
        lambda: collection.walks.at(shelf["A1"], today),
    )
    few = [statements(use) for use in uses]
    for number in range(40):
        draft = PlantDraft(f"C{number}", "", "cattleya")
        plant = collection.plants.add(draft).ids[0]
        collection.looks.record(plant, Look(today, new_growths=SEEN))
    assert [statements(use) for use in uses] == few
    assert few[0] <= 5
