"""The preview of house rules: what would change, before anything is kept."""

from __future__ import annotations

from collections import Counter
from datetime import timedelta
from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import Look, NewGrowths, RootTips, Verdict, Water
from growdesk.services.values import PlantDraft, WaterDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.rule_effects import HouseEffect
    from tests.services.conftest import Bench


def effect(collection: Collection, on: date, **rules: Any) -> HouseEffect:
    house = replace(collection.settings.house(), **rules)
    return collection.rule_effects.of(house, on)


def grown(collection: Collection, tag: str, kind: str, on: date) -> int:
    draft = PlantDraft(tag, f"{kind} {tag}", kind, pot_volume_l=1.0)
    plant_id = collection.plants.add(draft).ids[0]
    growing = NewGrowths(extending=1)
    look = Look(on, new_growths=growing, root_tips=RootTips.RUNNING)
    collection.looks.record(plant_id, look)
    return plant_id


@pytest.mark.usefixtures("bench")
def test_the_rules_that_hold_change_nothing(
    collection: Collection, today: date
) -> None:
    got = effect(collection, today)
    assert got.changes_nothing
    assert got.plants == ()
    assert got.jugs_before == got.jugs_after != ()
    assert got.on == today


def test_another_strength_is_no_other_verdict(
    collection: Collection, bench: Bench, today: date
) -> None:
    got = effect(collection, today, full_strength_ppm_n=300)
    (one,) = got.plants
    assert (one.plant_id, one.tag, one.name) == (bench.feed, "A1", "cattleya A1")
    assert one.before.verdict is one.after.verdict is Verdict.FEED
    assert (one.before.strength_ppm_n, one.after.strength_ppm_n) == (150, 300)
    assert not one.turns
    assert (got.jugs_before, got.jugs_after) == ((150,), (300,))
    assert not got.changes_nothing


@pytest.mark.usefixtures("bench")
def test_verdicts_turn_and_come_by_tag(collection: Collection, today: date) -> None:
    """A look three days old is out of date by a limit of two; a dry hold stays."""
    got = effect(collection, today, look_limit_days=2)
    turned = [(p.tag, p.before.verdict, p.after.verdict, p.turns) for p in got.plants]
    assert turned == [
        ("A1", Verdict.FEED, Verdict.LOOK_FIRST, True),
        ("A2", Verdict.CLEAR_WATER, Verdict.LOOK_FIRST, True),
    ]
    assert effect(collection, today, look_limit_days=3).changes_nothing


def test_how_to_water_counts_as_a_turn(collection: Collection, today: date) -> None:
    """Near the equator there is no unfed rest: sparingly becomes only if dry."""
    house = replace(collection.settings.house(), latitude=20.0)
    collection.settings.save_house(house)
    on = today - timedelta(days=160)
    still = NewGrowths(emerging=0, extending=0, maturing=0, matured=2)
    plant_id = collection.plants.add(PlantDraft("B1", "", "encyclia")).ids[0]
    look = Look(on, new_growths=still, root_tips=RootTips.NONE)
    collection.looks.record(plant_id, look)
    (one,) = effect(collection, on, equatorial_band_deg=20.0).plants
    assert one.before.verdict is one.after.verdict is Verdict.CLEAR_WATER
    assert (one.before.water, one.after.water) == (Water.SPARING, Water.IF_DRY)
    assert one.turns


@pytest.mark.usefixtures("bench")
def test_litres_and_jugs_are_told_too(collection: Collection, today: date) -> None:
    got = effect(collection, today, pot_share=0.5)
    one = next(p for p in got.plants if p.tag == "A1")
    assert one.after.volume_l == pytest.approx(2 * (one.before.volume_l or 0))
    assert not one.turns
    grown(collection, "B1", "tolumnia", today)
    fewer = effect(collection, today, jugs=1)
    assert len(fewer.jugs_before) == 2
    (left,) = fewer.jugs_after
    assert fewer.plants
    for one in fewer.plants:
        assert one.after.strength_ppm_n == left
        assert one.before.strength_ppm_n in fewer.jugs_before
        assert not one.turns
    assert not fewer.changes_nothing


@pytest.mark.usefixtures("bench")
def test_what_is_told_is_what_comes(collection: Collection, today: date) -> None:
    house = replace(
        collection.settings.house(), look_limit_days=2, full_strength_ppm_n=90
    )
    grown(collection, "B1", "vanda", today)
    told = collection.rule_effects.of(house, today)
    before = {line.plant_id: line for line in collection.day.view(today).lines}
    collection.settings.save_house(house)
    after = {line.plant_id: line for line in collection.day.view(today).lines}
    changed = {
        key
        for key, line in after.items()
        if (line.verdict, line.water, line.jug_ppm_n)
        != (before[key].verdict, before[key].water, before[key].jug_ppm_n)
    }
    assert changed == {one.plant_id for one in told.plants}
    for one in told.plants:
        line = after[one.plant_id]
        assert one.after.verdict is line.verdict
        assert one.after.strength_ppm_n == line.jug_ppm_n
    assert collection.rule_effects.of(house, today).changes_nothing


@pytest.mark.usefixtures("bench")
def test_the_water_in_use_keeps_its_own_ec(collection: Collection, today: date) -> None:
    collection.waters.use(collection.waters.add(WaterDraft("tap", 0.6)).ids[0])
    assert effect(collection, today, water_ec_ms_per_cm=3.0).changes_nothing


@pytest.mark.usefixtures("bench")
@pytest.mark.parametrize(
    ("rule", "value"),
    [("latitude", 95.0), ("idle_share", 0.0), ("strength_floor_ppm_n", 399.0)],
)
def test_a_rule_out_of_range_is_refused_and_not_judged(
    collection: Collection, today: date, rule: str, value: float
) -> None:
    with pytest.raises(InputError) as refused:
        effect(collection, today, strength_ceiling_ppm_n=300.0, **{rule: value})
    assert refused.value.field == rule


@pytest.mark.usefixtures("bench")
def test_nothing_is_written(collection: Collection, today: date) -> None:
    before = collection.history.view()
    effect(collection, today, look_limit_days=2)
    assert collection.history.view() == before
    assert collection.settings.house().look_limit_days == 21


@pytest.mark.usefixtures("bench")
def test_one_round_of_reading_however_many_plants(
    collection: Collection, today: date
) -> None:
    def statements() -> int:
        seen: Counter[str] = Counter()

        def count(*details: object) -> None:
            seen[str(details[2])[:12]] += 1

        engine = collection.ledger.store._engine
        event.listen(engine, "before_cursor_execute", count)
        effect(collection, today, look_limit_days=2)
        event.remove(engine, "before_cursor_execute", count)
        return seen.total()

    few = statements()
    for number in range(30):
        grown(collection, f"C{number}", "cattleya", today)
    assert statements() == few <= 21
