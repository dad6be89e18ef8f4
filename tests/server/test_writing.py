"""Reading and writing on a server: one state, all or nothing, and cut connections."""

from __future__ import annotations

import random
import time
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import delete, event, func, select, text
from sqlalchemy.exc import DBAPIError, IntegrityError
from typing_extensions import override

from growdesk.domain.errors import DamagedError, GoneError, InputError, LookOnlyError
from growdesk.services.collection import Collection
from growdesk.services.log_file import _kind
from growdesk.services.values import PlaceDraft, PlantDraft
from growdesk.store.schema import ActionRow, Base, ChangeRow, LookRow, PlaceRow
from tests.services.test_bin_states import Grower

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.clock import FixedClock
    from tests.server_store import Databases

STEPS = 40
CUT = (
    "SELECT count(pg_terminate_backend(pid, 5000)) FROM pg_stat_activity"
    " WHERE datname = '{}' AND pid <> pg_backend_pid()"
)


class Remover(Grower):
    """Does by chance what a grower does, all but emptying the bin."""

    @override
    def empty(self) -> None:
        self.undo()


def cut(databases: Databases, address: str) -> None:
    """End every connection to a database, as a server that stops does."""
    with databases.alone() as execute:
        execute(CUT.format(address.rpartition("/")[2]))


def rows(made: Collection) -> dict[str, list[dict[str, object]]]:
    """Give all rows of all tables."""
    with made.ledger.reading() as session:
        return {
            table.name: [
                dict(row)
                for row in session.execute(
                    table.select().order_by(table.c.id)
                ).mappings()
            ]
            for table in Base.metadata.sorted_tables
        }


def done_by_chance(made: Collection, seed: int, at: Path) -> list[object]:
    """Do things by chance, then all back and forth; give all that is told."""
    grower = Remover(made, random.Random(seed), at)  # noqa: S311 -- a test
    told: list[object] = []
    for _ in range(STEPS):
        try:
            grower.step()
        except InputError as error:
            told.append(error.line())
    told += [rows(made), made.day.view(), made.history.page()]
    while made.history.undo():
        pass
    told += [rows(made), made.plants.all()]
    while made.history.redo():
        pass
    return [*told, rows(made), made.day.view(), made.bin.view()]


@pytest.mark.parametrize("seed", range(2))
def test_what_is_done_by_chance_is_the_same_in_a_file_and_on_a_server(
    seed: int, address: str, tmp_path: Path, clock: FixedClock
) -> None:
    """Every row of every table is, and so are the day, the history and its way back."""
    (tmp_path / "there").mkdir()
    in_file = Collection.open(tmp_path / "here", clock, create=True)
    there = Collection.open_on_server(address, tmp_path / "there", clock, create=True)
    one, two = (done_by_chance(made, seed, tmp_path) for made in (in_file, there))
    assert len(one) == len(two) >= 8
    for here, on_server in zip(one, two, strict=True):
        assert here == on_server
    in_file.close()
    there.close()


def test_a_block_sees_one_state_however_long_it_takes(
    on_server: Collection, address: str, folder: Path, clock: FixedClock
) -> None:
    other = Collection.open_on_server(address, folder, clock)
    with on_server.ledger.reading() as session:
        assert session.scalar(select(func.count(PlaceRow.id))) == 0
        other.places.add(PlaceDraft("East sill"))
        assert session.scalar(select(func.count(PlaceRow.id))) == 0
    assert len(on_server.places.all()) == 1
    other.close()


def test_a_block_that_reads_cannot_write(on_server: Collection) -> None:
    with pytest.raises(LookOnlyError), on_server.ledger.reading() as session:
        session.execute(text("DELETE FROM place"))


def test_what_fails_in_the_middle_leaves_nothing(on_server: Collection) -> None:
    values = {"name": "East sill", "kind": "windowsill"}
    with pytest.raises(IntegrityError), on_server.ledger.writing("x") as writing:
        writing.insert_many(PlaceRow, [values, values])
    assert on_server.history.view().undo is None
    with on_server.ledger.together("Two places"):
        on_server.places.add(PlaceDraft("East sill"))
        with pytest.raises(InputError):
            on_server.places.add(PlaceDraft("East sill"))
        on_server.places.add(PlaceDraft("West sill"))
    assert on_server.history.view().undo == "Two places"
    on_server.history.undo()
    assert on_server.places.all() == ()


def test_a_connection_cut_while_nothing_is_done_is_not_noticed(
    on_server: Collection, address: str, databases: Databases
) -> None:
    on_server.places.add(PlaceDraft("East sill"))
    cut(databases, address)
    assert len(on_server.places.all()) == 1
    cut(databases, address)
    on_server.places.add(PlaceDraft("West sill"))
    assert len(on_server.places.all()) == 2


