"""One block's transaction: kept whole, taken back, and over when its block is."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import Engine, create_engine, event, insert, select
from sqlalchemy.exc import IntegrityError

from growdesk.store.engine import for_writing, make_engine
from growdesk.store.schema import Base, PlaceRow
from growdesk.store.session import Session

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

PLACE = insert(PlaceRow)


@pytest.fixture
def engine(tmp_path: Path) -> Iterator[Engine]:
    path = tmp_path / "places.sqlite"
    new = create_engine(f"sqlite:///{path}")
    Base.metadata.create_all(new)
    new.dispose()
    made = for_writing(make_engine(path))
    yield made
    made.dispose()


def names(engine: Engine) -> list[str]:
    with Session(engine) as session:
        return list(session.scalars(select(PlaceRow.name).order_by(PlaceRow.id)))


def put(session: Session, *called: str) -> None:
    for name in called:
        session.execute(PLACE, [{"name": name, "kind": "sill"}])


def test_a_block_is_kept_whole_or_taken_back(engine: Engine) -> None:
    with Session(engine) as session:
        put(session, "Bay")
    with pytest.raises(IntegrityError), Session(engine) as session:
        put(session, "Loft", "Bay")  # of which there is one
    assert names(engine) == ["Bay"]


def test_a_block_within_is_taken_back_by_itself(engine: Engine) -> None:
    with Session(engine) as session:
        put(session, "Bay")
        with pytest.raises(IntegrityError), session.begin_nested():
            put(session, "Loft", "Bay")
    assert names(engine) == ["Bay"]


def test_a_block_that_asks_nothing_begins_nothing(engine: Engine) -> None:
    begun: list[object] = []
    event.listen(engine, "begin", begun.append)
    with Session(engine):
        pass
    assert begun == []
    assert names(engine) == []
    assert len(begun) == 1


def test_after_its_block_a_session_is_asked_nothing(engine: Engine) -> None:
    with Session(engine) as session:
        put(session, "Bay")
    with Session(engine) as unasked:
        pass
    for each in (session, unasked):
        with pytest.raises(RuntimeError, match="after its block"):
            each.scalar(select(PlaceRow.id))


def test_a_transaction_that_cannot_begin_leaves_no_connection(engine: Engine) -> None:
    closed: list[object] = []

    def refuse(_connection: object) -> None:
        raise ZeroDivisionError

    event.listen(engine, "begin", refuse)
    event.listen(engine, "checkin", lambda *_: closed.append(None))
    with pytest.raises(ZeroDivisionError), Session(engine) as session:
        put(session, "Bay")
    event.remove(engine, "begin", refuse)
    assert len(closed) == 1
    assert names(engine) == []
