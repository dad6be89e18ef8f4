"""The watering day: the list, the jugs, the ticks, and what undo makes of them."""

from __future__ import annotations

from collections import Counter
from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event, func, select

from growdesk.domain.errors import InputError
from growdesk.domain.explain import Role
from growdesk.domain.facts import (
    CareKind,
    Health,
    House,
    Look,
    Medium,
    Overrule,
    RootTips,
    Verdict,
    Water,
)
from growdesk.domain.remembered import REMEMBERED_DAYS
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.known import load_known
from growdesk.services.ticking import Repot
from growdesk.services.values import (
    Changed,
    Done,
    DoneKind,
    Line,
    PlaceDraft,
    PlantDraft,
    WaterDraft,
    Written,
)
from growdesk.store.schema import PassByRow

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from tests.services.conftest import Bench


def line(collection: Collection, plant_id: int, on: date | None = None) -> Line:
    lines = {found.plant_id: found for found in collection.day.view(on).lines}
    return lines[plant_id]


def verdicts(collection: Collection, on: date) -> list[tuple[str, str]]:
    return [(found.tag, found.verdict) for found in collection.day.view(on).lines]


def test_the_day_shows_every_plant_with_verdict_and_reason(
    collection: Collection, bench: Bench, today: date
) -> None:
    view = collection.day.view()
    assert (view.on, view.is_today) == (today, True)
    assert verdicts(collection, today) == [
        ("A1", "feed"),
        ("A2", "clear-water"),
        ("A3", "keep-dry"),
        ("A10", "look-first"),
    ]
    fed = line(collection, bench.feed)
    assert fed.place == "East sill"
    assert fed.bench == 1
    assert fed.water is Water.THROUGH
    assert fed.letter == "A"
    assert fed.strength_ppm_n
    assert fed.volume_l == pytest.approx(0.3)
    assert fed.looked_on == today - timedelta(days=3)
    assert fed.done is None
    dry = line(collection, bench.dry)
    assert (dry.letter, dry.strength_ppm_n, dry.volume_l) == (None, None, None)
    unseen = line(collection, bench.unseen)
    assert unseen.looked_on is None
    assert all(1 <= len(f.short_reason.split()) <= 6 for f in view.lines)


