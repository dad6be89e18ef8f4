"""All rows of a collection, carried over: the same numbers, history and proof."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text, update

from growdesk.domain.errors import StoreError
from growdesk.domain.facts import CareKind
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.long_work import quietly
from growdesk.services.values import PlantDraft
from growdesk.store.carrying import carry, into_file, is_empty
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.migrating import create_database
from growdesk.store.schema import Base, PlantRow

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date
    from pathlib import Path

    from growdesk.services.clock import FixedClock


@pytest.fixture
def worked(tmp_path: Path, today: date, clock: FixedClock) -> Iterator[Collection]:
    """Give the demo with some history, one plant in the bin, one action undone."""
    collection = Collection.open(tmp_path / "worked", clock, create=True)
    for tag in ("A1", "A2", "A3"):
        collection.plants.add(PlantDraft(tag, "Cattleya walkeriana", ""))
    (first, _), (second, _), (later, _) = collection.plants.all()
    collection.day.give([first, second], today, CareKind.CLEAR_WATER, None)
    collection.plants.remove([first])
    for name in ("By the door", "By the stove"):
        collection.settings.set_word("collection", name)
    collection.history.undo()
    with collection.ledger.store.unrecorded() as session:  # its parent comes later
        session.execute(
            update(PlantRow).where(PlantRow.id == second).values(parent_id=later)
        )
    yield collection
    collection.close()


def _made(tmp_path: Path, clock: FixedClock) -> Path:
    folder = tmp_path / "carried"
    folder.mkdir()
    create_database(folder / FILE_NAME, clock.now())
    return folder


def test_a_file_carried_over_is_the_same_and_proves_the_same(
    worked: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    made, steps = _made(tmp_path, clock), []
    with (
        worked.ledger.reading() as session,
        into_file(made / FILE_NAME) as target,
    ):
        assert is_empty(target)
        carried = carry(
            session.connection(), target, lambda done, of: steps.append((done, of))
        )
        assert not is_empty(target)
    assert set(carried) == set(Base.metadata.tables)
    assert steps[-1] == (2 * sum(each.rows for each in carried.values()),) * 2
    there = look_through(worked.folder, is_open=True)
    here = look_through(made)
    assert (here.plants, here.entries, here.changes) == (
        there.plants,
        there.entries,
        there.changes,
    )
    assert here.damage == there.damage
    before = worked.history.page(), worked.history.view()
    worked.close()
    with_history = Collection.open(made, clock)
    assert (with_history.history.page(), with_history.history.view()) == before
    redone = with_history.history.redo()
    assert redone is not None
    assert with_history.settings.word("collection") == "By the stove"
    with_history.close()


def test_what_does_not_arrive_as_it_was_is_not_kept(
    worked: Collection,
    tmp_path: Path,
    clock: FixedClock,
) -> None:
    made = _made(tmp_path, clock)
    with pytest.raises(StoreError, match="change arrived as it was"):
        _slip(worked, made / FILE_NAME)
    with into_file(made / FILE_NAME) as target:
        assert is_empty(target)


def _slip(worked: Collection, path: Path) -> None:
    """Carry into a file that alters one step of the history as it comes in."""
    with worked.ledger.reading() as session, into_file(path) as target:
        target.execute(
            text(
                "CREATE TRIGGER slip AFTER INSERT ON change WHEN NEW.id = 2 BEGIN"
                " UPDATE change SET after = after || ' ' WHERE id = 2; END"
            )
        )
        carry(session.connection(), target, quietly)
