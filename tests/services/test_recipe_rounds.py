"""A round whose plants have different recipes: jugs, ticks, the sheet, the preview."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import Look, RootTips, Verdict
from growdesk.services.recipe_values import PartDraft, RecipeDraft, UseDraft
from growdesk.services.values import TinDraft, WaterDraft

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from growdesk.services.values import Line
    from tests.services.conftest import Bench


@dataclass(frozen=True)
class Two:
    """Two plants on feed that shared a jug, the second with a recipe of its own."""

    first: int
    second: int
    recipe: int


@pytest.fixture
def two(collection: Collection, bench: Bench, today: date) -> Two:
    draft = collection.plants.get(bench.feed)
    second = collection.plants.add(
        replace(draft, tag="B1", full_strength_ppm_n=135.0, bench=None)
    ).ids[0]
    collection.looks.record(
        second, Look(today, root_tips=RootTips.RUNNING, health=frozenset())
    )
    (shared,) = collection.day.view().mix.jugs
    assert shared.tags == ("A1", "B1")
    tin = collection.mixing.add_tin(TinDraft("Blue tin", "15-5-15", in_use=False))
    recipe = collection.recipes.add(
        RecipeDraft(
            "Blue", (PartDraft(tin.ids[0], 1.0),), uses=(UseDraft(plant_id=second),)
        )
    )
    return Two(bench.feed, second, recipe.ids[0])


def line(collection: Collection, plant_id: int) -> Line:
    lines = collection.day.view().lines
    return next(each for each in lines if each.plant_id == plant_id)


def test_a_plant_with_its_own_recipe_has_a_jug_of_it(
    collection: Collection, two: Two
) -> None:
    jugs = {jug.tags: jug for jug in collection.day.view().mix.jugs}
    own, other = jugs["A1",], jugs["B1",]
    assert (own.recipe, own.recipe_id) == ("Green tin", None)
    assert (other.recipe, other.recipe_id) == ("Blue", two.recipe)
    for plant_id, jug in ((two.first, own), (two.second, other)):
        served = line(collection, plant_id)
        assert (served.letter, served.jug_ppm_n) == (jug.letter, jug.strength_ppm_n)
        assert not served.outside_band


def test_a_tick_writes_the_strength_of_the_jug_of_its_own_recipe(
    collection: Collection, two: Two, today: date
) -> None:
    planned = {
        tag: jug.strength_ppm_n
        for jug in collection.day.view().mix.jugs
        for tag in jug.tags
    }
    assert planned["A1"] != planned["B1"]
    collection.day.tick([two.first, two.second], today)
    for plant_id in (two.first, two.second):
        ticked = line(collection, plant_id)
        assert ticked.done is not None
        assert ticked.done.strength_ppm_n == planned[ticked.tag]


def test_the_sheet_decides_a_plant_anew_for_a_jug_of_its_own_recipe(
    collection: Collection, bench: Bench, two: Two, today: date
) -> None:
    def told() -> str:
        (first, *_) = collection.sheet.week(today).rounds
        lines = [each for place in first.places for each in place.lines]
        (unseen,) = (each for each in lines if each.tag == "A10")
        assert unseen.verdict is Verdict.LOOK_FIRST
        assert unseen.redecide is not None
        return unseen.redecide

    letters = {jug.recipe: jug.letter for jug in collection.day.view().mix.jugs}
    assert f"jug {letters['Green tin']} " in told()
    assert f"jug {letters['Blue']} " not in told()
    kept = collection.recipes.all()[0]
    uses = (*kept.draft.uses, UseDraft(plant_id=bench.unseen))
    collection.recipes.change(two.recipe, replace(kept.draft, uses=uses))
    assert f"jug {letters['Green tin']} " not in told()
    assert f"jug {letters['Blue']} " in told()


def test_the_preview_of_a_house_rule_counts_a_jug_for_each_recipe(
    collection: Collection, two: Two, today: date
) -> None:
    assert two.recipe
    house = collection.settings.house()
    jugs = [jug.strength_ppm_n for jug in collection.day.view().mix.jugs]
    effect = collection.rule_effects.of(replace(house, jugs=2), today)
    assert list(effect.jugs_before) == sorted(jugs, reverse=True)
    assert effect.jugs_before == effect.jugs_after


@pytest.mark.usefixtures("bench")
def test_a_jug_that_cannot_be_made_still_names_the_water_of_its_recipe(
    collection: Collection, today: date
) -> None:
    epsom = collection.mixing.add_tin(TinDraft("Epsom", "0-0-0 + 9.8 Mg")).ids[0]
    tap = collection.waters.add(WaterDraft("tap", 0.5, in_use=False)).ids[0]
    parts = (PartDraft(1, 2.0), PartDraft(epsom, 1.0))
    collection.recipes.add(RecipeDraft("Two", parts, water_id=tap, in_use=True))
    collection.mixing.remove_tin(epsom)
    mix = collection.day.view(today).mix
    (jug,) = mix.jugs
    assert (jug.tags, jug.doses, jug.water_id) == (("A1",), (), tap)
    litres = {need.key: need.jugs_l for need in mix.waters}
    assert litres[tap] == pytest.approx(jug.volume_l + jug.spare_l)
