"""What a server that knows its tables makes of the greatest of our queries."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import TYPE_CHECKING

from growdesk.services.known import _statements
from growdesk.services.values import PlantDraft
from growdesk.store.schema import LookRow

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.collection import Collection
    from tests.server_store import Databases

PLANTS, LOOKS = 80, 80
EXPLAIN = "EXPLAIN (ANALYZE, COSTS OFF, TIMING OFF, SUMMARY OFF) "


def test_the_newest_look_is_sought_once_a_plant_and_not_once_a_look(
    on_server: Collection, address: str, databases: Databases, today: date
) -> None:
    with on_server.ledger.together("A bench"):
        ids = [
            on_server.plants.add(PlantDraft(f"A{number}", "", "")).ids[0]
            for number in range(PLANTS)
        ]
    with on_server.ledger.writing("Looks") as writing:
        days = [today - timedelta(days=20 * back) for back in range(LOOKS)]
        writing.insert_many(
            LookRow, [{"plant_id": each, "day": day} for day in days for each in ids]
        )
    with databases.alone(address.rpartition("/")[2]) as execute:
        execute("VACUUM ANALYZE")
    looks = _statements("all")[1]
    with on_server.ledger.reading() as session:
        connection = session.connection()
        asked = looks.compile(connection)  # type: ignore[attr-defined]
        values = {"on": today, "since": today - timedelta(days=731)}
        found = connection.exec_driver_sql(
            EXPLAIN + str(asked), {**asked.params, **values}
        )
        plan = "\n".join(found.scalars())
    loops = [int(each) for each in re.findall(r"look older.*loops=(\d+)", plan)]
    assert loops
    assert max(loops) <= PLANTS, plan
