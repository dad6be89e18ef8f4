"""The corrections of a collection as rows: two statements, however many plants.

A row is kept whatever the shipped table says of it later; what cannot be judged by is
left out here and named in ``Kinds.problems``.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.kind_corrections import corrected_table
from growdesk.services import kinds
from growdesk.store.schema import KindCorrectionRow, PlantCorrectionRow

if TYPE_CHECKING:
    from growdesk.domain.facts_kinds import KindFields
    from growdesk.domain.kind_corrections import Unused
    from growdesk.domain.kinds import KindTable
    from growdesk.store.session import Session


def by_kind(session: Session) -> dict[str, dict[str, str]]:
    """Give the corrected cells of kinds, by key and field."""
    rows = session.execute(
        select(
            KindCorrectionRow.kind, KindCorrectionRow.field, KindCorrectionRow.value
        ).order_by(KindCorrectionRow.kind, KindCorrectionRow.field)
    )
    found: dict[str, dict[str, str]] = {}
    for kind, field, value in rows:
        found.setdefault(kind, {})[field] = value
    return found


def of_plants(session: Session) -> dict[int, KindFields]:
    """Give the corrected cells of plants, by the plant's number."""
    rows = session.execute(
        select(
            PlantCorrectionRow.plant_id,
            PlantCorrectionRow.field,
            PlantCorrectionRow.value,
        ).order_by(PlantCorrectionRow.plant_id, PlantCorrectionRow.field)
    )
    found: dict[int, KindFields] = {}
    for plant_id, field, value in rows:
        found[plant_id] = (*found.get(plant_id, ()), (field, value))
    return found


def table_of(session: Session) -> KindTable:
    """Give the shipped kinds as the collection corrects them."""
    return table_and_unused(session)[0]


def table_and_unused(session: Session) -> tuple[KindTable, tuple[Unused, ...]]:
    """Give the corrected kinds, and the corrections that no longer fit them."""
    found = by_kind(session)
    return corrected_table(kinds.table(), found) if found else (kinds.table(), ())
