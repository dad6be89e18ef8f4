"""Schema 2: a place's light, a logger's readings, corrections of kinds, marks."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    "ALTER TABLE place ADD COLUMN facing TEXT",
    "ALTER TABLE place ADD COLUMN glass TEXT",
    "ALTER TABLE place ADD COLUMN shaded FLOAT",
    "ALTER TABLE reading ADD COLUMN light_mol_per_m2_d FLOAT",
    "ALTER TABLE reading ADD COLUMN humidity_percent FLOAT",
    """
    CREATE TABLE kind_correction (
        id INTEGER NOT NULL,
        kind TEXT NOT NULL,
        field TEXT NOT NULL,
        value TEXT NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_kind_correction PRIMARY KEY (id),
        CONSTRAINT uq_kind_correction_kind_field UNIQUE (kind, field)
    )
    """,
    """
    CREATE TABLE plant_correction (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        field TEXT NOT NULL,
        value TEXT NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_plant_correction PRIMARY KEY (id),
        CONSTRAINT uq_plant_correction_plant_id_field UNIQUE (plant_id, field),
        CONSTRAINT fk_plant_correction_plant_id FOREIGN KEY(plant_id)
            REFERENCES plant (id)
    )
    """,
    """
    CREATE TABLE mark (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        day DATE NOT NULL,
        verdict TEXT NOT NULL,
        rule TEXT NOT NULL,
        kind TEXT NOT NULL,
        better TEXT NOT NULL,
        marked_on DATE NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_mark PRIMARY KEY (id),
        CONSTRAINT uq_mark_plant_id_day UNIQUE (plant_id, day),
        CONSTRAINT fk_mark_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id)
    )
    """,
    """
    CREATE INDEX ix_mark_rule_kind ON mark (rule, kind)
    """,
)


def decision_in_depth(connection: sqlite3.Connection) -> None:
    """Add what schema 2 keeps; nothing that was there changes."""
    for statement in STATEMENTS:
        connection.execute(statement)
