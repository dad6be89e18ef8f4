"""Recipes as a form shows them, read from the store with where each holds."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

from sqlalchemy import and_, or_, select

from growdesk.services.recipe_rows import month_day, wanted_of
from growdesk.services.recipe_values import (
    PartDraft,
    RecipeDraft,
    RecipeView,
    UseDraft,
)
from growdesk.store.schema import (
    PlantRow,
    RecipePartRow,
    RecipeRow,
    RecipeUseRow,
    TinRow,
)

if TYPE_CHECKING:
    from growdesk.store.session import Session


def read_views(session: Session) -> tuple[RecipeView, ...]:
    """Give all recipes, the one in use first, then by name."""
    rows = session.execute(
        select(RecipeRow.__table__)
        .where(RecipeRow.gone_on.is_(None))
        .order_by(RecipeRow.in_use.desc(), RecipeRow.name, RecipeRow.id)
    ).all()
    if not rows:
        return ()
    parts = _by_recipe(
        session,
        select(
            RecipePartRow.recipe_id,
            RecipePartRow.tin_id,
            RecipePartRow.share,
            TinRow.name,
            TinRow.gone_on,
        )
        .join(TinRow, TinRow.id == RecipePartRow.tin_id)
        .order_by(RecipePartRow.id),
    )
    live = and_(PlantRow.id == RecipeUseRow.plant_id, PlantRow.binned_on.is_(None))
    uses = _by_recipe(
        session,
        select(RecipeUseRow.__table__)
        .outerjoin(PlantRow, live)
        .where(or_(RecipeUseRow.plant_id.is_(None), PlantRow.id.is_not(None)))
        .order_by(RecipeUseRow.id),
    )
    return tuple(_view(row, parts[row.id], uses[row.id]) for row in rows)


def use_of(row: Any) -> UseDraft:
    """Give where a recipe holds, from its row."""
    season = None
    if row.from_day is not None:
        season = (month_day(row.from_day), month_day(row.until_day))
    return UseDraft(row.plant_id, row.place_id, season)


def _view(row: Any, parts: list[Any], uses: list[Any]) -> RecipeView:
    return RecipeView(
        recipe_id=row.id,
        draft=RecipeDraft(
            name=row.name,
            parts=tuple(PartDraft(part.tin_id, part.share) for part in parts),
            wanted=wanted_of(row),
            water_id=row.water_id,
            in_use=row.in_use,
            note=row.note,
            uses=tuple(map(use_of, uses)),
        ),
        lacking=tuple(part.name for part in parts if part.gone_on is not None),
    )


def _by_recipe(session: Session, wanted: Any) -> dict[int, list[Any]]:
    found: dict[int, list[Any]] = defaultdict(list)
    for row in session.execute(wanted):
        found[row.recipe_id].append(row)
    return found
