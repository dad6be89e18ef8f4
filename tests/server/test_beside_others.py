"""Two computers on one collection: what each sees of the other, ticks and undoes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import func, select

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind
from growdesk.services.collection import Collection
from growdesk.services.others import Others
from growdesk.services.values import Changed, PlantDraft
from growdesk.store.schema import CareRow, DrawnRow

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date
    from pathlib import Path

    from growdesk.services.clock import FixedClock


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
    on_server.plants.add(PlantDraft("A3", "Cattleya", ""))
    others.wrote()
    assert others.look().changed is Changed.NOTHING
    on_server.plants.add(PlantDraft("A4", "Cattleya", ""))
    others.wrote()
    other.plants.add(PlantDraft("A5", "Cattleya", ""))
    assert Changed.PLANTS in others.look().changed
    other.history.undo()
    assert others.look().changed is ~Changed.NOTHING


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
        on_server.history.undo(view.undo_id)
    assert ids(on_server) == []
    assert on_server.history.undo(on_server.history.view().undo_id) is not None
    assert ids(other) == [second]