def test_another_day_is_judged_by_what_was_known_then(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.day.view(today - timedelta(days=10))
    assert not before.is_today
    assert line(collection, bench.feed, before.on).looked_on is None
    assert {f.verdict for f in before.lines} <= {Verdict.LOOK_FIRST, Verdict.KEEP_DRY}


def test_watering_days_follow_the_house(collection: Collection) -> None:
    wednesday, saturday = date(2026, 5, 20), date(2026, 5, 23)
    day = collection.day
    assert day.next_watering_day(wednesday) == saturday
    assert day.next_watering_day(saturday) == date(2026, 5, 27)
    assert day.view(wednesday).next_day == saturday
    collection.settings.save_house(House(watering_weekdays=(0,)))
    assert day.next_watering_day(date(2026, 5, 25)) == date(2026, 6, 1)


def test_detail_tells_why_and_what_would_change_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    detail = collection.day.detail(bench.clear, today)
    assert detail.verdict is Verdict.CLEAR_WATER
    assert detail.told[0].role is Role.DECIDES
    assert detail.would_change
    assert detail.strength is None
    assert detail.strength_sentence == ""
    assert detail.kind_known
    assert detail.place == "East sill"
    assert len(detail.looks) == 1
    fed = collection.day.detail(bench.feed, today)
    assert fed.strength is not None
    assert f"{fed.strength.ppm_n:g} ppm N" in fed.strength_sentence
    assert fed.strength.ppm_n == line(collection, bench.feed).strength_ppm_n
    assert [told.rule for told in fed.told if told.role is Role.NOT_A_REASON]
    with pytest.raises(InputError, match="not there any more"):
        collection.day.detail(99, today)


def test_an_unknown_kind_is_judged_carefully_and_says_so(
    collection: Collection, today: date
) -> None:
    plant = collection.plants.add(PlantDraft("Z1", "Plastic fern", "fern")).ids[0]
    detail = collection.day.detail(plant, today)
    assert not detail.kind_known
    assert any(told.role is Role.UNKNOWN for told in detail.told)


def test_list_and_detail_agree_on_every_plant(
    collection: Collection, bench: Bench, today: date
) -> None:
    del bench
    for found in collection.day.view().lines:
        detail = collection.day.detail(found.plant_id, today)
        assert (detail.verdict, detail.water) == (found.verdict, found.water)
        assert detail.pour_l == found.volume_l
        assert detail.draft.tag == found.tag


def test_a_tick_writes_what_the_jug_holds(
    collection: Collection, bench: Bench, today: date
) -> None:
    jug = collection.day.view().mix.jugs[0]
    done = collection.day.tick([bench.feed, bench.clear], today)
    assert done.changed == Changed.CARE | Changed.SHELF
    assert done.title == "Watering of 2 plants done"
    assert line(collection, bench.feed).done == Done(
        DoneKind.CARED, CareKind.FEED, float(jug.strength_ppm_n), 0.3
    )
    assert line(collection, bench.clear).done == Done(
        DoneKind.CARED, CareKind.CLEAR_WATER, None, 0.3
    )
    (care,) = collection.day.detail(bench.feed, today).care
    assert (care.on, care.what) == (today, CareKind.FEED)
    assert care.strength_ppm_n == jug.strength_ppm_n


def test_plants_in_a_common_jug_are_given_its_strength_not_their_own(
    collection: Collection, bench: Bench, today: date
) -> None:
    draft = collection.plants.get(bench.feed)
    own = collection.plants.add(
        replace(draft, tag="B1", full_strength_ppm_n=135.0, bench=None)
    ).ids[0]
    collection.looks.record(
        own, Look(today, root_tips=RootTips.RUNNING, health=frozenset())
    )
    jugs = collection.day.view().mix.jugs
    assert [jug.tags for jug in jugs] == [("A1", "B1")]
    wished = {line(collection, p).strength_ppm_n for p in (bench.feed, own)}
    assert len(wished) == 2
    collection.day.tick([bench.feed, own], today)
    for plant in (bench.feed, own):
        given = line(collection, plant).done
        assert given is not None
        assert given.strength_ppm_n == jugs[0].strength_ppm_n


def test_ticked_lines_stay_where_they_are(
    collection: Collection, bench: Bench, today: date
) -> None:
    before, mix = verdicts(collection, today), collection.day.view().mix
    collection.day.tick([bench.feed, bench.clear], today)
    assert verdicts(collection, today) == before
    assert collection.day.view().mix == mix
    saturday = collection.day.next_watering_day(today)
    assert line(collection, bench.feed, saturday).verdict is Verdict.CLEAR_WATER


def test_ticks_survive_closing_and_undo_goes_on_from_there(
    collection: Collection, bench: Bench, today: date, folder: Path
) -> None:
    collection.day.tick([bench.feed], today)
    collection.close()
    again = Collection.open(folder, FixedClock(today))
    assert line(again, bench.feed).done is not None
    assert again.history.view().undo == "Feed given to A1"
    undone = again.history.undo()
    assert undone is not None
    assert undone.title == "Undone: Feed given to A1"
    assert undone.changed == Changed.CARE | Changed.SHELF
    assert line(again, bench.feed).done is None
    assert again.history.view().redo == "Feed given to A1"
    again.history.redo()
    assert line(again, bench.feed).done is not None
    assert again.history.redo() is None
    again.close()


def test_keep_dry_and_look_first_are_not_ticked_and_named(
    collection: Collection, bench: Bench, today: date
) -> None:
    everyone = [bench.feed, bench.clear, bench.dry, bench.unseen]
    done = collection.day.tick(everyone, today)
    assert len(done.ids) == 2
    assert len(done.problems) == 2
    assert "A3 is to be kept dry" in done.problems[0]
    assert "A10 is to be looked at first" in done.problems[1]
    assert line(collection, bench.dry).done is None
    with pytest.raises(InputError, match="A3, A10") as caught:
        collection.day.tick([bench.dry, bench.unseen], today)
    assert "kept dry" in caught.value.line()


def test_a_second_tick_adds_nothing(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    again = collection.day.tick([bench.feed, bench.feed], today)
    assert again.changed == Changed.NOTHING
    assert len(collection.day.detail(bench.feed, today).care) == 1
    collection.day.tick([bench.feed, bench.clear], today)
    assert collection.history.view().undo == "Clear water given to A2"


def test_passing_by_and_ticking_take_each_others_place(
    collection: Collection, bench: Bench, today: date
) -> None:
    passed = Done(DoneKind.PASSED_BY, None, None, None)
    done = collection.day.pass_by([bench.feed, bench.clear], today)
    assert done.title == "2 plants passed by"
    assert line(collection, bench.feed).done == passed
    assert collection.day.pass_by([bench.feed], today).changed == Changed.NOTHING
    collection.day.tick([bench.feed], today)
    given = line(collection, bench.feed).done
    assert given is not None
    assert given.what is CareKind.FEED
    assert line(collection, bench.clear).done == passed
    collection.day.pass_by([bench.feed], today)
    assert line(collection, bench.feed).done == passed
    assert collection.day.detail(bench.feed, today).care == ()
    collection.history.undo()
    assert line(collection, bench.feed).done == given


def test_a_plant_kept_dry_is_not_passed_by_for_being_damp(
    collection: Collection, bench: Bench, today: date
) -> None:
    with pytest.raises(InputError) as caught:
        collection.day.pass_by([bench.dry], today)
    assert caught.value.field == "plants"
    assert "A3 is to be kept dry" in caught.value.line()
    done = collection.day.pass_by([bench.dry, bench.feed], today)
    assert done.title == "A1 passed by"
    (problem,) = done.problems
    assert problem.startswith("A3 is to be kept dry; nothing was written there.")
    assert line(collection, bench.dry).done is None
    assert line(collection, bench.feed).done is not None


def test_a_plant_to_be_looked_at_may_be_passed_by_and_keeps_its_verdict(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert collection.day.pass_by([bench.unseen], today).problems == ()
    unseen = line(collection, bench.unseen)
    assert unseen.done is not None
    assert unseen.verdict is Verdict.LOOK_FIRST


def test_a_line_carries_the_strength_of_its_jug(
    collection: Collection, bench: Bench
) -> None:
    view = collection.day.view()
    fed = line(collection, bench.feed)
    (jug,) = [jug for jug in view.mix.jugs if "A1" in jug.tags]
    assert (fed.letter, fed.jug_ppm_n) == (jug.letter, jug.strength_ppm_n)
    assert line(collection, bench.clear).jug_ppm_n is None


@pytest.mark.parametrize(
    ("on", "by", "reached"),
    [
        (date(2026, 5, 20), 1, date(2026, 5, 23)),
        (date(2026, 5, 27), -1, date(2026, 5, 23)),
        (date(2026, 5, 23), -1, date(2026, 5, 21)),
        (date(2026, 5, 20), -1, date(2026, 5, 16)),
        (date(2026, 5, 19), 1, date(2026, 5, 20)),
    ],
)
def test_watering_days_are_stepped_through_and_today_counts(
    folder: Path, on: date, by: int, reached: date
) -> None:
    today = date(2026, 5, 21) if reached == date(2026, 5, 21) else date(2026, 5, 20)
    opened = Collection.open(folder, FixedClock(today), create=True)
    assert opened.day.step(on, by) == reached
    opened.close()


def test_a_tick_can_be_taken_back(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    collection.day.pass_by([bench.clear], today)
    done = collection.day.untick([bench.feed, bench.clear, bench.dry], today)
    assert done.changed == Changed.CARE | Changed.SHELF
    assert all(found.done is None for found in collection.day.view().lines)
    assert collection.day.untick([bench.feed], today).changed == Changed.NOTHING
    with collection.ledger.reading() as session:
        assert session.scalar(select(func.count()).select_from(PassByRow)) == 0


def test_what_was_really_given_takes_the_ticks_place(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.tick([bench.feed], today)
    collection.day.give([bench.feed], today, CareKind.FLUSH, None, "leaking salts")
    (care,) = collection.day.detail(bench.feed, today).care
    assert (care.what, care.note) == (CareKind.FLUSH, "leaking salts")
    assert care.volume_l == pytest.approx(1.2)
    collection.day.give([bench.dry], today, CareKind.FEED, 40.0)
    given = line(collection, bench.dry).done
    assert given == Done(DoneKind.CARED, CareKind.FEED, 40.0, 0.3)


def test_a_repot_is_care_beside_the_watering_and_dates_the_plant(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = today - timedelta(days=2)
    collection.day.tick([bench.feed], today)
    done = collection.day.give([bench.feed], before, CareKind.REPOT, None)
    assert done.changed == Changed.CARE | Changed.PLANTS
    detail = collection.day.detail(bench.feed, today)
    assert [care.what for care in detail.care] == [CareKind.FEED, CareKind.REPOT]
    assert detail.draft.repotted_on == before
    collection.day.give(
        [bench.feed], before - timedelta(days=300), CareKind.REPOT, None
    )
    assert collection.plants.get(bench.feed).repotted_on == before
    collection.history.undo()
    collection.history.undo()
    assert collection.plants.get(bench.feed).repotted_on is None


@pytest.mark.parametrize(
    ("what", "strength", "field"),
    [
        (CareKind.FEED, -1.0, "strength_ppm_n"),
        (CareKind.FEED, float("nan"), "strength_ppm_n"),
        (CareKind.FEED, 9999.0, "strength_ppm_n"),
        (CareKind.CLEAR_WATER, 100.0, "strength_ppm_n"),
    ],
)
def test_an_impossible_strength_is_named(
    collection: Collection,
    bench: Bench,
    today: date,
    what: CareKind,
    strength: float,
    field: str,
) -> None:
    with pytest.raises(InputError) as caught:
        collection.day.give([bench.feed], today, what, strength)
    assert caught.value.field == field
    assert line(collection, bench.feed).done is None


def test_nothing_is_done_tomorrow_or_to_nobody(
    collection: Collection, bench: Bench, today: date
) -> None:
    tomorrow, day = today + timedelta(days=1), collection.day
    attempts: tuple[Callable[[], Written], ...] = (
        lambda: day.tick([bench.feed], tomorrow),
        lambda: day.pass_by([bench.feed], tomorrow),
        lambda: day.give([bench.feed], tomorrow, CareKind.FEED, 100.0),
        lambda: day.untick([bench.feed], tomorrow),
    )
    for attempt in attempts:
        with pytest.raises(InputError) as caught:
            attempt()
        assert caught.value.field == "on"
    with pytest.raises(InputError, match="not there any more"):
        day.tick([bench.feed, 99], today)
    with pytest.raises(InputError, match="are chosen"):
        day.tick([], today)
    assert line(collection, bench.feed).done is None


def test_suspect_plants_are_marked_by_their_newest_look(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert not line(collection, bench.feed).suspect
    pests = Look(today, health=frozenset({Health.PESTS}))
    collection.looks.record(bench.feed, pests)
    assert line(collection, bench.feed).suspect
    assert not line(collection, bench.feed, today - timedelta(days=1)).suspect
    collection.looks.record(bench.feed, Look(today, health=frozenset()))
    assert not line(collection, bench.feed).suspect


def test_a_newcomer_is_marked_to_its_last_day_apart(
    collection: Collection, bench: Bench, today: date
) -> None:
    assert not line(collection, bench.feed).newcomer
    draft = collection.plants.get(bench.feed)
    collection.plants.change(bench.feed, replace(draft, quarantine_until=today))
    assert line(collection, bench.feed).newcomer
    assert not line(collection, bench.feed, today + timedelta(days=1)).newcomer


def test_an_overrule_holds_until_its_day(
    collection: Collection, bench: Bench, today: date
) -> None:
    draft = collection.plants.get(bench.feed)
    overrule = Overrule(Verdict.KEEP_DRY, "smells sour", today)
    collection.plants.change(bench.feed, replace(draft, overrule=overrule))
    assert line(collection, bench.feed).verdict is Verdict.KEEP_DRY
    tomorrow = today + timedelta(days=1)
    assert line(collection, bench.feed, tomorrow).verdict is Verdict.FEED


def test_a_repot_changes_the_pot_too_and_is_one_undo(
    collection: Collection, bench: Bench, today: date
) -> None:
    before = collection.plants.get(bench.feed), collection.plants.get(bench.dry)
    plants = [bench.feed, bench.dry]
    done = collection.day.repot(plants, Repot(today, 2.0, Medium.BARK, "rotten"))
    assert done.title == "Repot of 2 plants"
    for plant_id, was in zip(plants, before, strict=True):
        now = collection.plants.get(plant_id)
        new = replace(was, pot_volume_l=2.0, medium=Medium.BARK, repotted_on=today)
        assert now == new
    collection.history.undo()
    assert before == (
        collection.plants.get(bench.feed),
        collection.plants.get(bench.dry),
    )


def test_a_repot_that_names_nothing_new_leaves_the_pot(
    collection: Collection, bench: Bench, today: date
) -> None:
    collection.day.repot([bench.feed], Repot(today))
    assert collection.plants.get(bench.feed).pot_volume_l == 1.2
    earlier = today - timedelta(days=30)
    collection.day.repot([bench.feed], Repot(earlier))
    assert collection.plants.get(bench.feed).repotted_on == today
    done = collection.day.repot([bench.feed], Repot(earlier, 3.0))
    assert done.problems == ("A1 stands in a later pot, which stays as it is.",)
    with pytest.raises(InputError) as caught:
        collection.day.repot([bench.feed], Repot(today, -1.0))
    assert caught.value.field == "pot_volume_l"
    assert collection.plants.get(bench.feed).pot_volume_l == 1.2


def test_a_new_collection_says_what_to_do_first(collection: Collection) -> None:
    def left() -> list[str]:
        return [step.key for step in collection.day.view().setup if not step.done]

    view = collection.day.view()
    assert (view.lines, view.mix.jugs) == ((), ())
    assert left() == ["plant", "water", "tin", "latitude"]
    assert all(step.text.endswith(".") for step in view.setup)
    assert all(step.until.endswith(".") for step in view.setup)
    assert "50° north" in view.setup[3].until
    collection.plants.add(PlantDraft("A1", "", ""))
    assert left() == ["water", "tin", "latitude"]
    collection.waters.add(WaterDraft("tap", 0.5))
    collection.settings.save_house(replace(House(), latitude=-33.0))
    assert left() == ["tin"]


def test_the_setup_goes_once_all_is_done(collection: Collection, bench: Bench) -> None:
    del bench
    assert collection.day.view().setup
    collection.settings.save_house(collection.settings.house())
    assert collection.day.view().setup == ()


def fill(collection: Collection, plants: int, today: date) -> None:
    places = [collection.places.add(PlaceDraft(f"Place {n}")).ids[0] for n in range(3)]
    with collection.ledger.together("Filled"):
        for number in range(plants):
            draft = PlantDraft(f"P{number}", "", "cattleya", places[number % 3])
            plant = collection.plants.add(draft).ids[0]
            for days in (1, 20, 40):
                on = today - timedelta(days=days)
                collection.looks.record(plant, Look(on, root_tips=RootTips.RUNNING))
                collection.day.give([plant], on, CareKind.CLEAR_WATER, None)


@pytest.mark.parametrize("use", ["view", "tick"])
def test_the_number_of_statements_does_not_grow_with_the_plants(
    tmp_path: Path, today: date, use: str
) -> None:
    counts = []
    for plants in (3, 30):
        folder = tmp_path / f"{plants}"
        collection = Collection.open(folder, FixedClock(today), create=True)
        fill(collection, plants, today)
        statements: Counter[str] = Counter()

        def count(*details: object, seen: Counter[str] = statements) -> None:
            seen[str(details[2])[:12]] += 1

        event.listen(collection.ledger.store._engine, "before_cursor_execute", count)
        if use == "view":
            assert len(collection.day.view().lines) == plants
        else:
            ids = [found[0] for found in collection.plants.all()]
            assert len(collection.day.tick(ids, today).ids) == plants
        counts.append(statements.total())
        collection.close()
    assert counts[0] == counts[1]
    assert 5 <= counts[0] <= 38


def test_judging_remembers_two_years_and_the_newest_look_however_old(
    collection: Collection, today: date
) -> None:
    plant = collection.plants.add(PlantDraft("A1", "", "catasetum")).ids[0]
    days = (REMEMBERED_DAYS + 400, REMEMBERED_DAYS + 300)
    for number in days:
        on = today - timedelta(days=number)
        collection.looks.record(plant, Look(on, root_tips=RootTips.NONE))
        collection.day.give([plant], on, CareKind.FEED, 100.0)
    with collection.ledger.reading() as session:
        (known,) = load_known(session, today)
    assert [look.on for look in known.plant.looks] == [today - timedelta(days=days[1])]
    assert known.plant.care == ()
    assert len(collection.day.detail(plant, today).looks) == 2
