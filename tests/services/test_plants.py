"""Plants and places: what is kept, what is refused, and what undo brings back."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    Facing,
    Glass,
    Medium,
    Overrule,
    Reading,
    Size,
    Verdict,
    Water,
)
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.plants import tag_order
from growdesk.services.values import (
    Changed,
    PlaceDraft,
    PlantDraft,
    TinDraft,
    Written,
)

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

NAN, INF = float("nan"), float("inf")


def full(place: int, today: date) -> PlantDraft:
    """Give a plant with every field filled."""
    return PlantDraft(
        tag="C7",
        name="Cattleya Example 'Élan'",
        kind="cattleya",
        place_id=place,
        bench=4,
        hybrid=True,
        pot_volume_l=1.25,
        volume_l=0.4,
        medium=Medium.SEMI_HYDRO,
        mounted=True,
        size=Size.NEAR_BLOOMING,
        under_cover=True,
        repotted_on=today - timedelta(days=40),
        slow_release_until=today + timedelta(days=40),
        full_strength_ppm_n=210.0,
        feed_ceiling_ppm_n=300.0,
        feed_interval_days=5,
        ignores_rest=True,
        overrule=Overrule(
            Verdict.CLEAR_WATER, "new roots", today, Water.SPARING, today
        ),
        acquired_on=date(2019, 4, 1),
        source="a swap",
        note="two lines\nof note",
    )


def test_a_plant_comes_back_as_it_was_given(
    collection: Collection, today: date
) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    draft = full(place, today)
    done = collection.plants.add(draft)
    assert collection.plants.get(done.ids[0]) == draft
    assert collection.plants.all() == ((done.ids[0], draft),)
    assert done.changed == Changed.PLANTS
    assert done.title == "Plant C7 added"


def test_a_plant_with_nothing_but_a_tag_is_enough(collection: Collection) -> None:
    plant_id = collection.plants.add(PlantDraft(" A1 ", "", "")).ids[0]
    assert collection.plants.get(plant_id) == PlantDraft("A1", "", "", bench=1)


def test_tags_are_unique_whatever_their_case_until_binned(
    collection: Collection,
) -> None:
    first = collection.plants.add(PlantDraft("c7", "One", "")).ids[0]
    with pytest.raises(InputError, match="on another plant already") as caught:
        collection.plants.add(PlantDraft("C7", "Two", ""))
    assert caught.value.field == "tag"
    other = collection.plants.add(PlantDraft("C8", "Two", "")).ids[0]
    with pytest.raises(InputError):
        collection.plants.change(other, PlantDraft("c7", "Two", ""))
    collection.plants.change(first, PlantDraft("C7", "One", ""))
    collection.plants.remove([first])
    assert collection.plants.find("c7") is None
    collection.plants.change(other, PlantDraft("c7", "Two", ""))
    assert collection.plants.find(" C7 ") == other


def test_the_bin_gives_back_by_undo(collection: Collection, today: date) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    draft = full(place, today)
    plant_id = collection.plants.add(draft).ids[0]
    assert collection.plants.remove([plant_id]).title == "Plant C7 removed"
    assert collection.plants.all() == ()
    with pytest.raises(InputError, match="not there any more"):
        collection.plants.get(plant_id)
    with pytest.raises(InputError, match="not there any more"):
        collection.plants.remove([plant_id])
    undone = collection.history.undo()
    assert undone is not None
    assert undone.changed == Changed.PLANTS
    assert collection.plants.get(plant_id) == draft


def test_bench_numbers_go_on_within_a_place(collection: Collection) -> None:
    sill = collection.places.add(PlaceDraft("Sill")).ids[0]
    shelf = collection.places.add(PlaceDraft("Shelf", "shelf")).ids[0]
    made = [
        collection.plants.add(PlantDraft(tag, "", "", place_id=place)).ids[0]
        for tag, place in (("A1", sill), ("A2", sill), ("B1", shelf))
    ]
    benches = [collection.plants.get(plant_id).bench for plant_id in made]
    assert benches == [1, 2, 1]
    order = [line.tag for line in collection.day.view().lines]
    assert order == ["B1", "A1", "A2"]
    for place, bench in ((sill, 1), (shelf, 2), (sill, 3)):
        draft = PlantDraft("A1", "", "", place_id=place)
        collection.plants.change(made[0], draft)
        assert collection.plants.get(made[0]).bench == bench


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("tag", " "),
        ("tag", "A\nB"),
        ("tag", "x" * 41),
        ("name", "a\x00b"),
        ("pot_volume_l", 0.0),
        ("pot_volume_l", -1.0),
        ("pot_volume_l", NAN),
        ("pot_volume_l", INF),
        ("volume_l", 5000.0),
        ("full_strength_ppm_n", -150.0),
        ("feed_ceiling_ppm_n", 0.0),
        ("feed_ceiling_ppm_n", 0.5),
        ("feed_interval_days", 0),
        ("feed_interval_days", 1.5),
        ("bench", -1),
        ("place_id", 99),
        ("repotted_on", date(2026, 5, 21)),
        ("repotted_on", date(19, 5, 21)),
        ("acquired_on", date(2030, 1, 1)),
        ("overrule", Overrule(Verdict.FEED, " ", date(2026, 6, 1))),
        (
            "overrule",
            Overrule(Verdict.FEED, "so", date(2026, 5, 1), since=date(2026, 5, 2)),
        ),
    ],
)
def test_a_slip_is_named_and_nothing_is_written(
    collection: Collection, field: str, value: object
) -> None:
    plant_id = collection.plants.add(PlantDraft("C7", "One", "")).ids[0]
    before = collection.plants.get(plant_id)
    slip = replace(before, **{"tag": "C8", field: value})
    attempts: tuple[Callable[[], Written], ...] = (
        lambda: collection.plants.add(slip),
        lambda: collection.plants.change(plant_id, slip),
    )
    for attempt in attempts:
        with pytest.raises(InputError) as caught:
            attempt()
        assert caught.value.field == field
        assert "\n" not in caught.value.line()
    assert collection.plants.all() == ((plant_id, before),)
    assert collection.history.view().undo == "Plant C7 added"


def test_an_overrule_that_is_over_is_refused_but_one_that_ran_out_stays(
    folder: Path, today: date
) -> None:
    begun = Collection.open(folder, FixedClock(today), create=True)
    over = Overrule(Verdict.KEEP_DRY, "smells sour", today - timedelta(days=1))
    draft = PlantDraft("C7", "", "", overrule=over)
    with pytest.raises(InputError, match="is over already") as caught:
        begun.plants.add(draft)
    assert caught.value.field == "until"
    last = replace(over, until=today)
    plant_id = begun.plants.add(replace(draft, overrule=last)).ids[0]
    begun.close()
    later = Collection.open(folder, FixedClock(today + timedelta(days=9)))
    kept = later.plants.get(plant_id)
    later.plants.change(plant_id, replace(kept, name="Named since"))
    assert kept.overrule is not None
    moved = replace(kept.overrule, until=today + timedelta(days=3))
    with pytest.raises(InputError, match="is over already"):
        later.plants.change(plant_id, replace(kept, overrule=moved))
    assert later.plants.get(plant_id) == replace(kept, name="Named since")
    later.close()


def test_a_name_has_its_length(collection: Collection) -> None:
    collection.plants.add(PlantDraft("C1", "x" * 120, ""))
    attempts: tuple[Callable[[], Written], ...] = (
        lambda: collection.plants.add(PlantDraft("C2", "x" * 121, "")),
        lambda: collection.places.add(PlaceDraft("x" * 121)),
        lambda: collection.mixing.add_tin(TinDraft("x" * 121, "20-20-20")),
    )
    for attempt in attempts:
        with pytest.raises(InputError, match="too long") as caught:
            attempt()
        assert caught.value.field == "name"


def test_an_overrule_begins_today_where_no_day_was_given(
    collection: Collection, today: date
) -> None:
    overrule = Overrule(Verdict.KEEP_DRY, "smells sour", today + timedelta(days=7))
    draft = PlantDraft("C7", "", "", overrule=overrule)
    plant_id = collection.plants.add(draft).ids[0]
    kept = collection.plants.get(plant_id).overrule
    assert kept == replace(overrule, since=today)


def test_the_next_tag_goes_on_from_the_newest(collection: Collection) -> None:
    assert collection.plants.next_tag() == "A1"
    for tag, then in (("A9", "A10"), ("B 007", "B 008"), ("Lou", "A1"), ("A1", "A2")):
        collection.plants.add(PlantDraft(tag, "", ""))
        assert collection.plants.next_tag() == then
    collection.plants.add(PlantDraft("a3", "", ""))
    collection.plants.add(PlantDraft("A2", "", ""))
    assert collection.plants.next_tag() == "A4"


def test_tags_sort_as_a_person_sorts_them() -> None:
    tags = ["B1", "A10", "a2", "A1", "7", "10"]
    assert sorted(tags, key=tag_order) == ["7", "10", "A1", "a2", "A10", "B1"]


def test_a_name_leads_to_its_kind(collection: Collection) -> None:
    assert collection.plants.guess_kind("Cattleya labiata 'Dawn'") == "cattleya"
    assert collection.plants.guess_kind("Plastic fern") == ""
    kinds = dict(collection.plants.kinds())
    assert kinds["cattleya"]
    assert list(kinds.values()) == sorted(kinds.values(), key=str.casefold)


def test_places_count_their_plants_and_last_week(
    collection: Collection, today: date
) -> None:
    place = collection.places.add(PlaceDraft("Sill", note="draughty")).ids[0]
    for days, mean in ((0, 20.0), (6, 22.0), (7, 90.0 - 50.0)):
        on = today - timedelta(days=days)
        collection.readings.write(place, Reading(on, mean))
    gone = collection.plants.add(PlantDraft("A1", "", "", place_id=place)).ids[0]
    collection.plants.add(PlantDraft("A2", "", "", place_id=place))
    collection.plants.remove([gone])
    (view,) = collection.places.all()
    assert view.draft == PlaceDraft("Sill", note="draughty")
    assert view.plants == 1
    assert view.mean_7_days_c == pytest.approx(21.0)


def test_a_place_with_plants_is_not_removed_and_says_which(
    collection: Collection, today: date
) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    collection.readings.write(place, Reading(today, 20.0))
    plant = collection.plants.add(PlantDraft("A1", "", "", place_id=place)).ids[0]
    with pytest.raises(InputError, match="still has plants") as caught:
        collection.places.remove(place)
    assert "A1" in caught.value.line()
    collection.plants.remove([plant])
    collection.places.remove(place)
    assert collection.places.all() == ()
    collection.history.undo()
    collection.history.undo()
    assert collection.plants.get(plant).place_id == place
    assert collection.places.all()[0].mean_7_days_c == pytest.approx(20.0)


def test_places_are_changed_and_their_slips_named(collection: Collection) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    collection.places.add(PlaceDraft("Balcony", "balcony"))
    lit = PlaceDraft(
        "Sill",
        "shelf",
        lamps_hours=12.0,
        lamps_ppfd=90.0,
        facing=Facing.NORTH_EAST,
        glass=Glass.TRIPLE,
        shaded=0.25,
    )
    collection.places.change(place, lit)
    assert collection.places.all()[1].draft == lit
    slips = {
        "name": replace(lit, name="balcony"),
        "kind": replace(lit, kind="cellar"),
        "lamps_ppfd": replace(lit, lamps_ppfd=None),
        "lamps_hours": replace(lit, lamps_hours=25.0),
        "shaded": replace(lit, shaded=0.96),
    }
    for field, slip in slips.items():
        with pytest.raises(InputError) as caught:
            collection.places.change(place, slip)
        assert caught.value.field == field
    with pytest.raises(InputError, match="not there any more"):
        collection.places.change(99, replace(lit, name="Other"))
    assert collection.places.all()[1].draft == lit
