"""Two computers on one collection: what each sees of the other, ticks and undoes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PIL import Image
from sqlalchemy import func, insert, select

from growdesk.domain.errors import InputError, OvertakenError, StoreError
from growdesk.domain.facts import CareKind
from growdesk.services import emptying
from growdesk.services.collection import Collection
from growdesk.services.others import News, Others
from growdesk.services.values import Changed, PlantDraft
from growdesk.store.migrations import SCHEMA
from growdesk.store.schema import CareRow, DrawnRow, MigrationRow
from growdesk.store.states import OwnSteps, State

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date
    from pathlib import Path

    from growdesk.services.clock import FixedClock
    from growdesk.services.ledger import Ledger


@pytest.fixture
def other(
    on_server: Collection, address: str, folder: Path, clock: FixedClock
) -> Iterator[Collection]:
    """Give the second computer's collection; the first has two plants."""
    for tag in ("A1", "A2"):
        on_server.plants.add(PlantDraft(tag, "Cattleya walkeriana", ""))
    made = Collection.open_on_server(address, folder, clock)
    made.ledger.store.who = lambda: "mia"
    yield made
    made.close()


def ids(collection: Collection) -> list[int]:
    return [plant_id for plant_id, _ in collection.plants.all()]


def rows(collection: Collection, row: type[CareRow | DrawnRow]) -> int:
    with collection.ledger.reading() as session:
        return session.execute(select(func.count()).select_from(row)).scalar_one()


def test_what_another_computer_wrote_is_told_once_and_by_its_facets(
    on_server: Collection, other: Collection, today: date
) -> None:
    others = Others(on_server.ledger)
    assert others.look().changed is Changed.NOTHING
    other.day.give(ids(other), today, CareKind.CLEAR_WATER, None)
    news = others.look()
    assert news.changed is Changed.CARE
    assert "mia" in news.line
    assert others.look().changed is Changed.NOTHING
    on_server.plants.add(PlantDraft("A4", "Cattleya", ""))
    other.plants.add(PlantDraft("A5", "Cattleya", ""))
    assert others.look() == News(
        Changed.PLANTS, "On another computer, mia: Plant A5 added"
    )
    other.history.undo()
    news = others.look()
    assert news.changed is ~Changed.NOTHING
    assert news.line == "Something was undone on another computer."


def test_what_this_computer_did_is_never_told_as_anothers(
    on_server: Collection, other: Collection
) -> None:
    on_server.folder.mkdir()
    others = Others(on_server.ledger)
    assert others.look() == News()
    history = on_server.history
    for deed in (
        lambda: on_server.plants.add(PlantDraft("A3", "Cattleya", "")),
        history.undo,
        history.redo,
        history.undo,
        lambda: on_server.plants.add(PlantDraft("A4", "Cattleya", "")),
        lambda: (history.undo(), history.redo()),
        lambda: on_server.plants.remove([1]),
        lambda: emptying.empty(on_server),
    ):
        deed()
        assert others.look() == News()
    with pytest.raises(InputError):
        on_server.plants.add(PlantDraft("A4", "Cattleya", ""))
    assert others.look() == News()
    other.plants.add(PlantDraft("A6", "Cattleya", ""))
    history.undo()
    assert "A6" in others.look().line
    assert others.look() == News()


def test_steps_of_a_later_moment_wait_for_it() -> None:
    first, second, third = (State(number, None, number) for number in (1, 2, 3))
    own = OwnSteps()
    own.add((second, third))
    assert own.others(first, first) == ()
    assert own.others(first, second) == ((first, second),)
    assert own.others(second, third) == ()
    assert own.others(second, third) == ((second, third),)


def test_a_plant_ticked_on_both_is_watered_once(
    on_server: Collection, other: Collection, today: date
) -> None:
    both = ids(on_server)
    for collection in (on_server, other):
        collection.day.view(today)
    on_server.day.give(both, today, CareKind.CLEAR_WATER, None)
    before = rows(on_server, CareRow)
    with pytest.raises(InputError):  # they are to be looked at first, as ever
        other.day.tick(both, today)
    assert rows(on_server, CareRow) == before == len(both)
    other.day.pass_by(both[:1], today)
    assert rows(on_server, CareRow) == before - 1
    on_server.day.untick(both, today)
    on_server.day.untick(both, today)
    assert rows(on_server, CareRow) == 0


def test_a_plant_gone_on_the_other_is_refused_in_words(
    on_server: Collection, other: Collection, today: date
) -> None:
    first, second = ids(on_server)
    other.plants.remove([first])
    with pytest.raises(InputError, match="plant"):
        on_server.day.give([first], today, CareKind.CLEAR_WATER, None)
    on_server.day.give([second], today, CareKind.CLEAR_WATER, None)
    assert ids(on_server) == [second]


