"""The calendar of a collection: jobs in order, closed by hand, undone, counted."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import event

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Flowering, Look, Reading, RootTips
from growdesk.domain.jobs.job import Sort
from growdesk.services.calendar_values import Closed
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import BloomRow, CareRow

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.calendar_values import JobLine
    from tests.services.conftest import Bench


def line_of(collection: Collection, key: str, tag: str = "") -> JobLine:
    """Give the one job of a key, of one plant."""
    (found,) = [
        line
        for line in collection.calendar.jobs()
        if line.ref.key == key and tag in ("", line.tag)
    ]
    return found


def treated(collection: Collection, plant_id: int, on: date, again: date) -> None:
    """Write a treatment with its repeat day down."""
    values = {
        "plant_id": plant_id,
        "day": on,
        "what": CareKind.TREAT.value,
        "product": "Neem soap",
        "repeat_on": again,
    }
    with collection.ledger.writing("treated") as writing:
        writing.insert(CareRow, values)


@pytest.mark.usefixtures("bench")
def test_a_repot_of_long_ago_that_only_the_records_hold_falls_due(
    collection: Collection, today: date
) -> None:
    (number, draft), *_ = collection.plants.all()
    assert draft.repotted_on is None
    assert not [job for job in collection.calendar.jobs() if job.ref.key == "repot"]
    long_ago = today - timedelta(days=5 * 365)
    values = {"plant_id": number, "day": long_ago, "what": CareKind.REPOT.value}
    with collection.ledger.writing("taken in") as writing:
        writing.insert(CareRow, values)
    assert line_of(collection, "repot", draft.tag).plant_id == number


def test_jobs_come_by_day_then_as_the_round_is_walked(
    collection: Collection, bench: Bench, today: date
) -> None:
    lines = collection.calendar.jobs(last=today + timedelta(days=30))
    assert [line.on for line in lines] == sorted(line.on for line in lines)
    looks = [line.tag for line in lines if line.ref.key == "look-due"]
    assert looks == ["A1", "A2", "A3"]
    never = line_of(collection, "look-never")
    assert (never.tag, never.on, never.plant_id) == ("A10", today, bench.unseen)
    assert never.place == "East sill"
    assert never.sort is Sort.LOOK
    assert never.sentence.endswith(".")


def test_a_window_keeps_what_lies_in_it_and_what_goes_on(
    collection: Collection,
    bench: Bench,  # noqa: ARG001 -- laid
    today: date,
) -> None:
    due = today + timedelta(days=18)
    keys = [line.ref.key for line in collection.calendar.jobs(last=due)]
    assert "look-due" in keys
    before = collection.calendar.jobs(last=due - timedelta(days=1))
    assert "look-due" not in [line.ref.key for line in before]
    later = collection.calendar.jobs(first=due, last=due)
    assert "look-never" in [line.ref.key for line in later]  # still open


def test_a_job_done_by_hand_is_marked_and_undone(
    collection: Collection, bench: Bench, today: date
) -> None:
    treated(collection, bench.feed, today - timedelta(days=9), today)
    line = line_of(collection, "treat-again")
    assert line.closed is None
    wrote = collection.calendar.done(line, note="both sides")
    assert wrote.title == "A1 treat again: done"
    done = line_of(collection, "treat-again")
    assert (done.closed, done.closed_on, done.note) == (
        Closed.DONE,
        today,
        "both sides",
    )
    collection.history.undo()
    assert line_of(collection, "treat-again").closed is None
    collection.history.redo()
    assert line_of(collection, "treat-again").closed is Closed.DONE
    collection.calendar.reopen(done)
    assert line_of(collection, "treat-again").closed is None
    with pytest.raises(InputError, match="neither done nor let go"):
        collection.calendar.reopen(line)


def test_a_second_word_replaces_the_first(
    collection: Collection, bench: Bench, today: date
) -> None:
    treated(collection, bench.feed, today - timedelta(days=9), today)
    line = line_of(collection, "treat-again")
    collection.calendar.done(line)
    collection.calendar.let_go(line, "it was sold out")
    let_go = line_of(collection, "treat-again")
    assert (let_go.closed, let_go.note) == (Closed.LET_GO, "it was sold out")


def test_what_closes_elsewhere_is_let_go_and_not_ticked_off(
    collection: Collection,
    bench: Bench,  # noqa: ARG001 -- laid
) -> None:
    line = line_of(collection, "look-due", "A2")
    with pytest.raises(InputError, match="not ticked off by hand"):
        collection.calendar.done(line)
    collection.calendar.let_go(line)
    assert line_of(collection, "look-due", "A2").closed is Closed.LET_GO
    assert line_of(collection, "look-due", "A1").closed is None


def test_what_is_only_told_is_neither(
    collection: Collection, bench: Bench, today: date
) -> None:
    seen = Look(today, flowering=frozenset({Flowering.SPIKE}))
    collection.looks.record(bench.feed, seen)
    line = line_of(collection, "do-not-turn")
    for close in (collection.calendar.done, collection.calendar.let_go):
        with pytest.raises(InputError, match="cannot be"):
            close(line)


def test_a_day_to_come_is_no_day_of_doing(
    collection: Collection, bench: Bench, today: date
) -> None:
    treated(collection, bench.feed, today - timedelta(days=9), today)
    line = line_of(collection, "treat-again")
    with pytest.raises(InputError):
        collection.calendar.done(line, today + timedelta(days=1))
    collection.calendar.done(line, today - timedelta(days=1))
    assert line_of(collection, "treat-again").closed_on == today - timedelta(days=1)


def test_overdue_is_what_is_open_and_past_its_last_day(
    collection: Collection, bench: Bench, clock: FixedClock, today: date
) -> None:
    treated(collection, bench.feed, today - timedelta(days=9), today)
    line = line_of(collection, "treat-again")
    assert not line.is_overdue(today)
    clock.day = today + timedelta(days=1)
    assert line_of(collection, "treat-again").is_overdue(clock.day)
    collection.calendar.done(line)
    assert not line_of(collection, "treat-again").is_overdue(clock.day)
    clock.day = today + timedelta(days=2)
    assert "treat-again" not in [each.ref.key for each in collection.calendar.jobs()]


def test_a_plant_that_left_has_no_jobs(collection: Collection, bench: Bench) -> None:
    collection.plants.remove([bench.unseen])
    assert "A10" not in {line.tag for line in collection.calendar.jobs()}


@pytest.mark.parametrize(("low_c", "key"), [(9.0, "in"), (13.0, "out")])
def test_moves_go_by_the_nights_of_the_place(
    collection: Collection, today: date, low_c: float, key: str
) -> None:
    yard = collection.places.add(PlaceDraft("Yard", outdoors=True)).ids[0]
    attic = collection.places.add(PlaceDraft("Attic")).ids[0]
    collection.plants.add(PlantDraft("Y1", "", "cattleya", yard))
    home = collection.plants.add(PlantDraft("Y2", "", "cattleya", attic)).ids[0]
    collection.plants.add(PlantDraft("Y3", "", "cattleya", attic))
    moved = {"plant_id": home, "what": "move", "from_place": "Yard"}
    with collection.ledger.writing("moved") as writing:
        day = today - timedelta(days=200)
        writing.insert(CareRow, {**moved, "day": day, "to_place": "Attic"})
    for ago in range(7):
        night = Reading(today - timedelta(days=ago), low_c=low_c)
        collection.readings.write(yard, night)
    (line,) = [line for line in collection.calendar.jobs() if line.sort is Sort.MOVE]
    assert line.ref.key == f"move-{key}-intermediate"
    assert (line.place, line.plant_id, line.ref.place_id) == ("Yard", None, yard)
    tags = {"in": "Y1;", "out": "Y2 may"}[key]
    assert tags in line.sentence
    collection.calendar.let_go(line, "they stay")
    (line,) = [line for line in collection.calendar.jobs() if line.sort is Sort.MOVE]
    assert line.note == "they stay"


def test_blooms_of_two_years_are_expected(
    collection: Collection, bench: Bench, today: date
) -> None:
    opened = today + timedelta(days=40)
    for years in (1, 2):
        first = opened.replace(year=opened.year - years)
        with collection.ledger.writing("bloom") as writing:
            writing.insert(BloomRow, {"plant_id": bench.clear, "first_open_on": first})
    line = line_of(collection, "bloom-expected")
    assert line.tag == "A2"
    assert line.until is not None
    assert line.on <= opened <= line.until


def test_many_plants_take_no_more_statements_than_few(tmp_path: Path) -> None:
    counted = []
    for size in (2, 9):
        made = laid(tmp_path / str(size), size)
        counted.append(statements(made))
        made.close()
    assert counted[0] == counted[1]
    assert counted[0] <= 18


def laid(folder: Path, size: int) -> Collection:
    """Lay a collection with so many places and twice as many plants."""
    today = date(2026, 5, 20)
    made = Collection.open(folder, FixedClock(today), create=True)
    for number in range(size):
        draft = PlaceDraft(f"Yard {number}", outdoors=True)
        place = made.places.add(draft).ids[0]
        for turn in range(2):
            tag = f"A{number}-{turn}"
            plant_id = made.plants.add(PlantDraft(tag, "", "cattleya", place)).ids[0]
            look = Look(today, root_tips=RootTips.RUNNING)
            made.looks.record(plant_id, look)
            treated(made, plant_id, today, today + timedelta(days=14))
    return made


def statements(collection: Collection) -> int:
    """Count the statements of one reading of the calendar."""
    seen: list[str] = []

    def note(*details: object) -> None:
        seen.append(str(details[2]))

    engine = collection.ledger.store._engine
    event.listen(engine, "before_cursor_execute", note)
    assert collection.calendar.jobs()
    event.remove(engine, "before_cursor_execute", note)
    return len(seen)


def test_a_first_look_let_go_does_not_come_back_the_next_day(
    collection: Collection,
    bench: Bench,  # noqa: ARG001 -- laid
    clock: FixedClock,
    today: date,
) -> None:
    collection.calendar.let_go(line_of(collection, "look-never"))
    assert line_of(collection, "look-never").closed is Closed.LET_GO
    clock.day = today + timedelta(days=1)
    keys = [line.ref.key for line in collection.calendar.jobs()]
    assert "look-never" not in keys
    (past,) = (
        line
        for line in collection.calendar.jobs(first=today)
        if line.ref.key == "look-never"
    )
    assert (past.on, past.closed) == (today, Closed.LET_GO)
    collection.calendar.reopen(past)
    assert line_of(collection, "look-never").closed is None
