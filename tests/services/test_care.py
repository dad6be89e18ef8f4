"""Care of every kind: its checks, its corrections, what it took, what a repot dates."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Medium
from growdesk.services.care import CareDraft, draft_of
from growdesk.store.schema import DrawnRow

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from growdesk.services.values import CareView
    from tests.services.conftest import Bench


def care_of(collection: Collection, plant_id: int, today: date) -> list[CareView]:
    return list(collection.day.detail(plant_id, today).care)


def drawn(collection: Collection, care_id: int) -> dict[str, float]:
    with collection.ledger.reading() as session:
        rows = session.execute(
            select(DrawnRow.__table__).where(DrawnRow.care_id == care_id)
        ).all()
    return {"tin" if row.tin_id else "water": row.amount for row in rows}


def test_a_treatment_is_kept_with_its_label_for_many_plants(
    collection: Collection, bench: Bench, today: date
) -> None:
    again = today + timedelta(days=7)
    draft = CareDraft(
        today,
        CareKind.TREAT,
        note="wiped all leaves, scale",
        product="Soft soap",
        repeat_on=again,
    )
    done = collection.care.add([bench.feed, bench.dry], draft)
    assert done.title == "Treatment of 2 plants"
    for plant_id in (bench.feed, bench.dry):
        (kept,) = care_of(collection, plant_id, today)
        assert draft_of(kept) == draft
    collection.history.undo()
    assert care_of(collection, bench.feed, today) == []


@pytest.mark.parametrize(
    ("what", "given", "field"),
    [
        (CareKind.TREAT, {"note": "wiped"}, "product"),
        (CareKind.TREAT, {"product": "Soft soap"}, "note"),
        (CareKind.FLUSH, {"product": "Soft soap"}, "product"),
        (CareKind.CLEAR_WATER, {"rain_mm": 4.0}, "rain_mm"),
        (CareKind.RAIN, {"rain_mm": -1.0}, "rain_mm"),
        (CareKind.RAIN, {"volume_l": 1.0}, "volume_l"),
        (CareKind.FLUSH, {"strength_ppm_n": 100.0}, "strength_ppm_n"),
        (CareKind.MOVE, {"medium": Medium.BARK}, "medium"),
        (CareKind.FEED, {"pot_volume_l": 1.0}, "pot_volume_l"),
        (CareKind.REPOT, {"pot_volume_l": 0.0}, "pot_volume_l"),
        (CareKind.FEED, {"to_place": "Balcony"}, "to_place"),
        (CareKind.FEED, {"repeat_on": date(2026, 6, 1)}, "repeat_on"),
        (
            CareKind.TREAT,
            {"product": "S", "note": "n", "repeat_on": date(2026, 5, 20)},
            "repeat_on",
        ),
        (
            CareKind.TREAT,
            {"product": "S", "note": "n", "repeat_on": date(2028, 5, 20)},
            "repeat_on",
        ),
    ],
)
def test_what_does_not_fit_its_kind_is_refused_by_its_field(
    collection: Collection,
    bench: Bench,
    today: date,
    what: CareKind,
    given: dict[str, object],
    field: str,
) -> None:
    draft = CareDraft(today, what, **given)  # type: ignore[arg-type]
    with pytest.raises(InputError) as caught:
        collection.care.add([bench.feed], draft)
    assert caught.value.field == field
    assert caught.value.hint
    assert care_of(collection, bench.feed, today) == []


def test_rain_and_a_move_keep_what_belongs_to_them(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.care.add([bench.feed], CareDraft(today, CareKind.RAIN, rain_mm=12.0))
    move = CareDraft(today, CareKind.MOVE, from_place="East sill", to_place="Balcony")
    collection.care.add([bench.feed], move)
    moved, rained = care_of(collection, bench.feed, today)
    assert (moved.from_place, moved.to_place) == ("East sill", "Balcony")
    assert rained.rain_mm == 12.0


def test_a_corrected_note_leaves_what_was_taken_alone(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    (fed,) = care_of(collection, bench.feed, today)
    before = drawn(collection, fed.care_id)
    assert before.keys() == {"tin", "water"}
    draft = draft_of(fed)
    done = collection.care.change(
        fed.care_id,
        CareDraft(draft.on, draft.what, draft.strength_ppm_n, draft.volume_l, "late"),
    )
    assert done.title == "Feed given to A1 changed"
    (now,) = care_of(collection, bench.feed, today)
    assert now.note == "late"
    assert drawn(collection, fed.care_id) == before


def test_half_the_litres_take_half_and_undo_takes_all_again(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    (fed,) = care_of(collection, bench.feed, today)
    before = drawn(collection, fed.care_id)
    assert fed.volume_l is not None
    half = CareDraft(today, CareKind.FEED, fed.strength_ppm_n, fed.volume_l / 2)
    collection.care.change(fed.care_id, half)
    assert drawn(collection, fed.care_id) == {
        name: pytest.approx(amount / 2) for name, amount in before.items()
    }
    collection.history.undo()
    assert drawn(collection, fed.care_id) == before


def test_another_strength_is_reckoned_anew_and_clear_water_takes_no_feed(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.care.add([bench.feed], CareDraft(today, CareKind.FEED, 100.0, 1.0))
    (fed,) = care_of(collection, bench.feed, today)
    before = drawn(collection, fed.care_id)
    collection.care.change(fed.care_id, CareDraft(today, CareKind.FEED, 200.0, 1.0))
    assert drawn(collection, fed.care_id)["tin"] == pytest.approx(
        2 * before["tin"], rel=0.15
    )
    collection.care.change(
        fed.care_id, CareDraft(today, CareKind.CLEAR_WATER, None, 1.0)
    )
    assert drawn(collection, fed.care_id) == {"water": pytest.approx(1.0)}
    treat = CareDraft(today, CareKind.TREAT, note="wiped", product="by hand")
    collection.care.change(fed.care_id, treat)
    assert drawn(collection, fed.care_id) == {}


def test_deleting_puts_back_and_undo_takes_again(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    (fed,) = care_of(collection, bench.feed, today)
    before = drawn(collection, fed.care_id)
    done = collection.care.remove([fed.care_id])
    assert done.title == "Feed given to A1 on 20 May deleted"
    assert care_of(collection, bench.feed, today) == []
    assert drawn(collection, fed.care_id) == {}
    collection.history.undo()
    assert care_of(collection, bench.feed, today) == [fed]
    assert drawn(collection, fed.care_id) == before


def test_a_watering_is_not_moved_onto_another(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = today - timedelta(days=3)
    collection.care.add([bench.feed], CareDraft(before, CareKind.FLUSH))
    collection.care.add([bench.feed], CareDraft(today, CareKind.FEED, 100.0))
    fed, flushed = care_of(collection, bench.feed, today)
    with pytest.raises(InputError, match="has another watering of A1") as caught:
        collection.care.change(flushed.care_id, CareDraft(today, CareKind.FLUSH))
    assert caught.value.field == "on"
    moved = CareDraft(today - timedelta(days=1), CareKind.FEED, 100.0)
    collection.care.change(fed.care_id, moved)
    assert care_of(collection, bench.feed, today)[0].on == moved.on


def test_a_repot_dates_the_plant_however_it_is_corrected(
    collection: Collection, bench: Bench, today: date
) -> None:
    first, second = today - timedelta(days=400), today - timedelta(days=20)
    old = CareDraft(first, CareKind.REPOT, medium=Medium.BARK, pot_volume_l=0.8)
    new = CareDraft(second, CareKind.REPOT, medium=Medium.SPHAGNUM, pot_volume_l=1.5)
    collection.care.add([bench.feed], new)
    done = collection.care.add([bench.feed], old)
    assert done.problems == ("A1 stands in a later pot, which stays as it is.",)
    plant = collection.plants.get(bench.feed)
    assert (plant.repotted_on, plant.pot_volume_l) == (second, 1.5)
    assert plant.medium is Medium.SPHAGNUM

    newest, oldest = care_of(collection, bench.feed, today)
    assert oldest.medium is Medium.BARK
    earlier = second - timedelta(days=5)
    mended = CareDraft(earlier, CareKind.REPOT, medium=Medium.MINERAL, pot_volume_l=1.5)
    collection.care.change(newest.care_id, mended)
    plant = collection.plants.get(bench.feed)
    assert (plant.repotted_on, plant.medium) == (earlier, Medium.MINERAL)

    assert collection.care.remove([newest.care_id]).problems == ()
    plant = collection.plants.get(bench.feed)
    assert (plant.repotted_on, plant.medium) == (first, Medium.BARK)
    assert plant.pot_volume_l == 0.8

    done = collection.care.remove([oldest.care_id])
    plant = collection.plants.get(bench.feed)
    assert plant.repotted_on is None
    assert plant.medium is Medium.BARK
    assert done.problems == (
        "What A1 stood in before is not on record: pot and medium stayed as it was.",
    )
    for _ in range(3):
        collection.history.undo()
    assert collection.plants.get(bench.feed).repotted_on == second


def test_a_pot_that_the_grower_gave_otherwise_is_left_alone(
    collection: Collection, bench: Bench, today: date
) -> None:
    on = today - timedelta(days=30)
    collection.care.add([bench.feed], CareDraft(on, CareKind.REPOT, medium=Medium.BARK))
    draft = collection.plants.get(bench.feed)

    later = replace(draft, medium=Medium.SOIL, repotted_on=today)
    collection.plants.change(bench.feed, later)
    (repot,) = care_of(collection, bench.feed, today)
    collection.care.remove([repot.care_id])
    plant = collection.plants.get(bench.feed)
    assert (plant.repotted_on, plant.medium) == (today, Medium.SOIL)


def test_labels_used_before_are_offered_latest_first(
    collection: Collection, bench: Bench, today: date
) -> None:
    for back, product in ((9, "Soft soap"), (5, "Paraffin oil"), (2, "Soft soap")):
        on = today - timedelta(days=back)
        draft = CareDraft(on, CareKind.TREAT, note="scale", product=product)
        collection.care.add([bench.feed], draft)
    assert collection.care.products() == ("Soft soap", "Paraffin oil")


def test_what_is_gone_is_said_so(collection: Collection, today: date) -> None:
    with pytest.raises(InputError, match="not there any more"):
        collection.care.remove([99])
    with pytest.raises(InputError, match="not there any more"):
        collection.care.change(99, CareDraft(today, CareKind.FLUSH))
