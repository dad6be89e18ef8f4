"""The history of changes: read in pages, narrowed, walked to any point and back."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import event, insert, select, update

from growdesk.domain.errors import DamagedError, InputError
from growdesk.domain.facts import CareKind
from growdesk.services.history_values import PastAction, PastAsk
from growdesk.services.long_work import StoppedError
from growdesk.services.values import Changed
from growdesk.store.schema import RECORDED, ActionRow, ChangeRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from tests.services.conftest import Bench


def rows(collection: Collection) -> dict[str, list[tuple[object, ...]]]:
    with collection.ledger.reading() as session:
        return {
            name: [
                tuple(row)
                for row in session.execute(select(table.__table__).order_by(table.id))
            ]
            for name, table in RECORDED.items()
        }


def titles(collection: Collection, **ask: object) -> list[str]:
    page = collection.history.page(PastAsk(**ask))  # type: ignore[arg-type]
    return [each.title for each in page.actions]


def work(collection: Collection, bench: Bench, today: date) -> None:
    """Do three things after the bench was laid."""
    collection.day.give([bench.feed, bench.clear], today, CareKind.FEED, 100.0)
    draft = collection.plants.get(bench.dry)
    collection.plants.change(bench.dry, replace(draft, note="Größe prüfen"))
    collection.plants.remove([bench.unseen])


def test_a_page_tells_what_was_done_to_whom_and_what_hangs_on_it(
    collection: Collection, bench: Bench, today: date
) -> None:
    work(collection, bench, today)
    first, second, third, *_ = collection.history.page().actions
    assert (first.title, first.tags, first.steps) == ("Plant A10 removed", ("A10",), 1)
    assert (second.title, second.tags, second.steps) == (
        "Note on A3 changed",
        ("A3",),
        2,
    )
    assert third.title == "Feed given to 2 plants"
    assert third.tags == ("A1", "A2")
    assert not any(each.undone for each in (first, second, third))
    assert first.at == collection.clock.now().astimezone(UTC).replace(microsecond=0)


def test_it_is_narrowed_by_text_and_by_plant(
    collection: Collection, bench: Bench, today: date
) -> None:
    work(collection, bench, today)
    assert titles(collection, text="FEED given") == ["Feed given to 2 plants"]
    assert titles(collection, text="%") == []
    assert titles(collection, tag="a3", most=2) == [
        "Note on A3 changed",
        "Look at A3",
    ]
    assert titles(collection, tag="A10")[0] == "Plant A10 removed"
    with pytest.raises(InputError, match="no plant's tag"):
        titles(collection, tag="Z9")


def test_text_is_found_whatever_its_case_in_any_letters(
    collection: Collection,
) -> None:
    from growdesk.services.values import PlaceDraft  # noqa: PLC0415 -- one use

    collection.places.add(PlaceDraft("Östliches Fenster"))
    assert titles(collection, text="östliches") == ["Place Östliches Fenster added"]


def test_pages_follow_one_another_without_a_gap(
    collection: Collection, bench: Bench, today: date
) -> None:
    work(collection, bench, today)
    whole = collection.history.page(PastAsk(most=1000))
    assert not whole.has_more
    got: list[PastAction] = []
    before = None
    while True:
        page = collection.history.page(PastAsk(before=before, most=3))
        got.extend(page.actions)
        if not page.has_more:
            break
        before = page.actions[-1].action_id
    assert tuple(got) == whole.actions


def test_any_point_is_reached_at_once_and_back_again(
    collection: Collection, bench: Bench, today: date
) -> None:
    states = [rows(collection)]
    work(collection, bench, today)
    after = rows(collection)
    fed = collection.history.page().actions[2]
    told: list[tuple[int, int]] = []
    done = collection.history.undo_to(fed.action_id, lambda n, of: told.append((n, of)))
    assert rows(collection) == states[0]
    assert told == [(0, 3), (1, 3), (2, 3)]
    assert done.title == "Undone: 3 actions"
    assert done.changed & Changed.CARE
    assert not done.undoable
    assert done.ids == (bench.unseen, bench.dry, bench.feed, bench.clear)
    page = collection.history.page().actions
    assert [(each.undone, each.steps) for each in page[:3]] == [
        (True, 3),
        (True, 2),
        (True, 1),
    ]
    assert (page[3].undone, page[3].steps) == (False, 1)
    one = collection.history.redo_to(page[2].action_id)
    assert one.title == "Done again: Feed given to 2 plants"
    assert collection.history.redo_to(page[0].action_id).title == (
        "Done again: 2 actions"
    )
    assert rows(collection) == after
    with pytest.raises(InputError, match="stands so already"):
        collection.history.redo_to(page[0].action_id)


def test_a_stop_changes_nothing(
    collection: Collection, bench: Bench, today: date
) -> None:
    work(collection, bench, today)
    before = rows(collection)
    fed = collection.history.page().actions[2]

    def stop(done: int, _of: int) -> None:
        if done == 2:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        collection.history.undo_to(fed.action_id, stop)
    assert rows(collection) == before
    assert collection.history.view().undo == "Plant A10 removed"


@pytest.mark.parametrize(
    ("image", "digest"),
    [('{"place_id":999,', None), ('{"place_id":999,', b"as written"), ("{,", b"")],
    ids=["no-row-takes-it", "changed-since", "cannot-be-read"],
)
def test_what_the_rows_do_not_take_ends_it_with_a_plain_line(
    collection: Collection, bench: Bench, today: date, image: str, digest: bytes | None
) -> None:
    work(collection, bench, today)
    store = collection.ledger.store
    page = collection.history.page().actions
    with store.unrecorded() as session:
        of = ChangeRow.action_id == page[1].action_id
        before = session.scalars(select(ChangeRow.before).where(of)).one() or ""
        broken = before.replace("{", image, 1)
        session.execute(update(ChangeRow).where(of).values(before=broken))
        if digest is None:
            here = update(ActionRow).where(ActionRow.id == page[1].action_id)
            session.execute(here.values(digest=None))
    done = collection.history.undo_to(page[2].action_id)
    assert done.title == "Undone: Plant A10 removed"
    assert done.problems == (
        "“Note on A3 changed” could not be undone, so all before it stays done.",
    )
    assert collection.history.view().undo == "Note on A3 changed"
    if digest is not None:
        with pytest.raises(DamagedError, match="“Note on A3 changed” is not in"):
            collection.history.undo()
    assert collection.history.page(PastAsk(tag="A3")).actions
    assert collection.plants.find("A10") == bench.unseen


def test_a_long_history_is_read_by_as_many_statements_as_a_short_one(
    collection: Collection, bench: Bench
) -> None:
    def asked() -> list[int]:
        counts = []
        for ask in (PastAsk(), PastAsk(text="a1"), PastAsk(tag="A1")):
            seen: list[str] = []
            engine = collection.ledger.store._engine

            def note(*details: object, to: list[str] = seen) -> None:
                to.append(str(details[2]))

            event.listen(engine, "before_cursor_execute", note)
            collection.history.page(ask)
            event.remove(engine, "before_cursor_execute", note)
            counts.append(len(seen))
        return counts

    few = asked()
    at_s = int(datetime(2020, 1, 1, tzinfo=UTC).timestamp())
    image = f'{{"id":1,"plant_id":{bench.feed}}}'
    with collection.ledger.store.unrecorded() as session:
        session.execute(
            insert(ActionRow),
            [{"id": n, "at_s": at_s, "title": f"Fed A1 {n}"} for n in range(100, 5100)],
        )
        session.execute(
            insert(ChangeRow),
            [
                {
                    "id": n,
                    "action_id": n,
                    "table_name": "care",
                    "row_id": 1,
                    "after": image,
                }
                for n in range(100, 5100)
            ],
        )
    assert asked() == few
    page = collection.history.page(PastAsk(tag="A1"))
    assert len(page.actions) == 200
    assert page.has_more
    assert page.actions[-1].steps == 200
