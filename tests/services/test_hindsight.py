"""Past decisions marked, counted, judged again; all of it can be undone."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, House, Look, NewGrowths, RootTips, Verdict
from growdesk.services.values import Changed

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def test_the_past_is_judged_by_what_was_on_record_by_then(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = today - timedelta(days=20)
    still = NewGrowths(emerging=0, extending=0, maturing=0, matured=2)
    collection.looks.record(
        bench.feed, Look(before, new_growths=still, root_tips=RootTips.NONE)
    )
    collection.day.give((bench.feed,), today, CareKind.FEED, 100.0)
    days = collection.hindsight.past(bench.feed, today)
    assert days[0].on == today
    assert [day.on for day in days] == sorted((d.on for d in days), reverse=True)
    assert {day.on.weekday() for day in days} <= {2, 5}
    assert (days[0].verdict, days[0].done) == (Verdict.FEED, CareKind.FEED)
    assert days[-1].verdict is Verdict.CLEAR_WATER
    assert days[-1].rule == "not-growing"
    assert days[-1].done is None
    assert not days[-1].passed_by
    assert days[-1].on >= before


def test_days_done_or_passed_by_count_whatever_their_weekday(
    collection: Collection, bench: Bench, today: date
) -> None:
    friday = today - timedelta(days=5)
    collection.day.pass_by((bench.clear,), friday)
    (day,) = (
        day for day in collection.hindsight.past(bench.clear, today) if day.on == friday
    )
    assert day.passed_by
    assert day.done is None


def test_a_mark_keeps_what_was_decided_and_counts(
    collection: Collection, bench: Bench, today: date
) -> None:
    done = collection.hindsight.mark(bench.clear, today, Verdict.FEED, " roots ran ")
    assert done.changed is Changed.MARKS
    assert done.title == "Hindsight on A2 of 20 May"
    collection.hindsight.mark(bench.feed, today, Verdict.FEED)
    table = collection.hindsight.table()
    assert [(r.rule, r.kind, r.marked, r.right) for r in table.rows] == [
        ("not-growing", "cattleya", 1, 0),
        ("growing", "cattleya", 1, 1),
    ]
    assert table.rows[0].better == ((Verdict.FEED, 1),)
    assert table.kind_titles["cattleya"].startswith("Cattleya")
    assert (table.rethought.marks, table.rethought.agree) == (2, 1)
    day = collection.hindsight.past(bench.clear, today)[0]
    assert (day.better, day.note) == (Verdict.FEED, "roots ran")


def test_a_second_mark_replaces_and_undo_brings_the_first_back(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.hindsight.mark(bench.clear, today, Verdict.FEED)
    collection.hindsight.mark(bench.clear, today, Verdict.CLEAR_WATER)
    (row,) = collection.hindsight.table().rows
    assert (row.marked, row.right) == (1, 1)
    collection.history.undo()
    (row,) = collection.hindsight.table().rows
    assert (row.marked, row.right) == (1, 0)
    collection.history.undo()
    assert collection.hindsight.table().rows == ()


def test_a_mark_can_be_taken_back(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.hindsight.mark(bench.clear, today, Verdict.FEED)
    collection.hindsight.unmark(bench.clear, today)
    assert collection.hindsight.table().rows == ()
    with pytest.raises(InputError, match="has no mark"):
        collection.hindsight.unmark(bench.clear, today)


def test_a_day_to_come_cannot_be_marked(
    collection: Collection, bench: Bench, today: date
) -> None:
    with pytest.raises(InputError, match="still to come"):
        collection.hindsight.mark(bench.clear, today + timedelta(days=1), Verdict.FEED)


def test_other_house_rules_are_held_against_the_marks(
    collection: Collection, bench: Bench, today: date
) -> None:
    """Fed four days ago and too soon by six days; by four it would have been fed."""
    four = today - timedelta(days=4)
    collection.day.give((bench.feed,), four, CareKind.FEED, 100.0)
    collection.hindsight.mark(bench.feed, today, Verdict.FEED)
    house = collection.settings.house()
    assert collection.hindsight.rethink(house).agree == 0
    sooner = replace(house, least_interval_days=4)
    assert collection.hindsight.rethink(sooner).agree == 1
    assert collection.settings.house() == house


def test_a_binned_plants_marks_are_counted_but_not_judged_again(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.hindsight.mark(bench.clear, today, Verdict.FEED)
    collection.plants.remove((bench.clear,))
    table = collection.hindsight.table()
    assert table.rows[0].marked == 1
    assert table.rethought.marks == 0


def test_marks_are_exported(
    collection: Collection, bench: Bench, today: date, tmp_path: Path
) -> None:
    from growdesk.services.collection_export import export  # noqa: PLC0415 -- as used

    collection.hindsight.mark(bench.clear, today, Verdict.FEED, "roots ran")
    export(collection, tmp_path / "out")
    text = (tmp_path / "out" / "marks.csv").read_text(encoding="utf-8-sig")
    assert "A2,2026-05-20,clear-water,not-growing,cattleya,feed" in text
    assert "roots ran" in text


def test_rethinking_without_marks_reads_no_plants(
    collection: Collection, bench: Bench
) -> None:
    assert bench.feed
    found = collection.hindsight.rethink(House())
    assert (found.marks, found.agree) == (0, 0)
