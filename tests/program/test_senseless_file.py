"""Commands over a file with a senseless value: one line of damage, with the way out."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import timedelta
from typing import TYPE_CHECKING

import pytest

from growdesk.app import BAD_INPUT, main
from growdesk.domain.facts import Look, RootTips
from growdesk.services.collection import Collection
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.clock import FixedClock

SPOILT = (
    ("plant", "pot_volume_l", "odd"),
    ("look", "day", "2026-13-45"),
    ("look", "root_tips", "purple"),
    ("setting", "value", "{"),
)


@pytest.mark.parametrize("spoilt", SPOILT)
def test_every_reading_command_ends_in_a_line(
    spoilt: tuple[str, str, str],
    folder: Path,
    clock: FixedClock,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    table, column, value = spoilt
    made = Collection.open(folder, clock, create=True)
    place = made.places.add(PlaceDraft("Sill")).ids[0]
    plant = made.plants.add(PlantDraft("A1", "", "cattleya", place, pot_volume_l=1.0))
    seen = clock.today() - timedelta(days=2)
    made.looks.record(plant.ids[0], Look(seen, root_tips=RootTips.RUNNING))
    made.settings.save_house(made.settings.house(), ("latitude",))
    made.close()
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        connection.execute("PRAGMA ignore_check_constraints = ON")
        connection.execute(f"UPDATE {table} SET {column} = ?", (value,))  # noqa: S608 -- of this test
        connection.commit()
    damaged = code = 0
    for command in (
        ("decide", "--on", "2026-05-20"),
        ("looks", "--on", "2026-05-20"),
        ("calendar", "--on", "2026-05-20"),
        ("sheet", "--week", "2026-05-20", "--pdf", str(tmp_path / "a.pdf")),
        ("export", str(tmp_path / "out")),
        ("check",),
    ):
        code = main([*command, "--collection", str(folder)])
        said = capsys.readouterr().err
        assert "fault of its own" not in said, command
        assert "Traceback" not in said
        if code == BAD_INPUT and command[0] != "check":
            assert "damaged" in said or value in said, (command, said)
            damaged += 1
    assert code == BAD_INPUT
    assert damaged
