"""Which plants to look at first: ranked over a collection, read in one go."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain import worth_looking as reckoning
from growdesk.domain.facts import CareKind, Look, NewGrowths, RootTips, Verdict
from growdesk.services import look_worth
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.look_values import Bench as RankedBench
from growdesk.services.look_values import WorthLine
from growdesk.services.look_worth import LEAST_LIKELIHOOD, Ranking
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.domain.facts import Plant
    from growdesk.domain.worth_looking import Worth
    from tests.services.conftest import Bench

LATER = date(2026, 6, 3)
STILL = NewGrowths(emerging=0, extending=0, maturing=0, matured=2)


@pytest.fixture
def later(bench: Bench, clock: FixedClock) -> date:  # noqa: ARG001 -- laid before
    """Let two weeks pass over the bench."""
    clock.day = LATER
    return LATER


def ranked_bench(collection: Collection, on: date) -> RankedBench:
    bench = collection.day.view(on).bench
    assert bench is not None
    return bench


def tags(lines: tuple[WorthLine, ...]) -> list[str]:
    return [line.tag for line in lines]


def test_the_plants_worth_a_look_come_first_with_their_why(
    collection: Collection, bench: Bench, later: date
) -> None:
    lines = collection.day.worth(later)
    assert tags(lines) == ["A10", "A2", "A3"]  # A1 grows at lead and roots
    first = lines[0]
    assert first == WorthLine(
        plant_id=bench.unseen,
        tag="A10",
        name="cattleya A10",
        place="East sill",
        likelihood=0.75,
        why="No look is on record for it; something may be on the move. "
        "Then it would be fed.",
        verdict_now=Verdict.LOOK_FIRST,
        would_turn_to=Verdict.FEED,
        sign="never-looked",
    )
    assert [line.likelihood for line in lines] == sorted(
        (line.likelihood for line in lines), reverse=True
    )
    assert all(line.why.endswith(".") for line in lines)
    assert all(line.likelihood >= LEAST_LIKELIHOOD for line in lines)


def test_a_look_takes_its_plant_off_the_list_and_leaves_the_order_of_the_others(
    collection: Collection, bench: Bench, later: date
) -> None:
    before = tags(collection.day.worth(later))
    collection.looks.record(
        bench.clear, Look(later, new_growths=STILL, root_tips=RootTips.NONE)
    )
    assert tags(collection.day.worth(later)) == [tag for tag in before if tag != "A2"]


def test_what_is_done_needs_no_look_any_more(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.give([bench.clear], today, CareKind.CLEAR_WATER, None)
    collection.day.pass_by([bench.feed], today)
    assert tags(collection.day.worth(today)) == ["A10"]
    collection.day.untick([bench.clear], today)
    assert tags(collection.day.worth(today)) == ["A10", "A2"]


def test_equals_stand_by_tag(collection: Collection, today: date) -> None:
    for tag in ("B2", "A1", "C3"):
        collection.plants.add(PlantDraft(tag, "", "cattleya"))
    assert tags(collection.day.worth(today)) == ["A1", "B2", "C3"]


def test_an_empty_bench_has_nothing_to_look_at(
    collection: Collection, today: date
) -> None:
    assert collection.day.worth(today) == ()


def test_ranking_again_reckons_only_what_changed(
    collection: Collection, bench: Bench, later: date, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []

    def counted(plant: Plant, *rest: Any, **more: Any) -> Worth:
        asked.append(plant.tag)
        return reckoning.worth_looking(plant, *rest, **more)

    monkeypatch.setattr(look_worth, "worth_looking", counted)
    pauses: list[None] = []
    ranking = Ranking(lambda: pauses.append(None))
    first = ranking.rank(ranked_bench(collection, later))
    assert sorted(asked) == ["A1", "A10", "A2", "A3"]
    assert ranking.rank(ranked_bench(collection, later)) == first
    assert len(asked) == 4
    collection.looks.record(bench.feed, Look(later, root_tips=RootTips.NONE))
    again = ranking.rank(ranked_bench(collection, later))
    assert asked[4:] == ["A1"]
    assert len(pauses) == 5
    assert again == collection.day.worth(later)
    del asked[:]
    house = replace(collection.settings.house(), look_limit_days=7)
    collection.settings.save_house(house)
    assert ranking.rank(ranked_bench(collection, later)) == collection.day.worth(later)
    assert sorted(asked) == sorted(["A1", "A10", "A2", "A3"] * 2)


def fill(collection: Collection, plants: int, today: date) -> None:
    place = collection.places.add(PlaceDraft("Sill")).ids[0]
    with collection.ledger.together("Filled"):
        for number in range(plants):
            draft = PlantDraft(f"P{number}", "", "cattleya", place)
            plant = collection.plants.add(draft).ids[0]
            look = Look(today - timedelta(days=9), root_tips=RootTips.RUNNING)
            collection.looks.record(plant, look)


def statements(collection: Collection, use: str, on: date) -> int:
    """Count what a use of the day sends to the database."""
    counted: Counter[str] = Counter()

    def count(*_details: object) -> None:
        counted[use] += 1

    engine = collection.ledger.store._engine
    event.listen(engine, "before_cursor_execute", count)
    assert getattr(collection.day, use)(on)
    event.remove(engine, "before_cursor_execute", count)
    return counted[use]


def test_ranking_takes_no_more_statements_than_the_day(
    tmp_path: Path, today: date
) -> None:
    counts = []
    for plants in (3, 30):
        folder = tmp_path / f"{plants}"
        collection = Collection.open(folder, FixedClock(today), create=True)
        fill(collection, plants, today)
        counts.append([statements(collection, use, today) for use in ("view", "worth")])
        collection.close()
    assert counts[0] == counts[1]
    assert 0 < counts[0][1] <= counts[0][0]


def test_the_plant_says_which_sign_has_outlived_its_time(
    collection: Collection, clock: FixedClock
) -> None:
    clock.day = date(2026, 11, 3)
    plant = collection.plants.add(PlantDraft("B1", "", "vanda")).ids[0]
    collection.looks.record(plant, Look(clock.day, root_tips=RootTips.RUNNING))
    told = collection.day.detail(plant, date(2026, 11, 20)).old_sign
    assert told == (
        "Root tips were running on 3 November, 17 days ago. At this time of year that "
        "holds for about 2 weeks, and they may have closed since."
    )
    assert collection.day.detail(plant, date(2026, 11, 15)).old_sign == ""
    stale = collection.day.detail(plant, date(2026, 12, 20))
    assert stale.verdict is Verdict.LOOK_FIRST
    assert stale.old_sign == ""
