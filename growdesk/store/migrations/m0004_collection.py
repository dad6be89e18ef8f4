"""Schema 4: the collection: benches, what left, descent, blooms in full, jobs."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    "ALTER TABLE place ADD COLUMN position INTEGER",
    """
    CREATE TABLE bench (
        id INTEGER NOT NULL,
        place_id INTEGER NOT NULL,
        name TEXT NOT NULL,
        position INTEGER NOT NULL,
        at_glass BOOLEAN NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_bench PRIMARY KEY (id),
        CONSTRAINT uq_bench_place_id_name UNIQUE (place_id, name),
        CONSTRAINT fk_bench_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
    "ALTER TABLE plant ADD COLUMN status TEXT NOT NULL DEFAULT 'growing'",
    "ALTER TABLE plant ADD COLUMN left_on DATE",
    "ALTER TABLE plant ADD COLUMN left_why TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE plant ADD COLUMN bench_id INTEGER REFERENCES bench (id)",
    "ALTER TABLE plant ADD COLUMN parent_id INTEGER REFERENCES plant (id)",
    "ALTER TABLE plant ADD COLUMN parent_how TEXT",
    "ALTER TABLE plant ADD COLUMN parentage TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE plant ADD COLUMN papers TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE plant ADD COLUMN held_as TEXT",
    "ALTER TABLE plant ADD COLUMN how_many INTEGER",
    "ALTER TABLE plant ADD COLUMN quarantine_until DATE",
    "ALTER TABLE look ADD COLUMN keikis INTEGER",
    "ALTER TABLE look ADD COLUMN keiki_root_mm FLOAT",
    "ALTER TABLE look ADD COLUMN pods INTEGER",
    "ALTER TABLE look ADD COLUMN spike_mm FLOAT",
    "ALTER TABLE care ADD COLUMN product TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE care ADD COLUMN repeat_on DATE",
    "ALTER TABLE care ADD COLUMN rain_mm FLOAT",
    "ALTER TABLE care ADD COLUMN medium TEXT",
    "ALTER TABLE care ADD COLUMN pot_volume_l FLOAT",
    "ALTER TABLE care ADD COLUMN from_place TEXT",
    "ALTER TABLE care ADD COLUMN to_place TEXT",
    "ALTER TABLE photo ADD COLUMN note TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE photo ADD COLUMN has_location BOOLEAN",
    "ALTER TABLE bloom ADD COLUMN spikes INTEGER",
    "ALTER TABLE bloom ADD COLUMN size_mm FLOAT",
    "ALTER TABLE bloom ADD COLUMN award TEXT NOT NULL DEFAULT ''",
    """
    CREATE TABLE saved_view (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        what TEXT NOT NULL,
        CONSTRAINT pk_saved_view PRIMARY KEY (id),
        CONSTRAINT uq_saved_view_name UNIQUE (name)
    )
    """,
    """
    CREATE TABLE job_done (
        id INTEGER NOT NULL,
        plant_id INTEGER,
        place_id INTEGER,
        job TEXT NOT NULL,
        due_on DATE NOT NULL,
        what TEXT NOT NULL,
        done_on DATE NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_job_done PRIMARY KEY (id),
        CONSTRAINT fk_job_done_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id),
        CONSTRAINT fk_job_done_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
    "CREATE INDEX ix_job_done_due_on ON job_done (due_on)",
    """
    CREATE TABLE forecast (
        id INTEGER NOT NULL,
        place_id INTEGER NOT NULL,
        day DATE NOT NULL,
        low_c FLOAT,
        high_c FLOAT,
        CONSTRAINT pk_forecast PRIMARY KEY (id),
        CONSTRAINT uq_forecast_place_id_day UNIQUE (place_id, day),
        CONSTRAINT fk_forecast_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
)


def collection_in_full(connection: sqlite3.Connection) -> None:
    """Add what schema 4 keeps; nothing that was there changes."""
    for statement in STATEMENTS:
        connection.execute(statement)
