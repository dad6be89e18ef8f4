"""A day kept and brought up to date is the day as it is read and judged anew."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import delete

from growdesk.domain import speech
from growdesk.domain.facts import (
    CareKind,
    Health,
    Look,
    NewGrowths,
    Overrule,
    RootTips,
    Verdict,
)
from growdesk.services import begun_day, kept_day, known
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.calendar import Calendar
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.ticking import Repot
from growdesk.services.touched import Touched, touched_since
from growdesk.services.values import DayBegun, Line, PlaceDraft, WaterDraft
from growdesk.services.watering_day import WateringDay
from growdesk.store.schema import ChangeRow
from growdesk.store.states import state
from tests.conftest import TODAY
from tests.services.test_statement_counts import heard_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from collections.abc import Collection as Some
    from datetime import date
    from pathlib import Path

    from growdesk.services.values import DayView
    from growdesk.store.session import Session

DAY = timedelta(days=1)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Collection]:
    folder: Path = tmp_path_factory.mktemp("kept") / "c"
    lay_demo(folder, TODAY)
    opened = Collection.open(folder, FixedClock(TODAY))
    yield opened
    opened.close()


@pytest.fixture
def wholes(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """Give what was asked for whole, once per asking."""
    asked: list[object] = []
    whole = kept_day._whole

    def noted(*given: object) -> object:
        asked.append(given[2])
        return whole(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(kept_day, "_whole", noted)
    return asked


def anew(made: Collection) -> DayView:
    return WateringDay(made.ledger).view()


def fed(view: DayView) -> list[int]:
    return [each.plant_id for each in view.lines if each.verdict is Verdict.FEED]


def ids(made: Collection) -> list[int]:
    return [line.plant_id for line in made.day.view().lines]


OF_ONE: dict[str, Callable[[Collection, int], object]] = {
    "a look": lambda c, p: c.looks.record(
        p, Look(TODAY, NewGrowths(extending=2), root_tips=RootTips.RUNNING)
    ),
    "rot seen": lambda c, p: c.looks.record(
        p, Look(TODAY, health=frozenset({Health.ROT}))
    ),
    "a tick": lambda c, _p: c.day.tick(fed(c.day.view())[:1], TODAY),
    "a tick of many": lambda c, _p: c.day.tick(fed(c.day.view())[1:4], TODAY),
    "a tick taken back": lambda c, _p: c.day.untick(fed(c.day.view())[1:3], TODAY),
    "passed by": lambda c, _p: c.day.pass_by(fed(c.day.view())[4:5], TODAY),
    "a flush days ago": lambda c, p: c.day.give(
        [p], TODAY - 3 * DAY, CareKind.FLUSH, None
    ),
    "overruled": lambda c, p: c.plants.change(
        p,
        replace(
            c.plants.get(p),
            overrule=Overrule(Verdict.KEEP_DRY, "it sulks", TODAY + DAY),
        ),
    ),
    "another tag": lambda c, p: c.plants.change(
        p, replace(c.plants.get(p), tag="ZZ9", bench=1)
    ),
    "a bloom": lambda c, p: c.blooms.add(p, BloomDraft(None, TODAY, None, 3)),
    "binned": lambda c, p: c.plants.remove([p]),
}

OF_ALL: dict[str, Callable[[Collection, int], object]] = {
    "undo": lambda c, _p: c.history.undo(),
    "redo": lambda c, _p: c.history.redo(),
    "a house rule": lambda c, _p: c.settings.save_house(
        replace(c.settings.house(), full_strength_ppm_n=90.0)
    ),
    "another water": lambda c, _p: c.waters.add(WaterDraft("rain", 0.1, in_use=True)),
    "a place": lambda c, _p: c.places.add(
        PlaceDraft(f"Cellar {len(c.places.all())}", "room")
    ),
}


def test_what_one_plants_rows_change_is_brought_up_to_date(
    demo: Collection, wholes: list[object]
) -> None:
    plant = ids(demo)[5]
    before = demo.day.view()
    wholes.clear()
    for name, write in OF_ONE.items():
        write(demo, plant)
        now = demo.day.view()
        assert wholes == [], name
        assert now == anew(demo), name
        wholes.clear()
        if name != "a bloom":
            assert now != before, name
        before = now


def test_what_bears_on_all_is_read_anew(demo: Collection, wholes: list[object]) -> None:
    plant = ids(demo)[7]
    demo.looks.record(plant, Look(TODAY, health=frozenset({Health.PESTS})))
    for name, write in OF_ALL.items():
        demo.day.view()
        wholes.clear()
        write(demo, plant)
        now = demo.day.view()
        assert len(wholes) == 1, name
        assert now == anew(demo), name


def test_undone_and_written_again_under_the_same_number_is_noticed(
    demo: Collection,
) -> None:
    one, other = ids(demo)[8:10]
    demo.looks.record(one, Look(TODAY, health=frozenset({Health.ROT})))
    seen = demo.day.view()
    with demo.ledger.reading() as session:
        before = state(session)
    demo.history.undo()
    demo.looks.record(other, Look(TODAY, health=frozenset({Health.ROT})))
    with demo.ledger.reading() as session:
        now = state(session)
        assert now.newest == before.newest
        assert touched_since(session, before, now) is None
    assert demo.day.view() == anew(demo) != seen


def test_a_line_that_says_the_same_stays_the_same(demo: Collection) -> None:
    view = demo.day.view()
    plant = view.lines[11].plant_id
    demo.looks.record(plant, Look(TODAY, health=frozenset({Health.VIRUS_SUSPECT})))
    now = demo.day.view()
    same = [a is b for a, b in zip(view.lines, now.lines, strict=True)]
    assert same.count(False) == 1
    assert not same[11]


def test_what_is_touched_is_named_by_plant_and_table(demo: Collection) -> None:
    one, other = ids(demo)[12:14]
    with demo.ledger.reading() as session:
        before = state(session)
        assert touched_since(session, before, before) == Touched()
    demo.looks.record(one, Look(TODAY))
    demo.day.give([other], TODAY, CareKind.CLEAR_WATER, None)
    with demo.ledger.reading() as session:
        got = touched_since(session, before, state(session))
    assert got is not None
    assert got.plants == {one, other}
    assert {"look", "care"} <= got.tables


def test_another_day_and_another_language_are_read_anew(
    demo: Collection, wholes: list[object]
) -> None:
    demo.day.view()
    wholes.clear()
    demo.day.view(TODAY - DAY)
    demo.day.view(TODAY)
    assert len(wholes) == 2
    speech.speak(speech.Manner(decimal=","))
    try:
        assert demo.day.view() == anew(demo)
    finally:
        speech.speak()
    assert len(wholes) == 4


def test_a_look_asks_no_more_than_a_dozen_times(demo: Collection) -> None:
    plant = ids(demo)[15]
    demo.looks.record(plant, Look(TODAY, root_tips=RootTips.NONE))
    asked = heard_of(demo, demo.day.view)
    assert len(asked) <= 16
    assert [text for text in asked if "FROM drawn" in text] == []


def test_a_day_that_another_lane_asks_for_meanwhile_is_not_given_in_its_place(
    demo: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    days = kept_day.KeptDays()
    with demo.ledger.reading() as session:
        other = days.of(session, TODAY - DAY, TODAY)
        at_once = property(lambda _: other, lambda _, _kept: None)
        monkeypatch.setattr(kept_day.KeptDays, "_kept", at_once, raising=False)
        assert days.of(session, TODAY, TODAY).day.on == TODAY


def test_an_action_that_says_nothing_of_what_it_wrote_has_all_read(
    demo: Collection,
) -> None:
    plant = ids(demo)[3]
    with demo.ledger.reading() as session:
        before = state(session)
    demo.looks.record(plant, Look(TODAY))
    with demo.ledger.store.unrecorded() as session:
        session.execute(delete(ChangeRow).where(ChangeRow.action_id > before.newest))
    with demo.ledger.reading() as session:
        assert touched_since(session, before, state(session)) is None


@pytest.fixture
def few(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have even the demo's plants judged by steps."""
    for name, many in {"AT_ONCE": 10, "FIRST": 5, "STEP": 8}.items():
        monkeypatch.setattr(begun_day, name, many)


