"""The full check: no false alarm whatever is done, and no changed value unseen."""

from __future__ import annotations

import random
import sqlite3
from contextlib import closing, contextmanager
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import InputError
from growdesk.services.check_values import Sort
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.long_work import StoppedError, quietly
from growdesk.services.mending import set_back
from growdesk.store.history_proof import prove
from growdesk.store.schema import RECORDED
from growdesk.store.witness import differences
from tests.services.test_all_is_undone import acts
from tests.services.test_bin_states import Grower

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from tests.services.conftest import Bench

pytestmark = pytest.mark.file

HAND = "UPDATE {table} SET {column} = ? WHERE id = ?"


def alarms(folder: Path) -> list[object]:
    """Give what the history and its proof say against the rows as they stand."""
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        proof = prove(connection, quietly)
        told = list(differences(connection, quietly, proof.damaged))
    return [*told, *proof.damaged, *proof.missing, *proof.disordered]


def sentences(folder: Path) -> list[str]:
    return [each.sentence for each in look_through(folder).damage]


def spoil(folder: Path, statement: str, *values: object) -> None:
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        connection.execute(statement, values)
        connection.commit()


@contextmanager
def opened_anew(collection: Collection) -> Iterator[Collection]:
    """Give the collection again: one that others wrote to takes no write of its own."""
    collection.close()
    anew = Collection.open(collection.folder, collection.clock)
    try:
        yield anew
    finally:
        anew.close()