def test_undo_names_whose_step_it_is_and_takes_no_other(
    on_server: Collection, other: Collection
) -> None:
    first, second = ids(on_server)
    other.plants.remove([first])
    view = on_server.history.view()
    assert (view.undo_by, other.history.view().undo_by) == ("mia", "")
    other.plants.remove([second])
    with pytest.raises(InputError, match="somebody wrote meanwhile"):
        on_server.history.undo(view)
    assert ids(on_server) == []
    assert on_server.history.undo(on_server.history.view()) is not None
    assert ids(other) == [second]
    view = on_server.history.view()
    other.history.undo()
    other.plants.add(PlantDraft("A3", "", ""))  # under the number that was undone
    assert other.history.view().undo_id == view.undo_id
    with pytest.raises(InputError, match="somebody wrote meanwhile"):
        on_server.history.undo(view)
    other.history.undo()
    assert ids(other) == [first, second]


def test_a_photo_is_not_named_whose_file_went_with_the_bin(
    on_server: Collection, other: Collection, tmp_path: Path
) -> None:
    on_server.folder.mkdir()
    first, second = ids(on_server)
    picture = tmp_path / "photo.jpg"
    Image.new("RGB", (40, 30), "green").save(picture)
    other.photos.add(first, [picture])
    other.plants.remove([first])
    on_the_way = list(on_server.photos.arriving([picture]))
    assert emptying.empty(other).photos == 1
    with pytest.raises(InputError, match="went with the bin"):
        on_server.photos.keep(second, on_the_way)
    assert on_server.photos.of(second) == ()
    on_server.photos.add(second, [picture])
    (photo,) = other.photos.of(second)
    assert photo.problem is None


def test_a_photo_that_is_named_in_time_stays(
    on_server: Collection,
    other: Collection,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    on_server.folder.mkdir()
    first, second = ids(on_server)
    picture = tmp_path / "photo.jpg"
    Image.new("RGB", (40, 30), "green").save(picture)
    other.photos.add(first, [picture])
    other.plants.remove([first])
    delete = emptying._delete_photos

    def a_moment_later(ledger: Ledger, named: set[str]) -> tuple[int, int]:
        on_server.photos.add(second, [picture])
        return delete(ledger, named)

    monkeypatch.setattr(emptying, "_delete_photos", a_moment_later)
    assert emptying.empty(other).photos == 0
    (photo,) = on_server.photos.of(second)
    assert photo.problem is None


def test_nothing_is_written_into_a_form_made_since(
    on_server: Collection, other: Collection
) -> None:
    row = {"id": SCHEMA + 1, "name": "later", "compatible_from": SCHEMA + 1, "at_s": 0}
    with other.ledger.store.unrecorded() as session:
        session.execute(insert(MigrationRow), [{**row, "program": "9.9"}])
    with pytest.raises(StoreError, match="brought up to date by a newer growdesk"):
        on_server.plants.add(PlantDraft("A3", "", ""))
    assert len(ids(on_server)) == 2


def test_what_another_changed_meanwhile_is_not_written_over_unasked(
    on_server: Collection, other: Collection
) -> None:
    first, second = ids(on_server)
    mine, others = on_server.ledger, Others(on_server.ledger)
    others.look()
    form = on_server.plants.get(first)
    other.plants.change(first, replace(other.plants.get(first), note="Repotted."))
    with mine.standing_on(others.seen):
        with pytest.raises(OvertakenError, match="mia: Note on A1 changed") as caught:
            on_server.plants.change(first, replace(form, name="Cattleya maxima"))
        on_server.plants.change(second, replace(form, tag="A2", name="C. maxima"))
    assert on_server.plants.get(first).note == "Repotted."
    with mine.standing_on(caught.value.now):
        on_server.plants.change(first, replace(form, name="Cattleya maxima"))
        on_server.plants.change(first, form)  # over what this one wrote itself
    assert on_server.plants.get(first).note == ""
    assert others.look().changed is Changed.PLANTS


def test_two_may_change_two_fields_of_one_row(
    on_server: Collection, other: Collection
) -> None:
    first, _ = ids(on_server)
    others = Others(on_server.ledger)
    others.look()
    other.plants.change(first, replace(other.plants.get(first), note="Repotted."))
    with on_server.ledger.standing_on(others.seen):
        form = on_server.plants.get(first)
        on_server.plants.change(first, replace(form, name="Cattleya maxima"))
    kept = other.plants.get(first)
    assert (kept.name, kept.note) == ("Cattleya maxima", "Repotted.")