def by_steps(day: WateringDay, first: list[int]) -> list[DayBegun]:
    found = []
    while isinstance(now := day.by_steps(None, first), DayBegun):
        found.append(now)
    assert now == day.view()
    return found


@pytest.mark.usefixtures("few")
def test_a_day_judged_by_steps_is_the_day_judged_at_once(demo: Collection) -> None:
    whole = anew(demo)
    day = WateringDay(demo.ledger)
    steps = by_steps(day, [])
    assert [each.judged for each in steps] == [*range(5, len(whole.lines), 8)]
    assert day.by_steps() == day.view() == whole
    jugless = {
        each.plant_id: replace(each, letter=None, jug_ppm_n=None, outside_band=False)
        for each in whole.lines
    }
    for each in steps:
        judged = [line for line in each.lines if isinstance(line, Line)]
        assert len(judged) == each.judged
        assert judged == [jugless[line.plant_id] for line in judged]
        assert [line.plant_id for line in each.lines] == [*jugless]


@pytest.mark.usefixtures("few")
def test_what_is_asked_for_is_judged_first(demo: Collection) -> None:
    last = [each.plant_id for each in anew(demo).lines][-3:]
    day = WateringDay(demo.ledger)
    begun = day.by_steps(None, last)
    assert isinstance(begun, DayBegun)
    judged = {each.plant_id for each in begun.lines if isinstance(each, Line)}
    assert set(last) < judged
    assert len(judged) == 5


