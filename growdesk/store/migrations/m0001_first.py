"""The first tables: plants, places, looks, care, photos, shelf, settings, history.

Written out as they were made, and never changed again: a later change of a table is a
later migration.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    """
    CREATE TABLE action (
        id INTEGER NOT NULL,
        at_s INTEGER NOT NULL,
        title TEXT NOT NULL,
        undone BOOLEAN NOT NULL,
        CONSTRAINT pk_action PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE migration (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        compatible_from INTEGER NOT NULL,
        at_s INTEGER NOT NULL,
        CONSTRAINT pk_migration PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE place (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        kind TEXT NOT NULL,
        controlled BOOLEAN NOT NULL,
        outdoors BOOLEAN NOT NULL,
        lamps_hours FLOAT,
        lamps_ppfd FLOAT,
        note TEXT NOT NULL,
        CONSTRAINT pk_place PRIMARY KEY (id),
        CONSTRAINT uq_place_name UNIQUE (name)
    )
    """,
    """
    CREATE TABLE setting (
        id INTEGER NOT NULL,
        "key" TEXT NOT NULL,
        value TEXT NOT NULL,
        CONSTRAINT pk_setting PRIMARY KEY (id),
        CONSTRAINT uq_setting_key UNIQUE ("key")
    )
    """,
    """
    CREATE TABLE tin (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        analysis TEXT NOT NULL,
        density_g_per_ml FLOAT,
        in_use BOOLEAN NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_tin PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE water (
        id INTEGER NOT NULL,
        kind TEXT NOT NULL,
        ec_ms_per_cm FLOAT,
        in_use BOOLEAN NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_water PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE change (
        id INTEGER NOT NULL,
        action_id INTEGER NOT NULL,
        table_name TEXT NOT NULL,
        row_id INTEGER NOT NULL,
        "before" TEXT,
        "after" TEXT,
        CONSTRAINT pk_change PRIMARY KEY (id),
        CONSTRAINT fk_change_action_id FOREIGN KEY(action_id) REFERENCES action (id)
    )
    """,
    """
    CREATE INDEX ix_change_action_id ON change (action_id)
    """,
    """
    CREATE TABLE plant (
        id INTEGER NOT NULL,
        tag TEXT NOT NULL,
        name TEXT NOT NULL,
        kind TEXT NOT NULL,
        place_id INTEGER,
        bench INTEGER,
        hybrid BOOLEAN NOT NULL,
        pot_volume_l FLOAT,
        volume_l FLOAT,
        medium TEXT,
        mounted BOOLEAN NOT NULL,
        size TEXT,
        under_cover BOOLEAN NOT NULL,
        repotted_on DATE,
        slow_release_until DATE,
        full_strength_ppm_n FLOAT,
        feed_ceiling_ppm_n FLOAT,
        feed_interval_days INTEGER,
        ignores_rest BOOLEAN NOT NULL,
        overrule_verdict TEXT,
        overrule_reason TEXT,
        overrule_until DATE,
        overrule_water TEXT,
        overrule_since DATE,
        acquired_on DATE,
        source TEXT NOT NULL,
        note TEXT NOT NULL,
        binned_on DATE,
        CONSTRAINT pk_plant PRIMARY KEY (id),
        CONSTRAINT fk_plant_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
    """
    CREATE INDEX ix_plant_place_id ON plant (place_id)
    """,
    """
    CREATE UNIQUE INDEX uq_plant_tag ON plant (tag) WHERE binned_on IS NULL
    """,
    """
    CREATE TABLE reading (
        id INTEGER NOT NULL,
        place_id INTEGER NOT NULL,
        day DATE NOT NULL,
        mean_c FLOAT,
        low_c FLOAT,
        high_c FLOAT,
        CONSTRAINT pk_reading PRIMARY KEY (id),
        CONSTRAINT uq_reading_place_id_day UNIQUE (place_id, day),
        CONSTRAINT fk_reading_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
    """
    CREATE TABLE bloom (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        spike_seen_on DATE,
        first_open_on DATE,
        last_faded_on DATE,
        flowers INTEGER,
        note TEXT NOT NULL,
        CONSTRAINT pk_bloom PRIMARY KEY (id),
        CONSTRAINT fk_bloom_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id)
    )
    """,
    """
    CREATE INDEX ix_bloom_plant_id ON bloom (plant_id)
    """,
    """
    CREATE TABLE care (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        day DATE NOT NULL,
        what TEXT NOT NULL,
        strength_ppm_n FLOAT,
        volume_l FLOAT,
        ec_ms_per_cm FLOAT,
        note TEXT NOT NULL,
        CONSTRAINT pk_care PRIMARY KEY (id),
        CONSTRAINT fk_care_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id)
    )
    """,
    """
    CREATE INDEX ix_care_plant_id_day ON care (plant_id, day)
    """,
    """
    CREATE TABLE look (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        day DATE NOT NULL,
        emerging INTEGER,
        extending INTEGER,
        maturing INTEGER,
        matured INTEGER,
        stalled INTEGER,
        root_tips TEXT,
        longest_new_root_mm FLOAT,
        lead_length_mm FLOAT,
        new_leaf TEXT,
        flowering TEXT,
        leaves TEXT,
        bulbs TEXT,
        pot TEXT,
        health TEXT,
        runoff_ec_ms_per_cm FLOAT,
        note TEXT NOT NULL,
        CONSTRAINT pk_look PRIMARY KEY (id),
        CONSTRAINT fk_look_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id)
    )
    """,
    """
    CREATE INDEX ix_look_plant_id_day ON look (plant_id, day)
    """,
    """
    CREATE TABLE pass_by (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        day DATE NOT NULL,
        CONSTRAINT pk_pass_by PRIMARY KEY (id),
        CONSTRAINT uq_pass_by_plant_id_day UNIQUE (plant_id, day),
        CONSTRAINT fk_pass_by_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id)
    )
    """,
    """
    CREATE TABLE photo (
        id INTEGER NOT NULL,
        plant_id INTEGER NOT NULL,
        look_id INTEGER,
        sha256 TEXT NOT NULL,
        ext TEXT NOT NULL,
        width INTEGER NOT NULL,
        height INTEGER NOT NULL,
        taken_on DATE,
        file_name TEXT NOT NULL,
        CONSTRAINT pk_photo PRIMARY KEY (id),
        CONSTRAINT uq_photo_plant_id_sha256 UNIQUE (plant_id, sha256),
        CONSTRAINT fk_photo_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id),
        CONSTRAINT fk_photo_look_id FOREIGN KEY(look_id) REFERENCES look (id)
    )
    """,
    """
    CREATE INDEX ix_photo_look_id ON photo (look_id)
    """,
)


def first_tables(connection: sqlite3.Connection) -> None:
    """Make all tables and indexes of schema 1."""
    for statement in STATEMENTS:
        connection.execute(statement)
