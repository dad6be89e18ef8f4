"""A year in review: what counts to which year, what is a first, what is compared."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from PIL import Image

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Look
from growdesk.domain.holding import Descent, Status
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.long_work import StoppedError
from growdesk.services.values import PlantDraft
from growdesk.services.year_review import (
    MOST_PHOTOS,
    calendar_year,
    twelve_months,
)
from growdesk.store.schema import CareRow

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

YEAR = (date(2025, 1, 1), date(2025, 12, 31))


def add(collection: Collection, tag: str, **fields: object) -> int:
    draft = PlantDraft(tag, f"Name of {tag}", "cattleya", **fields)  # type: ignore[arg-type]
    return collection.plants.add(draft).ids[0]


def give(collection: Collection, plant_id: int, on: date, what: CareKind) -> None:
    strength = 100.0 if what is CareKind.FEED else None
    with collection.ledger.writing("care") as writing:
        writing.insert(
            CareRow,
            {
                "plant_id": plant_id,
                "day": on,
                "what": what.value,
                "strength_ppm_n": strength,
            },
        )


def test_days_of_a_year(today: date) -> None:
    assert calendar_year(2025, today) == YEAR
    assert calendar_year(2026, today) == (date(2026, 1, 1), today)
    assert twelve_months(today, today) == (date(2025, 5, 21), today)
    assert twelve_months(date(2025, 12, 31), today) == YEAR
    assert twelve_months(date(2024, 2, 28), today)[0] == date(2023, 3, 1)
    assert twelve_months(date(2024, 2, 29), today)[0] == date(2023, 3, 1)
    for year in (0, 1979, 2027):
        with pytest.raises(InputError, match="no year to look back on"):
            calendar_year(year, today)
    with pytest.raises(InputError, match="still to come"):
        twelve_months(today + timedelta(days=1), today)
    with pytest.raises(InputError, match="too long ago"):
        twelve_months(date(1, 1, 1), today)


def test_an_empty_collection_has_an_empty_year(collection: Collection) -> None:
    review = collection.years.make(YEAR)
    assert (review.growing, review.looks, review.rounds, review.photos_of) == (0,) * 4
    told = (review.blooms, review.grown, review.came, review.went)
    assert not any(told)
    assert review.rounds_of == 105
    assert len(review.months) == 12


def test_a_bloom_counts_where_it_was_open(collection: Collection) -> None:
    first, second = add(collection, "A1"), add(collection, "A2")
    for plant_id, begins, ends in (
        (first, date(2024, 3, 1), date(2024, 4, 1)),
        (first, date(2024, 12, 20), date(2025, 1, 10)),
        (second, date(2025, 6, 1), date(2025, 6, 30)),
        (second, date(2026, 2, 1), None),
    ):
        draft = BloomDraft(first_open_on=begins, last_faded_on=ends, flowers=3)
        collection.blooms.add(plant_id, draft)
    found = collection.years.make(YEAR).blooms
    assert [(each.who.tag, each.is_first) for each in found] == [
        ("A1", False),
        ("A2", True),
    ]
    assert [each.days for each in found] == [22, 30]
    later = collection.years.make((date(2026, 1, 1), date(2026, 5, 20))).blooms
    assert [(each.who.tag, each.days, each.is_first) for each in later] == [
        ("A2", None, False)
    ]


def test_care_counts_by_month_and_by_round(collection: Collection) -> None:
    plant = add(collection, "A1")
    wednesday, thursday = date(2025, 3, 5), date(2025, 3, 6)
    give(collection, plant, wednesday, CareKind.FEED)
    give(collection, plant, thursday, CareKind.CLEAR_WATER)
    give(collection, plant, date(2025, 7, 2), CareKind.FLUSH)
    give(collection, plant, date(2025, 7, 5), CareKind.REPOT)
    give(collection, plant, date(2024, 12, 31), CareKind.FEED)
    review = collection.years.make(YEAR)
    march, july = review.months[2], review.months[6]
    assert (march.fed, march.clear, march.flushed) == (1, 1, 0)
    assert (july.fed, july.flushed) == (0, 1)
    assert sum(month.fed for month in review.months) == 1
    assert review.strength_ppm_n == 100
    assert (review.rounds, review.rounds_of) == (2, 105)
    assert [(who.tag, on) for who, on in review.repotted] == [("A1", date(2025, 7, 5))]


def test_growth_is_held_against_the_year_before(collection: Collection) -> None:
    better, new = add(collection, "A1"), add(collection, "B1")
    for plant_id, on, lead in (
        (better, date(2024, 6, 1), 80.0),
        (better, date(2025, 5, 1), 90.0),
        (better, date(2025, 6, 1), 120.0),
        (new, date(2025, 6, 1), 200.0),
    ):
        collection.looks.record(plant_id, Look(on, lead_length_mm=lead))
    first, second = collection.years.make(YEAR).grown
    assert (first.who.tag, first.lead_mm, first.lead_before_mm) == ("A1", 120, 80)
    assert first.gain == pytest.approx(1.5)
    assert (second.who.tag, second.gain) == ("B1", None)
    assert collection.years.make(YEAR).looks == 3
    assert collection.years.make(YEAR).looked_at == 2


def test_plants_come_and_go_with_their_reasons(collection: Collection) -> None:
    parent = add(collection, "A1", acquired_on=date(2020, 1, 1))
    add(
        collection,
        "A2",
        acquired_on=date(2025, 4, 1),
        parent_id=parent,
        parent_how=Descent.DIVISION,
    )
    add(
        collection,
        "A3",
        acquired_on=date(2019, 1, 1),
        status=Status.LOST,
        left_on=date(2025, 8, 1),
        left_why="crown rot",
    )
    add(collection, "A4", acquired_on=date(2026, 1, 1))
    review = collection.years.make(YEAR)
    assert [(each.who.tag, each.how, each.parent) for each in review.came] == [
        ("A2", Descent.DIVISION, "A1")
    ]
    assert [(each.who.tag, each.status, each.why) for each in review.went] == [
        ("A3", Status.LOST, "crown rot")
    ]
    assert review.growing == 2
    assert collection.years.make((date(2024, 1, 1), date(2024, 12, 31))).growing == 2


def picture(folder: Path, number: int, on: date) -> Path:
    image = Image.new("RGB", (64, 48), (number % 250, 99, 40))
    exif = Image.Exif()
    exif[306] = f"{on:%Y:%m:%d} 10:00:00"
    exif.get_ifd(0x8769)[0x9003] = f"{on:%Y:%m:%d} 10:00:00"
    exif.get_ifd(0x8825)[1] = "N"
    file = folder / f"{number}.jpg"
    image.save(file, exif=exif)
    return file


@pytest.fixture
def pictured(collection: Collection, tmp_path: Path) -> Collection:
    ids = [add(collection, "A1"), add(collection, "A2")]
    for number in range(20):
        month = 3 if number < 15 else number - 10
        on = date(2025, month, number + 1)
        file = picture(tmp_path, number, on)
        collection.photos.add(ids[number % 2], (file,))
    return collection


def test_photos_are_spread_over_months_and_plants(pictured: Collection) -> None:
    review = pictured.years.make(YEAR)
    assert (review.photos_of, len(review.photos)) == (20, MOST_PHOTOS)
    months = [photo.on.month for photo in review.photos]
    assert months == sorted(months)
    assert set(months) == {3, 5, 6, 7, 8, 9}
    assert {photo.who.tag for photo in review.photos} == {"A1", "A2"}
    for photo in review.photos:
        assert photo.file is not None
        with Image.open(photo.file) as small:
            assert not dict(small.getexif().get_ifd(0x8825))


def test_it_says_how_far_it_is_and_can_be_stopped(pictured: Collection) -> None:
    told: list[tuple[int, int]] = []
    pictured.years.make(YEAR, lambda done, of: told.append((done, of)))
    assert told == sorted(told)
    assert told[-1][0] == told[-1][1]

    def stop(done: int, _of: int) -> None:
        if done > 4:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        pictured.years.make(YEAR, stop)
