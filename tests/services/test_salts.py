"""A pot's salts through the services: the detail, the switch, a flush in litres."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.commands.answer import from_facts
from growdesk.domain.facts import CareKind, Look, Medium, NewGrowths, RootTips, Verdict
from growdesk.domain.volume_words import volume_text
from growdesk.services.known import load_known
from growdesk.services.values import PlantDraft, WaterDraft
from tests.services.test_watering_day import line

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.values import PlantDetail
    from tests.services.conftest import Bench


@pytest.fixture
def mossy(collection: Collection, bench: Bench, today: date) -> int:
    """Give a growing plant in moss whose runoff was read far too high."""
    draft = PlantDraft(
        "A5",
        "In moss",
        "cattleya",
        bench.place,
        pot_volume_l=1.0,
        medium=Medium.SPHAGNUM,
    )
    plant_id = collection.plants.add(draft).ids[0]
    collection.looks.record(plant_id, reading(today, 8.0))
    return plant_id


def reading(today: date, ec: float, days_ago: int = 2) -> Look:
    return Look(
        today - timedelta(days=days_ago),
        new_growths=NewGrowths(extending=1),
        root_tips=RootTips.RUNNING,
        runoff_ec_ms_per_cm=ec,
    )


def shown(collection: Collection, plant_id: int, today: date) -> PlantDetail:
    return collection.day.detail(plant_id, today)


def test_the_litres_of_care_reach_the_judging(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    with collection.ledger.reading() as session:
        (known,) = load_known(session, today, bench.feed)
    assert [care.volume_l for care in known.plant.care] == [0.3]


def test_a_flush_has_the_same_litres_on_list_sheet_bench_and_record(
    collection: Collection, mossy: int, today: date
) -> None:
    found = line(collection, mossy)
    assert found.verdict is Verdict.FLUSH
    assert found.volume_l is not None
    assert 1.0 < found.volume_l <= 3.0
    assert found.volume_l * 20 == pytest.approx(round(found.volume_l * 20))
    view = collection.day.view()
    assert view.mix.flush_l == pytest.approx(found.volume_l)
    assert shown(collection, mossy, today).pour_l == found.volume_l
    printed = next(r for r in collection.sheet.week(today).rounds if r.on == today)
    lines = [each for place in printed.places for each in place.lines]
    assert [e.volume_l for e in lines if e.tag == "A5"] == [found.volume_l]
    assert printed.mix.flush_l == pytest.approx(found.volume_l)
    collection.day.tick([mossy], today)
    (care,) = shown(collection, mossy, today).care
    assert (care.what, care.volume_l) == (CareKind.FLUSH, found.volume_l)


def test_a_command_pours_the_same(
    collection: Collection, mossy: int, today: date
) -> None:
    house, plants, table = collection.day.facts(today)
    moss = next(plant for plant in plants if plant.tag == "A5")
    report = from_facts(house, moss, today, table).report()
    assert report["verdict"] == "flush"
    assert report["pour_l"] == line(collection, mossy).volume_l


def test_the_flush_brings_it_where_the_detail_said(
    collection: Collection, mossy: int, today: date
) -> None:
    before = shown(collection, mossy, today).salts
    litres = line(collection, mossy).volume_l
    brings = next(text for text in before if "should bring it to about" in text)
    assert brings.startswith(f"{volume_text(litres or 0)} of clear water")
    told = float(brings.split("about ")[1].split(" mS/cm")[0])
    collection.day.tick([mossy], today)
    after = collection.day.detail(mossy, today + timedelta(days=1))
    assert after.verdict is not Verdict.FLUSH
    (range_told,) = [told for told in after.salts if "stand at" in told]
    low, high = range_told.split("stand at ")[1].split(" mS/cm")[0].split(" to ")
    assert float(low) <= told <= float(high)


def test_the_detail_tells_reading_range_limit_and_assumptions(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert shown(collection, bench.feed, today).salts == ()
    collection.looks.record(bench.feed, reading(today, 0.9))
    detail = shown(collection, bench.feed, today)
    read, *_, limit = detail.salts
    assert read.startswith("Its runoff read 0.9 mS/cm on ")
    assert limit == "Its kind's limit is 1.5 mS/cm."
    assumes = "An estimate: the pot is taken to hold 300 mL of water"
    assert detail.salts_assume.startswith(assumes)


def test_the_waters_own_ec_counts(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.looks.record(bench.feed, reading(today, 0.9))
    collection.waters.use(collection.waters.add(WaterDraft("tap", 1.7)).ids[0])
    detail = shown(collection, bench.feed, today)
    assert "The water alone reads 1.7 mS/cm." in detail.salts
    assert "The water is taken to read 1.7 mS/cm" in detail.salts_assume


@pytest.mark.parametrize(
    ("by_estimate", "verdict"), [(False, Verdict.FEED), (True, Verdict.FLUSH)]
)
def test_the_switch_lets_the_estimate_flush(
    collection: Collection,
    bench: Bench,
    today: date,
    by_estimate: bool,
    verdict: Verdict,
) -> None:
    give_strong_feeds(collection, bench.feed, today)
    house = replace(
        collection.settings.house(),
        feeds_before_flush=20,
        flush_by_estimate=by_estimate,
    )
    collection.settings.save_house(house)
    assert collection.settings.house().flush_by_estimate is by_estimate
    assert line(collection, bench.feed).verdict is verdict
    detail = shown(collection, bench.feed, today)
    told = [each for each in detail.told if each.rule == "salts"]
    assert len(told) == 1
    assert ("Measure the runoff." in told[0].sentence) is not by_estimate
    assert not any("may now stand" in text for text in detail.salts)
    assert detail.salts_assume


def give_strong_feeds(collection: Collection, plant_id: int, today: date) -> None:
    flushed = today - timedelta(days=40)
    collection.day.give([plant_id], flushed, CareKind.FLUSH, None)
    for days in range(35, 6, -7):
        on = today - timedelta(days=days)
        collection.day.give([plant_id], on, CareKind.FEED, 500.0)


def test_the_switch_is_declared_with_its_sentence(collection: Collection) -> None:
    declared = {each.key: each for each in collection.settings.declared()}
    assert declared["flush_by_estimate"].title == "Flush by the estimate"
    assert "without a reading" in declared["flush_by_estimate"].text
