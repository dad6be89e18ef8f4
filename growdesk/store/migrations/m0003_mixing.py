"""Schema 3: mixing in depth: recipes, waters in full, measures, stocks, the shelf."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import sqlite3

STATEMENTS = (
    "ALTER TABLE tin ADD COLUMN formula TEXT",
    "ALTER TABLE tin ADD COLUMN ec_per_100_ppm_n_ms_per_cm FLOAT",
    "ALTER TABLE tin ADD COLUMN price FLOAT",
    "ALTER TABLE tin ADD COLUMN pack_amount FLOAT",
    "ALTER TABLE tin ADD COLUMN gone_on DATE",
    "ALTER TABLE water ADD COLUMN name TEXT",
    "ALTER TABLE water ADD COLUMN alkalinity_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN hardness_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN ca_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN mg_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN k_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN na_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN cl_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN so4_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN no3_mg_per_l FLOAT",
    "ALTER TABLE water ADD COLUMN capacity_l FLOAT",
    "ALTER TABLE water ADD COLUMN first_id INTEGER REFERENCES water (id)",
    "ALTER TABLE water ADD COLUMN second_id INTEGER REFERENCES water (id)",
    "ALTER TABLE water ADD COLUMN first_share FLOAT",
    "ALTER TABLE water ADD COLUMN aim TEXT",
    "ALTER TABLE water ADD COLUMN aim_value FLOAT",
    "ALTER TABLE water ADD COLUMN gone_on DATE",
    """
    CREATE TABLE recipe (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        in_use BOOLEAN NOT NULL,
        water_id INTEGER,
        wanted_n FLOAT,
        wanted_p FLOAT,
        wanted_k FLOAT,
        wanted_ca FLOAT,
        wanted_mg FLOAT,
        note TEXT NOT NULL,
        gone_on DATE,
        CONSTRAINT pk_recipe PRIMARY KEY (id),
        CONSTRAINT fk_recipe_water_id FOREIGN KEY(water_id) REFERENCES water (id)
    )
    """,
    """
    CREATE TABLE recipe_part (
        id INTEGER NOT NULL,
        recipe_id INTEGER NOT NULL,
        tin_id INTEGER NOT NULL,
        share FLOAT,
        CONSTRAINT pk_recipe_part PRIMARY KEY (id),
        CONSTRAINT uq_recipe_part_recipe_id_tin_id UNIQUE (recipe_id, tin_id),
        CONSTRAINT fk_recipe_part_recipe_id FOREIGN KEY(recipe_id)
            REFERENCES recipe (id),
        CONSTRAINT fk_recipe_part_tin_id FOREIGN KEY(tin_id) REFERENCES tin (id)
    )
    """,
    """
    CREATE TABLE recipe_use (
        id INTEGER NOT NULL,
        recipe_id INTEGER NOT NULL,
        plant_id INTEGER,
        place_id INTEGER,
        from_day TEXT,
        until_day TEXT,
        CONSTRAINT pk_recipe_use PRIMARY KEY (id),
        CONSTRAINT fk_recipe_use_recipe_id FOREIGN KEY(recipe_id)
            REFERENCES recipe (id),
        CONSTRAINT fk_recipe_use_plant_id FOREIGN KEY(plant_id) REFERENCES plant (id),
        CONSTRAINT fk_recipe_use_place_id FOREIGN KEY(place_id) REFERENCES place (id)
    )
    """,
    "CREATE INDEX ix_recipe_use_recipe_id ON recipe_use (recipe_id)",
    """
    CREATE TABLE tool (
        id INTEGER NOT NULL,
        kind TEXT NOT NULL,
        name TEXT NOT NULL,
        step FLOAT NOT NULL,
        most FLOAT,
        CONSTRAINT pk_tool PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE spoon_weight (
        id INTEGER NOT NULL,
        tool_id INTEGER NOT NULL,
        tin_id INTEGER NOT NULL,
        g_per_level FLOAT NOT NULL,
        CONSTRAINT pk_spoon_weight PRIMARY KEY (id),
        CONSTRAINT uq_spoon_weight_tool_id_tin_id UNIQUE (tool_id, tin_id),
        CONSTRAINT fk_spoon_weight_tool_id FOREIGN KEY(tool_id) REFERENCES tool (id),
        CONSTRAINT fk_spoon_weight_tin_id FOREIGN KEY(tin_id) REFERENCES tin (id)
    )
    """,
    """
    CREATE TABLE vessel (
        id INTEGER NOT NULL,
        kind TEXT NOT NULL,
        name TEXT NOT NULL,
        volume_l FLOAT NOT NULL,
        how_many INTEGER NOT NULL,
        step_ml FLOAT,
        CONSTRAINT pk_vessel PRIMARY KEY (id)
    )
    """,
    """
    CREATE TABLE stock (
        id INTEGER NOT NULL,
        name TEXT NOT NULL,
        made_on DATE NOT NULL,
        keep_by DATE,
        volume_l FLOAT NOT NULL,
        water_id INTEGER,
        note TEXT NOT NULL,
        gone_on DATE,
        CONSTRAINT pk_stock PRIMARY KEY (id),
        CONSTRAINT fk_stock_water_id FOREIGN KEY(water_id) REFERENCES water (id)
    )
    """,
    """
    CREATE TABLE stock_part (
        id INTEGER NOT NULL,
        stock_id INTEGER NOT NULL,
        tin_id INTEGER NOT NULL,
        mass_g FLOAT NOT NULL,
        CONSTRAINT pk_stock_part PRIMARY KEY (id),
        CONSTRAINT uq_stock_part_stock_id_tin_id UNIQUE (stock_id, tin_id),
        CONSTRAINT fk_stock_part_stock_id FOREIGN KEY(stock_id) REFERENCES stock (id),
        CONSTRAINT fk_stock_part_tin_id FOREIGN KEY(tin_id) REFERENCES tin (id)
    )
    """,
    """
    CREATE TABLE drawn (
        id INTEGER NOT NULL,
        care_id INTEGER NOT NULL,
        tin_id INTEGER,
        stock_id INTEGER,
        water_id INTEGER,
        amount FLOAT NOT NULL,
        CONSTRAINT pk_drawn PRIMARY KEY (id),
        CONSTRAINT fk_drawn_care_id FOREIGN KEY(care_id) REFERENCES care (id),
        CONSTRAINT fk_drawn_tin_id FOREIGN KEY(tin_id) REFERENCES tin (id),
        CONSTRAINT fk_drawn_stock_id FOREIGN KEY(stock_id) REFERENCES stock (id),
        CONSTRAINT fk_drawn_water_id FOREIGN KEY(water_id) REFERENCES water (id)
    )
    """,
    "CREATE INDEX ix_care_day ON care (day)",
    "CREATE INDEX ix_drawn_care_id ON drawn (care_id)",
    """
    CREATE TABLE shelf_entry (
        id INTEGER NOT NULL,
        tin_id INTEGER,
        stock_id INTEGER,
        water_id INTEGER,
        day DATE NOT NULL,
        what TEXT NOT NULL,
        amount FLOAT NOT NULL,
        after_round BOOLEAN NOT NULL,
        price FLOAT,
        note TEXT NOT NULL,
        CONSTRAINT pk_shelf_entry PRIMARY KEY (id),
        CONSTRAINT fk_shelf_entry_tin_id FOREIGN KEY(tin_id) REFERENCES tin (id),
        CONSTRAINT fk_shelf_entry_stock_id FOREIGN KEY(stock_id) REFERENCES stock (id),
        CONSTRAINT fk_shelf_entry_water_id FOREIGN KEY(water_id) REFERENCES water (id)
    )
    """,
    "CREATE INDEX ix_shelf_entry_day ON shelf_entry (day)",
    """
    CREATE TABLE meter (
        id INTEGER NOT NULL,
        day DATE NOT NULL,
        letter TEXT NOT NULL,
        strength_ppm_n INTEGER NOT NULL,
        recipe_id INTEGER,
        expected_low_ms_per_cm FLOAT,
        expected_high_ms_per_cm FLOAT,
        read_ms_per_cm FLOAT NOT NULL,
        temperature_c FLOAT,
        ec_ms_per_cm FLOAT NOT NULL,
        note TEXT NOT NULL,
        CONSTRAINT pk_meter PRIMARY KEY (id),
        CONSTRAINT fk_meter_recipe_id FOREIGN KEY(recipe_id) REFERENCES recipe (id)
    )
    """,
    "CREATE INDEX ix_meter_day ON meter (day)",
)


def mixing_in_depth(connection: sqlite3.Connection) -> None:
    """Add what recipes, measures and the shelf are kept in."""
    for statement in STATEMENTS:
        connection.execute(statement)
