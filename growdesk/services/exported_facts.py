"""The facts file of an export: what ``growdesk decide --facts`` judges by."""

from __future__ import annotations

import json
from types import SimpleNamespace
from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain.facts import Place
from growdesk.domain.facts_writing import facts_json
from growdesk.domain.holding import Status
from growdesk.domain.kind_corrections import in_use
from growdesk.services import kind_rows, kinds
from growdesk.services.settings import read_house
from growdesk.store.mapping import care_of, look_of, place_of, plant_of, reading_of

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.domain.facts import Look, Plant
    from growdesk.domain.kinds import KindTable
    from growdesk.services.collection_book import Book
    from growdesk.services.table_forms import Row
    from growdesk.store.session import Session


def facts_of(session: Session, book: Book) -> bytes:
    """Give the facts of all plants that grow here, as the content of a file."""
    table = kind_rows.table_of(session)
    facts = facts_json(
        read_house(session),
        tuple(_with_kind_fields(each, table) for each in _plants(book)),
        {k.key: in_use(k) for k in table.kinds.values() if k.corrected},
    )
    return _told(facts).encode()


def _told(facts: dict[str, object]) -> str:
    """Write the house with a line for each of its rules, then a line for each plant."""
    plants: Any = facts.pop("plants")
    head = json.dumps(facts, ensure_ascii=False, indent=1).removesuffix("\n}")
    lines = ",\n".join(json.dumps(each, ensure_ascii=False) for each in plants)
    return f'{head},\n "plants": [\n{lines}\n]\n}}\n'


def _plants(book: Book) -> Iterable[Plant]:
    readings = _by(book.rows["reading"], "place_id")
    places = {
        row["id"]: place_of(
            SimpleNamespace(**row), [reading_of(r) for r in readings.get(row["id"], ())]
        )
        for row in book.rows["place"]
    }
    looks, care = _by(book.rows["look"], "plant_id"), _by(book.rows["care"], "plant_id")
    own = _by(book.rows["plant_correction"], "plant_id")
    for row in book.rows["plant"]:
        if row["status"] != Status.GROWING:
            continue
        plant = plant_of(
            SimpleNamespace(**row),
            places.get(row["place_id"], Place()),
            _one_a_day([look_of(each) for each in looks.get(row["id"], ())]),
            [care_of(each) for each in care.get(row["id"], ())],
        )
        fields = tuple((each.field, each.value) for each in own.get(row["id"], ()))
        yield replace(plant, kind_fields=fields)


def _with_kind_fields(plant: Plant, table: KindTable) -> Plant:
    """Give a plant with those of its corrections that it is judged by."""
    kind, _known = kinds.kind_of(plant, table)
    return replace(plant, kind_fields=tuple(in_use(kind, here=True).items()))


def _one_a_day(looks: list[Look]) -> list[Look]:
    """Give one look for each day: the last one, which is what the judging goes by.

    A facts file takes no two; health that only an earlier one recorded goes along.
    """
    found: dict[date, Look] = {}
    for look in looks:
        before = found.get(look.on)
        if before is not None and look.health is None:
            look = replace(look, health=before.health)  # noqa: PLW2901 -- the same look
        found[look.on] = look
    return list(found.values())


def _by(rows: list[Row], owner: str) -> dict[int, list[Any]]:
    found: dict[int, list[Any]] = {}
    for row in rows:
        found.setdefault(row[owner], []).append(SimpleNamespace(**row))
    return found