def test_no_write_of_any_service_is_taken_for_damage(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    done = 0
    for name, act in acts(collection, bench, picture):
        act()
        assert alarms(collection.folder) == [], name
        collection.history.undo()
        assert alarms(collection.folder) == [], f"{name} undone"
        collection.history.redo()
        assert alarms(collection.folder) == [], f"{name} done again"
        done += 1
    assert done > 50
    assert sentences(collection.folder) == []
    assert look_through(collection.folder).changes > 100
    while collection.history.undo():
        pass
    assert alarms(collection.folder) == []


@pytest.mark.parametrize("seed", range(6))
def test_nothing_that_a_grower_does_is_taken_for_damage(
    seed: int, collection: Collection, tmp_path: Path
) -> None:
    chance = random.Random(seed + 40)  # noqa: S311 -- a test
    grower = Grower(collection, chance, tmp_path)
    for _ in range(40):
        try:
            grower.step()
        except InputError:
            continue
        assert alarms(collection.folder) == []
    assert sentences(collection.folder) == []


def test_a_changed_amount_day_or_note_is_told_with_what_the_history_says(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    spoil(folder, "UPDATE plant SET pot_volume_l = 3.2 WHERE id = ?", bench.dry)
    spoil(folder, "UPDATE look SET day = '2026-05-16' WHERE plant_id = ?", bench.dry)
    spoil(folder, "UPDATE look SET note = 'x' WHERE plant_id = ?", bench.feed)
    assert sorted(sentences(folder)) == [
        (
            "Plant A1, look of 17 May 2026, note: “x” stands there; the history says “”"
            " of 20 May 2026."
        ),
        (
            "Plant A3, look of 16 May 2026, day: 16 May 2026 stands there; the history"
            " says 17 May 2026 of 20 May 2026."
        ),
        "Plant A3, pot: 3.2 L stands there; the history says 1.2 L of 20 May 2026.",
    ]
    assert {each.whose for each in look_through(folder).damage} == {
        "Plant A1",
        "Plant A3",
    }


def test_every_column_of_every_row_has_its_witness(
    collection: Collection, bench: Bench, picture: Callable[..., Path]
) -> None:
    """A value changed on the disk is seen in each column that the history fills."""
    for _, act in acts(collection, bench, picture):
        act()
    folder = collection.folder
    seen = 0
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        connection.execute("PRAGMA foreign_keys = OFF")
        for name, row_class in RECORDED.items():
            row = connection.execute(f"SELECT max(id) FROM {name}").fetchone()  # noqa: S608 -- a table of ours
            if row[0] is None:
                continue
            for column in row_class.metadata.tables[name].c:
                if column.name == "id":
                    continue
                kind = column.type.python_type
                value = 1 if kind is bool else 77 if kind in {int, float} else "odd"
                connection.execute("SAVEPOINT one")
                statement = HAND.format(table=name, column=column.name)
                stood = connection.execute(
                    f"SELECT {column.name} FROM {name} WHERE id = ?",  # noqa: S608 -- ditto
                    row,
                ).fetchone()[0]
                other = 1 - (stood or 0) if kind is bool else value
                try:
                    connection.execute(statement, (other, row[0]))
                except sqlite3.IntegrityError:
                    connection.execute("ROLLBACK TO one")
                    continue
                found = list(differences(connection, quietly))
                assert [(each.table, each.row_id) for each in found] == [(name, row[0])]
                connection.execute("ROLLBACK TO one")
                seen += 1
    assert seen > 150


def test_a_row_that_is_gone_is_told_and_brought_back(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    spoil(folder, "DELETE FROM look WHERE plant_id = ?", bench.dry)
    (gone,) = look_through(folder).damage
    assert gone.sentence == (
        "Plant A3, look of 17 May 2026: it is gone, and nobody removed it; the history"
        " has it of 20 May 2026 (“Look at A3”)."
    )
    with opened_anew(collection) as anew:
        set_back(anew.ledger, [gone])
        assert sentences(folder) == []
        assert anew.day.detail(bench.dry, anew.clock.today()).looks


def test_setting_back_is_one_action_that_undo_takes_back(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    spoil(folder, "UPDATE plant SET pot_volume_l = 3.2, name = 'y' WHERE tag = 'A3'")
    spoil(folder, "UPDATE look SET day = '2026-05-1' WHERE plant_id = ?", bench.dry)
    found = look_through(folder)
    assert len(found.mendable) == 3
    with opened_anew(collection) as anew:
        done = set_back(anew.ledger, found.mendable)
        assert done.title == "Set back as the history has it: 3 entries"
        assert sentences(folder) == []
        with pytest.raises(InputError, match="stands so now"):
            set_back(anew.ledger, found.mendable)
        anew.history.undo()
        pot = anew.day.detail(bench.dry, anew.clock.today()).draft.pot_volume_l
        assert pot == 3.2
        assert len(sentences(folder)) == 2


def test_a_damaged_history_is_told_and_its_word_not_taken(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    spoil(
        folder,
        "UPDATE change SET after = replace(after, '1.2', '7.2')"
        " WHERE table_name = 'plant' AND row_id = ?",
        bench.dry,
    )
    (told,) = look_through(folder).damage
    assert told.sort is Sort.HISTORY
    assert told.mend is None
    assert "“Plant A3 added” is not as it was written" in told.sentence


def test_a_step_gone_from_the_history_and_one_out_of_order_are_told(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    collection.plants.remove([bench.unseen])
    spoil(folder, "UPDATE action SET undone = 1 WHERE id = 4")
    assert any("is marked as undone" in line for line in sentences(folder))
    spoil(folder, "UPDATE action SET undone = 0 WHERE id = 4")
    spoil(folder, "DELETE FROM change WHERE action_id = 5")
    spoil(folder, "DELETE FROM action WHERE id = 5")
    assert "1 step of the history is not there any more." in sentences(folder)


def test_text_that_is_none_is_told_and_stops_nothing(
    collection: Collection, bench: Bench
) -> None:
    folder = collection.folder
    spoil(folder, "UPDATE plant SET note = CAST(x'41ff42' AS TEXT) WHERE tag = 'A3'")
    (told,) = look_through(folder).damage
    assert told.sentence.startswith("Plant A3, note: ")
    with opened_anew(collection) as anew:
        set_back(anew.ledger, [told])
        assert sentences(folder) == []
        assert not anew.day.detail(bench.dry, anew.clock.today()).draft.note


@pytest.mark.usefixtures("bench")
def test_the_check_is_stopped_where_asked(collection: Collection) -> None:
    asked = []

    def stop(done: int, of: int) -> None:
        asked.append((done, of))
        if len(asked) > 2:
            raise StoppedError("Stopped.")

    with pytest.raises(StoppedError):
        look_through(collection.folder, stop)


@pytest.mark.usefixtures("bench")
def test_a_quick_look_asks_nothing_of_rows(collection: Collection) -> None:
    spoil(collection.folder, "UPDATE plant SET pot_volume_l = 3.2")
    assert look_through(collection.folder, quick=True).damage == ()
    assert look_through(collection.folder).damage