@pytest.mark.usefixtures("few")
def test_few_plants_and_a_day_to_come_are_judged_at_once(
    demo: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    ahead = WateringDay(demo.ledger).by_steps(TODAY + DAY)
    assert ahead == WateringDay(demo.ledger).view(TODAY + DAY)
    monkeypatch.setattr(begun_day, "AT_ONCE", len(ahead.lines))
    assert WateringDay(demo.ledger).by_steps() == anew(demo)


@pytest.mark.usefixtures("few")
def test_what_is_written_between_steps_is_in_the_next(demo: Collection) -> None:
    for name, write in (OF_ONE | OF_ALL).items():
        day = WateringDay(demo.ledger)
        begun = day.by_steps()
        assert isinstance(begun, DayBegun)
        write(demo, begun.lines[1].plant_id)
        now = day.by_steps()
        assert isinstance(now, DayBegun), name
        true = {each.plant_id: each for each in anew(demo).lines}
        assert [each.plant_id for each in now.lines] == [*true], name
        for line in now.lines:
            if isinstance(line, Line):
                of = true[line.plant_id]
                assert (line.verdict, line.done) == (of.verdict, of.done), name
                assert line.short_reason == of.short_reason, name
        if name in OF_ONE:
            assert now.judged >= 5 + 8 - 1, name
        by_steps(day, [])


@pytest.mark.usefixtures("few")
def test_a_plant_shown_before_all_are_judged_waits_for_its_jug_only(
    demo: Collection,
) -> None:
    whole = anew(demo)
    plant = next(each for each in reversed(whole.lines) if each.letter).plant_id
    true = WateringDay(demo.ledger).detail(plant, TODAY, whole)
    day = WateringDay(demo.ledger)
    begun = day.by_steps()
    assert isinstance(begun, DayBegun)
    shown = day.detail(plant, TODAY)
    assert shown.jug_waits
    assert shown == replace(
        true, letter=None, jug_ppm_n=None, outside_band=False, jug_waits=True
    )
    after = day.by_steps()
    assert isinstance(after, DayBegun)
    assert after.judged == begun.judged + 1 + 8, "what was shown stays judged"
    by_steps(day, [])
    assert day.detail(plant, TODAY) == true
    assert not true.jug_waits


@pytest.mark.usefixtures("few")
def test_asked_whole_in_between_it_goes_on_from_what_is_judged(
    demo: Collection, wholes: list[object], monkeypatch: pytest.MonkeyPatch
) -> None:
    day = WateringDay(demo.ledger)
    begun = day.by_steps()
    assert isinstance(begun, DayBegun)
    read: list[int] = []
    some = known.load_some

    def noted(session: Session, on: date, ids: Some[int]) -> object:
        read.append(len(ids))
        return some(session, on, ids)

    monkeypatch.setattr(begun_day, "load_some", noted)
    whole = day.view()
    assert read == [len(whole.lines) - begun.judged]
    assert wholes == []
    assert whole == anew(demo)


def test_the_week_and_the_calendar_go_by_the_day_at_hand(
    demo: Collection, monkeypatch: pytest.MonkeyPatch
) -> None:
    demo.settings.save_house(
        replace(demo.settings.house(), watering_weekdays=(0, 2, 5))
    )
    draft = replace(demo.plants.get(ids(demo)[0]), tag="NEW1", bench=None)
    new = demo.plants.add(draft).ids[0]
    demo.looks.record(new, Look(TODAY, NewGrowths(extending=1)))
    potted = ids(demo)[1]
    demo.day.repot([potted], Repot(TODAY - DAY, 2.0))
    fresh = WateringDay(demo.ledger)
    week = fresh.week(TODAY)
    assert TODAY not in (monday := week.days[0].on, monday + DAY), "days are past"
    jobs = Calendar(demo.ledger).jobs()
    demo.day.view()
    some: list[list[int]] = []
    read = known.load_some

    def noted(session: Session, on: date, plants: Some[int]) -> object:
        some.append(sorted(plants))
        return read(session, on, plants)

    def refused(*_given: object) -> None:
        raise AssertionError("all plants are read again")

    monkeypatch.setattr(known, "load_some", noted)
    monkeypatch.setattr(kept_day, "load_known", refused)
    assert demo.day.week(TODAY) == week
    (again,) = some
    assert {new, potted} <= set(again)
    assert len(again) < 5
    assert demo.calendar.jobs() == jobs
    with pytest.raises(AssertionError, match="read again"):
        demo.day.week(TODAY - 14 * DAY)
