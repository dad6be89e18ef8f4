"""The grower's own word set and lifted, for one plant or several at once."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Overrule, Verdict, Water
from growdesk.services.values import Changed

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def word(today: date, verdict: Verdict = Verdict.KEEP_DRY, days: int = 7) -> Overrule:
    until = today + timedelta(days=days)
    return Overrule(verdict, "on trial", until, Water.SPARING)


def verdicts(collection: Collection, today: date) -> dict[str, tuple[str, str]]:
    lines = collection.day.view(today).lines
    return {line.tag: (line.verdict.value, line.water.value) for line in lines}


def test_one_word_holds_for_several_plants_and_is_one_undo(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = verdicts(collection, today)
    done = collection.plants.overrule((bench.feed, bench.clear), word(today))
    assert done.title == "2 plants overruled"
    assert done.ids == (bench.feed, bench.clear)
    assert done.changed == Changed.PLANTS
    got = verdicts(collection, today)
    assert got["A1"] == got["A2"] == ("keep-dry", "sparing")
    assert got["A3"] == before["A3"]
    assert collection.plants.get(bench.feed).overrule == replace(
        word(today), since=today
    )
    collection.history.undo()
    assert verdicts(collection, today) == before


def test_nothing_else_of_the_plant_is_touched(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.plants.get(bench.feed)
    collection.plants.overrule((bench.feed,), word(today))
    after = collection.plants.get(bench.feed)
    assert replace(after, overrule=None) == before


def test_a_word_is_lifted_only_where_there_is_one(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = verdicts(collection, today)
    collection.plants.overrule((bench.feed,), word(today))
    done = collection.plants.overrule((bench.feed, bench.clear), None)
    assert done.title == "Plant A1 judged again"
    assert done.ids == (bench.feed,)
    assert verdicts(collection, today) == before
    collection.history.undo()
    assert verdicts(collection, today)["A1"] == ("keep-dry", "sparing")


@pytest.mark.parametrize("none", [True, False])
def test_nothing_to_lift_is_refused(
    collection: Collection, bench: Bench, none: bool
) -> None:
    with pytest.raises(InputError) as refused:
        collection.plants.overrule(() if none else (bench.clear,), None)
    assert refused.value.field == "plants"
    assert refused.value.hint.startswith("Select a plant")


def test_a_new_word_takes_the_place_of_the_old_one(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.plants.overrule((bench.feed,), word(today))
    collection.plants.overrule((bench.feed,), word(today, Verdict.FLUSH, 0))
    kept = collection.plants.get(bench.feed).overrule
    assert kept is not None
    assert (kept.verdict, kept.until) == (Verdict.FLUSH, today)
    assert verdicts(collection, today)["A1"][0] == "flush"


def test_a_slip_names_its_field_and_writes_nothing(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.history.view()
    with pytest.raises(InputError) as over:
        collection.plants.overrule((bench.feed,), word(today, days=-1))
    assert over.value.field == "until"
    with pytest.raises(InputError) as bare:
        collection.plants.overrule((bench.feed,), replace(word(today), reason=" "))
    assert "why" in bare.value.hint
    with pytest.raises(InputError) as gone:
        collection.plants.overrule((bench.feed, 999), word(today))
    assert gone.value.field == "plant"
    assert collection.history.view() == before


def test_some_plants_come_in_the_order_asked_for(
    collection: Collection, bench: Bench
) -> None:
    tags = [d.tag for d in collection.plants.some((bench.dry, bench.feed))]
    assert tags == ["A3", "A1"]
    collection.plants.remove((bench.dry,))
    with pytest.raises(InputError):
        collection.plants.some((bench.dry,))


def test_the_sentence_says_it_was_the_grower_and_what_else_it_would_be(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.plants.overrule((bench.feed,), word(today))
    told = [r.sentence for r in collection.day.detail(bench.feed, today).told]
    assert told[0] == (
        "Keep dry but for a mouthful of clear water. You overruled this, until "
        "27 May: on trial."
    )
    assert told[1] == "Without the overrule it would be fed."
