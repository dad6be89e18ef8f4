"""Two who write to one collection on a server: nothing is lost, and nothing is half."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import func, select

from growdesk.domain.errors import BusyError
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft
from growdesk.store import engine, server_engine
from growdesk.store.schema import ActionRow, ChangeRow, MigrationRow, PlaceRow, PlantRow

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[2]
EACH = 200


def other(what: str, address: str, folder: Path, *more: str) -> subprocess.Popen[str]:
    asked = [sys.executable, "-m", "tests.server.writers", what, address, str(folder)]
    return subprocess.Popen(
        [*asked, *more],
        cwd=ROOT,
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )


def numbers(made: Collection, row: type[ActionRow | ChangeRow]) -> list[int]:
    with made.ledger.reading() as session:
        return list(session.scalars(select(row.id).order_by(row.id)))


def names(made: Collection) -> list[str]:
    with made.ledger.reading() as session:
        return list(session.scalars(select(PlaceRow.name).order_by(PlaceRow.name)))


def tags(made: Collection) -> list[str]:
    with made.ledger.reading() as session:
        return list(session.scalars(select(PlantRow.tag).order_by(PlantRow.id)))


def test_two_that_start_at_once_and_write_lose_no_action(
    address: str, folder: Path, told: Callable[[str], None]
) -> None:
    with (
        other("many", address, folder, "a", str(EACH)) as one,
        other("many", address, folder, "b", str(EACH)) as two,
    ):
        assert (one.wait(120), two.wait(120)) == (0, 0)
    made = Collection.open_on_server(address, folder)
    assert numbers(made, ActionRow) == list(range(1, 2 * EACH + 1))
    assert numbers(made, ChangeRow) == list(range(1, 2 * EACH + 1))
    with made.ledger.reading() as session:
        assert session.scalar(select(func.count(PlantRow.id))) == 2 * EACH
        assert session.scalar(select(func.count(MigrationRow.id))) == session.scalar(
            select(func.max(MigrationRow.id))
        )
    before = tags(made)
    done = made.history.undo_to(1)
    assert done.title == f"Undone: {2 * EACH} actions"
    assert made.plants.all() == ()
    made.history.redo_to(2 * EACH)
    assert tags(made) == before
    made.close()
    told(f"server: 2 processes at once, {2 * EACH} actions written, 0 lost")


def test_who_is_killed_in_a_change_leaves_nothing_of_it(
    on_server: Collection, address: str, folder: Path
) -> None:
    on_server.places.add(PlaceDraft("East sill"))
    for _ in range(2):
        with other("killed", address, folder) as killed:
            assert killed.wait(60) == -signal.SIGKILL
    on_server.places.add(PlaceDraft("West sill"))
    assert names(on_server) == ["East sill", "West sill"]
    assert numbers(on_server, ActionRow) == [1, 2]


def test_who_waits_too_long_for_the_turn_is_told(
    on_server: Collection, address: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    del on_server  # which has made the tables
    monkeypatch.setitem(server_engine._SETTINGS, "lock_timeout", 200)
    assert engine.BUSY_MS == 5000
    made = Collection.open_on_server(address, folder)
    with other("asleep", address, folder) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "written\n"
        with pytest.raises(BusyError, match="Somebody else is writing to"):
            made.places.add(PlaceDraft("West sill"))
        assert made.places.all() == ()  # looking goes on, and sees nothing half
        holder.kill()
    made.places.add(PlaceDraft("West sill"))
    assert names(made) == ["West sill"]
    made.close()
