"""What is on the shelf: the tins and waters of a collection, and which are in use."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from sqlalchemy import select

from growdesk.services.values import TinDraft, TinView, WaterDraft, WaterView
from growdesk.store.schema import TinRow, WaterRow

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from growdesk.domain.facts import House


@dataclass(frozen=True, slots=True)
class Shelf:
    """The tin and the water that a plan is made with; none where none is set."""

    tin: TinDraft | None = None
    water: WaterDraft | None = None


def tins(session: Session) -> tuple[TinView, ...]:
    """Give all tins, the one in use first."""
    rows = session.execute(
        select(TinRow.__table__).order_by(TinRow.in_use.desc(), TinRow.id)
    )
    return tuple(TinView(row.id, _tin(row)) for row in rows)


def waters(session: Session) -> tuple[WaterView, ...]:
    """Give all waters, the one in use first."""
    rows = session.execute(
        select(WaterRow.__table__).order_by(WaterRow.in_use.desc(), WaterRow.id)
    )
    return tuple(WaterView(row.id, _water(row)) for row in rows)


def read_shelf(session: Session) -> Shelf:
    """Give the tin and the water in use."""
    tin = next((view.draft for view in tins(session) if view.draft.in_use), None)
    water = next((view.draft for view in waters(session) if view.draft.in_use), None)
    return Shelf(tin, water)


def _tin(row: Any) -> TinDraft:
    return TinDraft(
        name=row.name,
        analysis=row.analysis,
        density_g_per_ml=row.density_g_per_ml,
        in_use=row.in_use,
        note=row.note,
    )


def _water(row: Any) -> WaterDraft:
    return WaterDraft(
        kind=row.kind,
        ec_ms_per_cm=row.ec_ms_per_cm,
        in_use=row.in_use,
        note=row.note,
    )


def house_with_water(house: House, shelf: Shelf) -> House:
    """Give the house rules with the EC of the water in use, where it is known."""
    if shelf.water is None or shelf.water.ec_ms_per_cm is None:
        return house
    return replace(house, water_ec_ms_per_cm=shelf.water.ec_ms_per_cm)
