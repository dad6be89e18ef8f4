"""Blooms: their checks, what a look proposes, what is expected, who blooms when."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Flowering, Look
from growdesk.services import bloom_year
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.values import Changed

if TYPE_CHECKING:
    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench

WHOLE = BloomDraft(
    spike_seen_on=date(2025, 1, 10),
    first_open_on=date(2025, 3, 12),
    last_faded_on=date(2025, 4, 20),
    flowers=14,
    spikes=2,
    size_mm=85.0,
    note="sweet at noon",
    award="AM/AOS 82 points",
)


def test_a_bloom_is_kept_corrected_deleted_and_brought_back(
    collection: Collection, bench: Bench
) -> None:
    done = collection.blooms.add(bench.feed, WHOLE)
    assert done.title == "Bloom of A1"
    assert done.changed == Changed.PLANTS
    (view,) = collection.blooms.of(bench.feed).blooms
    assert view.draft == WHOLE
    fewer = replace(WHOLE, flowers=12)
    assert collection.blooms.change(view.bloom_id, fewer).title == (
        "Bloom of A1 changed"
    )
    collection.blooms.remove(view.bloom_id)
    assert collection.blooms.of(bench.feed).blooms == ()
    collection.history.undo()
    (view,) = collection.blooms.of(bench.feed).blooms
    assert view.draft == fewer
    with pytest.raises(InputError, match="not there any more"):
        collection.blooms.remove(99)


@pytest.mark.parametrize(
    ("slip", "field"),
    [
        ({"first_open_on": date(2025, 1, 9)}, "first_open_on"),
        ({"last_faded_on": date(2025, 3, 11)}, "last_faded_on"),
        ({"first_open_on": None, "last_faded_on": date(2025, 1, 1)}, "last_faded_on"),
        ({"last_faded_on": date(2026, 5, 21)}, "last_faded_on"),
        ({"flowers": 0}, "flowers"),
        ({"spikes": -1}, "spikes"),
        ({"size_mm": 0.0}, "size_mm"),
        ({"award": "AM\nHCC"}, "award"),
        (
            {"spike_seen_on": None, "first_open_on": None, "last_faded_on": None},
            "first_open_on",
        ),
    ],
)
def test_a_slip_is_refused_by_its_field(
    collection: Collection, bench: Bench, slip: dict[str, object], field: str
) -> None:
    with pytest.raises(InputError) as caught:
        collection.blooms.add(bench.feed, replace(WHOLE, **slip))
    assert caught.value.field == field
    assert caught.value.hint
    assert collection.blooms.of(bench.feed).blooms == ()


def test_a_bloom_within_another_belongs_to_that_one(
    collection: Collection, bench: Bench
) -> None:
    collection.blooms.add(bench.feed, WHOLE)
    within = BloomDraft(first_open_on=date(2025, 4, 1))
    with pytest.raises(InputError, match="lies within another bloom") as caught:
        collection.blooms.add(bench.feed, within)
    assert caught.value.field == "first_open_on"
    collection.blooms.add(bench.feed, BloomDraft(first_open_on=date(2025, 9, 1)))
    collection.blooms.add(bench.clear, within)
    newest, oldest = collection.blooms.of(bench.feed).blooms
    assert newest.draft.begins == date(2025, 9, 1)
    assert oldest.draft == WHOLE


def look(collection: Collection, plant: int, on: date, *signs: Flowering) -> None:
    collection.looks.record(plant, Look(on, flowering=frozenset(signs)))


def test_looks_propose_to_begin_open_and_close_a_bloom(
    collection: Collection, bench: Bench, today: date
) -> None:
    plant = bench.unseen
    days = [today - timedelta(days=back) for back in (60, 30, 5)]
    look(collection, plant, days[0], Flowering.SPIKE)
    offered = collection.blooms.of(plant).proposal
    assert offered is not None
    assert (offered.draft, offered.bloom_id) == (BloomDraft(days[0]), None)
    assert "saw a spike" in offered.sentence
    assert collection.blooms.of(plant).blooms == (), "nothing is written of itself"
    collection.blooms.add(plant, offered.draft)
    assert collection.blooms.of(plant).proposal is None

    look(collection, plant, days[1], Flowering.OPEN, Flowering.BUDS)
    offered = collection.blooms.of(plant).proposal
    assert offered is not None
    assert offered.draft == BloomDraft(days[0], days[1])
    assert offered.bloom_id is not None
    assert collection.blooms.start(plant, today) == (offered.bloom_id, offered.draft)
    collection.blooms.change(offered.bloom_id, offered.draft)
    assert collection.blooms.of(plant).proposal is None

    look(collection, plant, days[2], Flowering.SPENT)
    offered = collection.blooms.of(plant).proposal
    assert offered is not None
    assert offered.draft == BloomDraft(days[0], days[1], days[2])
    assert offered.bloom_id is not None
    collection.blooms.change(offered.bloom_id, offered.draft)
    assert collection.blooms.of(plant).proposal is None
    assert collection.blooms.start(plant, today) == (None, BloomDraft())


def test_a_look_with_no_flowers_closes_only_what_had_opened(
    collection: Collection, bench: Bench, today: date
) -> None:
    plant = bench.unseen
    collection.blooms.add(plant, BloomDraft(today - timedelta(days=50)))
    look(collection, plant, today - timedelta(days=3), Flowering.NONE)
    assert collection.blooms.of(plant).proposal is None
    (view,) = collection.blooms.of(plant).blooms
    opened = replace(view.draft, first_open_on=today - timedelta(days=20))
    collection.blooms.change(view.bloom_id, opened)
    offered = collection.blooms.of(plant).proposal
    assert offered is not None
    assert offered.draft.last_faded_on == today - timedelta(days=3)
    assert "no flowers any more" in offered.sentence


def test_a_bloom_forgotten_for_a_year_is_not_the_one_under_way(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.blooms.add(
        bench.unseen, BloomDraft(first_open_on=today - timedelta(days=380))
    )
    look(collection, bench.unseen, today, Flowering.OPEN)
    offered = collection.blooms.of(bench.unseen).proposal
    assert offered is not None
    assert offered.bloom_id is None


def test_two_years_make_an_expectation_and_one_is_silent(
    collection: Collection, bench: Bench
) -> None:
    collection.blooms.add(bench.feed, BloomDraft(first_open_on=date(2025, 3, 12)))
    found = collection.blooms.of(bench.feed)
    assert (found.expected, found.coming, found.told) == (None, None, ())
    collection.blooms.add(bench.feed, BloomDraft(first_open_on=date(2026, 3, 16)))
    found = collection.blooms.of(bench.feed)
    season, coming = found.told
    assert season == (
        "Opens about 14 March: its own last two years, 4 days apart, which is little "
        "to go by."
    )
    assert coming == "The next may open between 12 March 2027 and 16 March 2027."
    before = collection.blooms.of(bench.feed, date(2026, 2, 1))
    assert before.expected is None, "what was to come is not known then"


def test_who_blooms_when_has_a_row_for_each_plant_that_bloomed(
    collection: Collection, bench: Bench, today: date
) -> None:
    for past in (2024, 2025):
        span = BloomDraft(None, date(past, 5, 1), date(past, 6, 3))
        collection.blooms.add(bench.clear, span)
    collection.blooms.add(bench.feed, BloomDraft(first_open_on=date(2026, 5, 10)))
    year = collection.blooms.year(today)
    assert year.first_month == 1
    assert not year.of_kinds
    assert [line.title for line in year.lines] == [
        "A2 cattleya A2",
        "A1 cattleya A1",
    ]
    assert year.lines[0].expected is not None
    assert year.lines[1].expected is None
    assert year.now == ("A1 cattleya A1",)
    assert year.this_month == (("A2 cattleya A2", (2024, 2025)),)
    assert year.without == 2
    (seen,) = year.lines[1].spans
    assert (seen.begins, seen.ends, seen.is_on) == (date(2026, 5, 10), today, True)


def test_the_year_begins_in_july_in_the_south_or_where_it_is_told(
    collection: Collection, bench: Bench, today: date
) -> None:
    house = collection.settings.house()
    collection.settings.save_house(replace(house, latitude=-35.0), ("latitude",))
    collection.blooms.add(bench.feed, BloomDraft(first_open_on=date(2025, 3, 12)))
    collection.blooms.add(bench.clear, BloomDraft(first_open_on=date(2025, 8, 12)))
    south = collection.blooms.year(today)
    assert south.first_month == 7
    assert [line.title[:2] for line in south.lines] == ["A2", "A1"]
    told = collection.blooms.year(today, 1)
    assert [line.title[:2] for line in told.lines] == ["A1", "A2"]


def test_many_plants_are_drawn_by_their_kinds(
    collection: Collection, bench: Bench, today: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(bloom_year, "MOST_PLANTS", 1)
    for plant in (bench.feed, bench.clear, bench.dry):
        collection.blooms.add(plant, BloomDraft(first_open_on=date(2025, 3, 12)))
    year = collection.blooms.year(today)
    assert year.of_kinds
    assert sorted(line.plants for line in year.lines) == [1, 2]
    assert all(line.expected is None for line in year.lines)


def test_a_bloom_known_by_its_fading_alone_tells_no_season(
    collection: Collection, bench: Bench, today: date
) -> None:
    for past in (2024, 2025):
        faded = BloomDraft(last_faded_on=date(past, 6, 3))
        collection.blooms.add(bench.clear, faded)
    assert collection.blooms.of(bench.clear).expected is None
    (line,) = collection.blooms.year(today).lines
    assert [span.begins.year for span in line.spans] == [2024, 2025]
    assert line.expected is None
