"""Looks and care of many plants are the same values as those of one row."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from sqlalchemy import literal, select

from growdesk.domain.errors import DamagedError
from growdesk.domain.facts import Care, Look
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.store.many import (
    CARE_COLUMNS,
    LOOK_COLUMNS,
    READING_COLUMNS,
    cares_of,
    looks_of,
    readings_of,
)
from growdesk.store.mapping import STAGES, care_of, look_of, reading_of
from growdesk.store.schema import CareRow, LookRow
from tests.conftest import TODAY

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Collection]:
    folder: Path = tmp_path_factory.mktemp("many") / "c"
    lay_demo(folder, TODAY)
    opened = Collection.open(folder, FixedClock(TODAY))
    yield opened
    opened.close()


def test_columns_stand_in_the_order_of_the_facts() -> None:
    counts = ("plant_id", "on", *STAGES)
    look = list(Look.__struct_fields__)
    assert [c.name.replace("day", "on") for c in LOOK_COLUMNS] == [*counts, *look[2:]]
    care = list(Care.__struct_fields__)
    assert [c.name.replace("day", "on") for c in CARE_COLUMNS] == ["plant_id", *care]


def test_looks_and_care_are_those_of_the_single_rows(demo: Collection) -> None:
    with demo.ledger.reading() as session:
        looks = session.execute(select(*LOOK_COLUMNS).order_by(LookRow.id)).all()
        care = session.execute(select(*CARE_COLUMNS).order_by(CareRow.id)).all()
        read = session.execute(select(*READING_COLUMNS)).all()
    assert [each for of in readings_of(read).values() for each in of] == [
        reading_of(row) for row in sorted(read, key=lambda row: row.place_id)
    ]
    for rows, many, single in ((looks, looks_of, look_of), (care, cares_of, care_of)):
        made = many(rows)
        plants = {row.plant_id for row in rows}
        assert made == {
            plant: [single(row) for row in rows if row.plant_id == plant]
            for plant in plants
        }
        assert len(plants) > 30


def test_what_is_made_of_many_stays_as_it_is(demo: Collection) -> None:
    with demo.ledger.reading() as session:
        rows = session.execute(select(*LOOK_COLUMNS).limit(1)).all()
    ((look,),) = looks_of(rows).values()
    assert type(look) is Look
    assert hash(look) == hash(look_of(rows[0]))
    assert replace(look, pods=3).pods == 3
    with pytest.raises(AttributeError, match="immutable"):
        look.pods = 3  # type: ignore[misc]


@pytest.mark.parametrize("spoilt", ["pot", "health"])
def test_an_unknown_word_is_told_with_its_field(demo: Collection, spoilt: str) -> None:
    columns = [
        literal("soggy").label(spoilt) if each.name == spoilt else each
        for each in LOOK_COLUMNS
    ]
    with demo.ledger.reading() as session:
        rows = session.execute(select(*columns).select_from(LookRow).limit(1)).all()
    with pytest.raises(DamagedError, match=f"'soggy' in {spoilt} of the entry of"):
        looks_of(rows)