def test_a_connection_cut_in_reading_is_told_and_the_next_try_works(
    on_server: Collection, address: str, databases: Databases
) -> None:
    on_server.places.add(PlaceDraft("East sill"))

    def read() -> None:
        with on_server.ledger.reading() as session:
            session.scalar(select(func.count(PlaceRow.id)))
            cut(databases, address)
            session.scalar(select(func.count(PlaceRow.id)))

    with pytest.raises(GoneError, match="cannot be reached"):
        read()
    assert len(on_server.places.all()) == 1


def test_a_connection_cut_in_writing_leaves_nothing_half(
    on_server: Collection, address: str, databases: Databases
) -> None:
    def write() -> None:
        with on_server.ledger.writing("Lost") as writing:
            writing.insert(PlaceRow, {"name": "East sill", "kind": "windowsill"})
            cut(databases, address)
            writing.insert(PlaceRow, {"name": "West sill", "kind": "windowsill"})

    with pytest.raises(GoneError, match="cannot be reached"):
        write()
    assert on_server.places.all() == ()
    on_server.places.add(PlaceDraft("East sill"))
    with on_server.ledger.reading() as session:
        assert session.scalars(select(ActionRow.id)).all() == [1]


def test_a_connection_cut_as_all_is_kept_says_that_nobody_knows(
    on_server: Collection, address: str, databases: Databases
) -> None:
    def at_last(_connection: object) -> None:
        cut(databases, address)

    event.listen(on_server.ledger.store._writer, "commit", at_last)
    try:
        with pytest.raises(GoneError, match="went away as it was to keep") as caught:
            on_server.places.add(PlaceDraft("East sill"))
    finally:
        event.remove(on_server.ledger.store._writer, "commit", at_last)
    assert "before you do it again" in caught.value.hint
    assert on_server.places.all() == ()


def test_texts_numbers_and_days_come_back_as_they_were(on_server: Collection) -> None:
    values = {
        "name": "Ångström’s “sill” 🌱 %s ? \\ '; DROP TABLE place; --",
        "kind": "windowsill",
        "lamps_hours": 0.1 + 0.2,
        "lamps_ppfd": 5e-324,
        "position": 2**53,
        "note": "line\n\tnext",
    }
    with on_server.ledger.writing("x") as writing:
        writing.insert(PlaceRow, values)
    with on_server.ledger.reading() as session:
        row = session.execute(select(PlaceRow.__table__)).mappings().one()
    assert {name: row[name] for name in values} == values


def test_names_come_in_the_order_of_a_file_whatever_country_the_server_is_of(
    on_server: Collection, tmp_path: Path, clock: FixedClock
) -> None:
    in_file = Collection.open(tmp_path / "file", clock, create=True)
    names = ["b", "B", "a", "Ä", "ä", "Z", "z", "_", " a", "1", "10", "2", "ß", "ss"]
    orders = []
    for made in (on_server, in_file):
        with made.ledger.writing("x") as writing:
            rows = [{"name": name, "kind": "windowsill"} for name in names]
            writing.insert_many(PlaceRow, rows)
        with made.ledger.reading() as session:
            by_name = select(PlaceRow.name).order_by(PlaceRow.name)
            last = session.scalar(select(func.max(PlaceRow.name)))
            orders.append([*session.scalars(by_name), last])
    in_file.close()
    assert orders[0] == orders[1]


def test_what_was_forgotten_is_in_no_page_afterwards(on_server: Collection) -> None:
    """What a transaction begun before may still read, another test's too, stays."""
    on_server.plants.add(PlantDraft("A1", "Secret of the house", ""))
    with on_server.ledger.store.unrecorded() as session:
        for row in (ChangeRow, ActionRow):
            session.execute(delete(row))

    def size() -> int:
        with on_server.ledger.reading() as session:
            return int(session.scalar(text("SELECT pg_relation_size('change')")))

    assert size() > 0
    for _ in range(60):
        on_server.ledger.store.compact()
        if size() == 0:
            return
        time.sleep(0.5)
    assert size() == 0


def test_a_word_no_one_knows_is_damage_there_too(on_server: Collection) -> None:
    plant = on_server.plants.add(PlantDraft("A1", "", "cattleya")).ids[0]
    day = on_server.clock.today()
    with on_server.ledger.writing("x") as writing:
        writing.insert(LookRow, {"plant_id": plant, "day": day, "root_tips": "odd"})
    with pytest.raises(DamagedError, match="odd"):
        on_server.day.view()


def test_a_fault_repeats_nothing_that_was_typed(on_server: Collection) -> None:
    on_server.places.add(PlaceDraft("East sill"))
    with pytest.raises(DBAPIError) as caught, on_server.ledger.writing("x") as writing:
        writing.insert(PlaceRow, {"name": "East sill", "kind": "a secret"})
    assert "a secret" not in str(caught.value).partition("[SQL")[2]
    assert _kind(caught.value) == "IntegrityError 23505"
