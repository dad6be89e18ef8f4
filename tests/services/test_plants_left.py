"""What left the collection is in no round; it stays on record with its last word."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Look, Overrule, Verdict
from growdesk.domain.holding import Status
from growdesk.services.left_words import last_word
from growdesk.services.plant_values import Leaving
from growdesk.services.recipe_values import PartDraft, RecipeDraft, UseDraft
from growdesk.services.ticking import Repot
from growdesk.services.values import Changed, PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection
    from growdesk.services.values import Written
    from tests.services.conftest import Bench

GIVEN = date(2026, 5, 3)


def leave(made: Collection, *ids: int, why: str = "to a friend") -> Written:
    return made.plants.leave(ids, Leaving(Status.GIVEN_AWAY, GIVEN, why))


def everywhere(made: Collection, on: date) -> dict[str, set[str]]:
    """Give the tags that each list of what grows here names."""
    view = made.day.view(on)
    ahead = made.day.view(on + timedelta(days=4))
    sheet = made.sheet.week(on)
    return {
        "day": {line.tag for line in view.lines},
        "a day to come": {line.tag for line in ahead.lines},
        "week": {line.tag for line in made.day.week(on).lines},
        "sheet": {
            line.tag
            for each in sheet.rounds
            for place in each.places
            for line in place.lines
        },
        "facts": {plant.tag for plant in made.day.facts(on)[1]},
    }


def named(made: Collection, on: date) -> set[str]:
    """Give the tags that jugs and looks name, which are of some plants only."""
    view = made.day.view(on)
    jugs = {tag for jug in view.mix.jugs for tag in jug.tags}
    keep_dry = {
        line.tag for each in made.sheet.week(on).rounds for line in each.keep_dry
    }
    looks = {line.tag for line in made.day.worth(on)}
    effects = replace(made.settings.house(), full_strength_ppm_n=60)
    changed = {each.tag for each in made.rule_effects.of(effects, on).plants}
    return jugs | keep_dry | looks | changed | set(view.mix.volume_unknown)


def test_what_left_is_in_no_list_jug_or_count_and_undo_brings_it_back(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = everywhere(collection, today)
    assert all(tags == {"A1", "A2", "A3", "A10"} for tags in before.values()), before
    assert named(collection, today) >= {"A1", "A3"}
    litres = collection.day.view().mix.jugs[0].volume_l
    assert litres > 0
    assert collection.places.all()[0].plants == 4
    done = leave(collection, bench.feed, bench.dry)
    assert done.title == "2 plants given away"
    assert done.changed == Changed.PLANTS
    for where, tags in everywhere(collection, today).items():
        assert tags == {"A2", "A10"}, where
    assert not named(collection, today) & {"A1", "A3"}
    assert collection.day.view().mix.jugs == ()
    assert collection.places.all()[0].plants == 2
    collection.history.undo()
    assert everywhere(collection, today) == before
    assert collection.day.view().mix.jugs[0].volume_l == litres
    collection.history.redo()
    assert everywhere(collection, today)["week"] == {"A2", "A10"}


def test_what_left_takes_nothing_from_the_shelf_to_come(
    collection: Collection, bench: Bench
) -> None:
    def needed() -> float:
        return sum(each.needed for each in collection.stocktaking.view().rows)

    with_it = needed()
    assert with_it > 0
    leave(collection, bench.feed, bench.clear, bench.unseen)
    assert needed() == 0
    collection.plants.back([bench.feed, bench.clear, bench.unseen])
    assert needed() == with_it


def test_its_detail_has_its_last_word_its_records_and_no_verdict(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    leave(collection, bench.feed, why="to <b>a friend</b>")
    for seen in (None, collection.day.view()):
        detail = collection.day.detail(bench.feed, today, seen)
        assert detail.left == "Given away on 3 May 2026: to <b>a friend</b>"
        assert detail.told == ()
        assert detail.strength is None
        assert detail.done is None
        assert detail.letter is None
        assert len(detail.looks) == 1
        assert len(detail.care) == 1
        assert detail.draft.status is Status.GIVEN_AWAY
    assert collection.day.detail(bench.clear, today).left == ""
    assert collection.charts.plant(bench.feed, today).feeds


def test_nothing_is_given_to_what_left(
    collection: Collection, bench: Bench, today: date
) -> None:
    leave(collection, bench.feed)
    word = Overrule(Verdict.KEEP_DRY, "smells sour", today)
    attempts: tuple[Callable[[], Written], ...] = (
        lambda: collection.day.tick([bench.clear, bench.feed], today),
        lambda: collection.day.pass_by([bench.feed], today),
        lambda: collection.day.give([bench.feed], today, CareKind.FEED, 100.0),
        lambda: collection.day.repot([bench.feed], Repot(today)),
        lambda: collection.plants.overrule([bench.feed], word),
        lambda: collection.plants.move([bench.feed], None),
        lambda: leave(collection, bench.clear, bench.feed),
    )
    for attempt in attempts:
        with pytest.raises(InputError, match="given away on 3 May 2026") as caught:
            attempt()
        assert caught.value.value == "A1"
    assert collection.history.view().undo == "Plant A1 given away"


def test_what_was_done_before_it_left_is_still_written(
    collection: Collection, bench: Bench, today: date
) -> None:
    leave(collection, bench.feed)
    collection.day.give([bench.feed], GIVEN, CareKind.FEED, 100.0)
    (care,) = collection.day.detail(bench.feed, today).care
    assert (care.on, care.strength_ppm_n) == (GIVEN, 100.0)
    with pytest.raises(InputError, match="given away on 3 May 2026"):
        collection.day.give(
            [bench.feed], GIVEN + timedelta(days=1), CareKind.FLUSH, None
        )


def test_its_tag_stays_taken_and_the_refusal_says_by_what(
    collection: Collection, bench: Bench
) -> None:
    leave(collection, bench.feed)
    with pytest.raises(InputError) as caught:
        collection.plants.add(PlantDraft("a1", "", ""))
    assert caught.value.field == "tag"
    line = caught.value.line()
    assert "is on a plant that was given away on 3 May 2026" in line
    assert "keep the tag" in line
    assert collection.plants.find("A1") == bench.feed
    assert "A1" not in collection.plants.next_tags(30)


def test_it_comes_back_with_nothing_said_of_its_leaving(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.plants.get(bench.feed)
    leave(collection, bench.feed)
    done = collection.plants.back([bench.feed, bench.clear])
    assert done.title == "Plant A1 back in the collection"
    assert done.ids == (bench.feed,)
    assert collection.plants.get(bench.feed) == before
    assert "A1" in everywhere(collection, today)["day"]
    collection.history.undo()
    assert collection.plants.get(bench.feed).left_why == "to a friend"
    collection.history.redo()
    with pytest.raises(InputError, match="never left") as caught:
        collection.plants.back([bench.feed])
    assert caught.value.value == "A1"


@pytest.mark.parametrize(
    ("leaving", "field", "said"),
    [
        (Leaving(Status.GROWING, GIVEN), "status", "is not to leave"),
        (Leaving(Status.SOLD, date(2026, 5, 21)), "left_on", "still to come"),
        (Leaving(Status.SOLD, date(2026, 5, 20), "a\x00b"), "left_why", "control"),
        (Leaving(Status.LOST, date(2019, 3, 31)), "left_on", "before A2 came"),
    ],
)
def test_a_slip_in_leaving_is_named_and_nothing_is_written(
    collection: Collection, bench: Bench, leaving: Leaving, field: str, said: str
) -> None:
    draft = collection.plants.get(bench.clear)
    came = replace(draft, acquired_on=date(2019, 4, 1))
    collection.plants.change(bench.clear, came)
    with pytest.raises(InputError, match=said) as caught:
        collection.plants.leave([bench.feed, bench.clear], leaving)
    assert caught.value.field == field
    assert collection.plants.get(bench.feed).status is Status.GROWING
    assert collection.history.view().undo == "Day of acquiring A2 changed"


def test_none_chosen_and_one_that_is_gone_are_told(
    collection: Collection, bench: Bench
) -> None:
    for attempt in (collection.plants.back, lambda ids: leave(collection, *ids)):
        with pytest.raises(InputError, match="are chosen"):
            attempt(())
    collection.plants.remove([bench.feed])
    with pytest.raises(InputError, match="not there any more"):
        leave(collection, bench.feed)


def test_it_leaves_through_its_form_as_well(
    collection: Collection, bench: Bench, today: date
) -> None:
    draft = collection.plants.get(bench.feed)
    lost = replace(draft, status=Status.LOST, left_on=today, left_why="crown rot")
    collection.plants.change(bench.feed, lost)
    assert collection.plants.get(bench.feed) == lost
    detail = collection.day.detail(bench.feed, today)
    assert detail.left == "Lost on 20 May 2026: crown rot"
    assert "A1" not in everywhere(collection, today)["day"]


def test_the_last_word_is_told_with_and_without_its_parts() -> None:
    assert last_word(Status.GROWING, None, "") == ""
    assert last_word(Status.SOLD, GIVEN, "") == "Sold on 3 May 2026."
    undated = last_word(Status.LOST, None, "rot")
    assert undated == "Lost, on a day that is not recorded: rot"


def test_a_look_may_still_be_written_of_a_plant_that_left(
    collection: Collection, bench: Bench, today: date
) -> None:
    leave(collection, bench.feed)
    collection.looks.record(bench.feed, Look(GIVEN))
    assert len(collection.day.detail(bench.feed, today).looks) == 2


def test_recipes_offer_what_grows_and_what_one_of_them_names(
    collection: Collection, bench: Bench
) -> None:
    tin = collection.recipes.board().tins[0].tin_id
    uses = (UseDraft(plant_id=bench.clear),)
    collection.recipes.add(RecipeDraft("Mine", (PartDraft(tin, 1.0),), uses=uses))
    leave(collection, bench.feed, bench.clear)
    offered = [tag for _, tag in collection.recipes.board().plants]
    assert offered == ["A2", "A3", "A10"]
