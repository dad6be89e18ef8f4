"""What the jugs can be mixed with: all tins, waters and recipes, in one reading."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services import shelf, water_rows
from growdesk.services.recipe_drafts import read_views

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.services.recipe_values import RecipeView
    from growdesk.services.values import TinView, WaterView


def mixed_with(
    ledger: Ledger,
) -> tuple[tuple[TinView, ...], tuple[WaterView, ...], tuple[RecipeView, ...]]:
    """Give tins, waters and recipes, of each the one in use first."""
    with ledger.reading() as session:
        return shelf.tins(session), water_rows.waters(session), read_views(session)
