"""A watering day in sum: what was given, is left, was used, and what comes next."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.services.day_sum import Given, day_sum
from growdesk.services.stocktaking_values import EntryDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


@pytest.mark.usefixtures("bench")
def test_a_day_with_nothing_done_has_all_of_it_left(
    collection: Collection, today: date
) -> None:
    summed = day_sum(collection.ledger, today)
    assert summed.plants == 4
    assert (summed.given, summed.used) == ((), ())
    assert summed.open == ("A1", "A2")
    assert summed.looks == ("A10",)
    assert summed.dry == ("A3",)
    assert not summed.is_to_come
    assert summed.following.on == collection.day.view(today).next_day


def test_what_was_done_is_given_by_what_it_was(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    collection.day.pass_by([bench.clear], today)
    summed = day_sum(collection.ledger, today)
    fed, passed = summed.given
    assert (fed.what, fed.tags) == (CareKind.FEED, ("A1",))
    assert fed.volume_l == pytest.approx(0.3)
    assert passed == Given(None, ("A2",), 0.0)
    assert summed.open == ()
    assert summed.looks == ("A10",)
    assert summed.dry == ("A3",)


def test_what_it_used_is_what_the_ticks_took_and_what_is_left_of_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    tin = Good(Sort.TIN, 1)
    collection.stocktaking.write(
        EntryDraft(tin, today, What.COUNTED, 100.0, after_round=False)
    )
    (jug,) = collection.day.view().mix.jugs
    collection.day.tick([bench.feed, bench.clear], today)
    (dose,) = jug.doses
    of_tin, water = day_sum(collection.ledger, today).used
    assert (of_tin.sort, of_tin.name, of_tin.unit) == (Sort.TIN, "Green tin", "g")
    assert of_tin.amount == pytest.approx(dose.given_g)
    assert of_tin.left == pytest.approx(100.0 - dose.given_g)
    assert (water.name, water.unit, water.left) == ("Rain", "L", None)
    assert water.amount == pytest.approx(jug.volume_l + jug.spare_l + 0.3)
    collection.history.undo()
    assert day_sum(collection.ledger, today).used == ()


def test_a_good_that_was_put_away_is_used_still(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    collection.mixing.remove_tin(1)
    assert "" in [each.name for each in day_sum(collection.ledger, today).used]


@pytest.mark.usefixtures("bench")
def test_the_next_day_goes_by_what_was_done_and_warns_of_what_runs_short(
    collection: Collection, today: date
) -> None:
    plain = day_sum(collection.ledger, today).following
    assert dict(plain.verdicts)[Verdict.LOOK_FIRST] == 1
    assert sum(count for _verdict, count in plain.verdicts) == 4
    assert plain.short == ()
    view = collection.day.view(plain.on)
    assert plain.jugs == len(view.mix.jugs)
    water = Good(Sort.WATER, 1)
    collection.stocktaking.write(
        EntryDraft(water, today, What.COUNTED, 0.0, after_round=False)
    )
    (short,) = day_sum(collection.ledger, today).following.short
    assert short.startswith("Rain is used up")


@pytest.mark.usefixtures("bench")
def test_a_day_to_come_has_nothing_done(collection: Collection, today: date) -> None:
    summed = day_sum(collection.ledger, today + timedelta(days=3))
    assert summed.is_to_come
    assert summed.given == ()


def test_a_collection_without_plants_has_no_plants(
    collection: Collection, today: date
) -> None:
    summed = day_sum(collection.ledger, today)
    assert (summed.plants, summed.open, summed.following.verdicts) == (0, (), ())
