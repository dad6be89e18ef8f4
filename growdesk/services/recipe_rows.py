"""Recipes and where they hold, as rows; one statement while there are none.

A tin that went off the shelf keeps its row, so that a recipe can name what it lacks.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, Any

from msgspec import Struct
from sqlalchemy import and_, select

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.product import Product
from growdesk.domain.recipe import Part, Recipe, Wanted
from growdesk.domain.recipe_uses import RecipeUse
from growdesk.domain.speech import tr
from growdesk.store.schema import (
    PlaceRow,
    PlantRow,
    RecipePartRow,
    RecipeRow,
    RecipeUseRow,
    TinRow,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.domain.seasons import MonthDay
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session


class Recipes(Struct, frozen=True):
    """All recipes of a collection, the one in use, and where each holds."""

    recipes: tuple[Recipe, ...] = ()
    in_use: Recipe | None = None
    uses: tuple[RecipeUse, ...] = ()


def read_recipes(session: Session) -> Recipes:
    """Give the recipes by name with where they hold."""
    rows = session.execute(
        select(RecipeRow.__table__)
        .where(RecipeRow.gone_on.is_(None))
        .order_by(RecipeRow.name, RecipeRow.id),
    ).all()
    if not rows:
        return Recipes()
    parts = _parts(session)
    found = {row.id: _recipe(row, parts[row.id]) for row in rows}
    used = next((found[row.id] for row in rows if row.in_use), None)
    return Recipes(tuple(found.values()), used, _uses(session, found))


def month_day(text: str) -> MonthDay:
    """Give the month and day of ``09-15``."""
    month, day = text.split("-")
    return int(month), int(day)


def _parts(session: Session) -> dict[int, list[Any]]:
    rows = session.execute(
        select(
            RecipePartRow.recipe_id,
            RecipePartRow.share,
            TinRow.id.label("tin_id"),
            TinRow.name,
            TinRow.analysis,
            TinRow.density_g_per_ml,
            TinRow.formula,
            TinRow.ec_per_100_ppm_n_ms_per_cm,
            TinRow.gone_on,
        )
        .join(TinRow, TinRow.id == RecipePartRow.tin_id)
        .order_by(RecipePartRow.recipe_id, RecipePartRow.id),
    )
    found: dict[int, list[Any]] = defaultdict(list)
    for row in rows:
        found[row.recipe_id].append(row)
    return found


def _recipe(row: Any, parts: list[Any]) -> Recipe:
    made = [(part, _product(part)) for part in parts]
    return Recipe(
        name=row.name,
        parts=tuple(
            Part(product, 1.0 if part.share is None else part.share)
            for part, product in made
            if product is not None
        ),
        wanted=wanted_of(row),
        key=row.id,
        lacking=tuple(
            part.name for part, product in made if part.gone_on or product is None
        ),
        water_key=row.water_id,
    )


def _product(part: Any) -> Product | None:
    """Give a part's product; None where its analysis cannot be read."""
    try:
        analysis = parse_analysis(part.analysis, part.density_g_per_ml)
    except InputError:
        return None
    return Product(
        name=part.name,
        analysis=analysis,
        formula=part.formula,
        ec_per_100_ppm_n_ms_per_cm=part.ec_per_100_ppm_n_ms_per_cm,
        key=part.tin_id,
    )


def wanted_of(row: Any) -> Wanted | None:
    """Give what a recipe's row wants; None where its shares are fixed."""
    if row.wanted_n is None:
        return None
    return Wanted(
        n=row.wanted_n,
        p=row.wanted_p,
        k=row.wanted_k,
        ca=row.wanted_ca,
        mg=row.wanted_mg,
    )


def _uses(session: Session, found: dict[int, Recipe]) -> tuple[RecipeUse, ...]:
    """Give where the recipes hold, without what is said of plants in the bin."""
    rows = session.execute(
        select(
            RecipeUseRow.id,
            RecipeUseRow.recipe_id,
            RecipeUseRow.plant_id,
            RecipeUseRow.from_day,
            RecipeUseRow.until_day,
            PlantRow.tag,
            PlaceRow.name,
        )
        .outerjoin(
            PlantRow,
            and_(PlantRow.id == RecipeUseRow.plant_id, PlantRow.binned_on.is_(None)),
        )
        .outerjoin(PlaceRow, PlaceRow.id == RecipeUseRow.place_id)
        .order_by(RecipeUseRow.id),
    )
    return tuple(
        RecipeUse(
            recipe=found[row.recipe_id],
            tag=row.tag,
            place=row.name,
            season=None
            if row.from_day is None
            else (month_day(row.from_day), month_day(row.until_day)),
            key=row.id,
        )
        for row in rows
        if row.recipe_id in found and (row.plant_id is None or row.tag is not None)
    )


def forget_place(writing: Writing, place_id: int) -> tuple[str, ...]:
    """Take away what was said of recipes at a place; give a line on each recipe."""
    rows = writing.session.execute(
        select(RecipeUseRow.id, RecipeRow.name)
        .join(RecipeRow, RecipeRow.id == RecipeUseRow.recipe_id)
        .where(RecipeUseRow.place_id == place_id)
        .order_by(RecipeUseRow.id)
    ).all()
    writing.delete_many(RecipeUseRow, [row.id for row in rows])
    return tuple(
        tr("The recipe {name} no longer holds there.").format(name=name)
        for name in _names(rows)
    )


def _names(rows: Iterable[Any]) -> list[str]:
    return list(dict.fromkeys(row.name for row in rows))


def recipes_with(session: Session, tin_id: int) -> tuple[str, ...]:
    """Give a line on each recipe that is not mixed without this tin."""
    rows = session.execute(
        select(RecipeRow.name)
        .join(RecipePartRow, RecipePartRow.recipe_id == RecipeRow.id)
        .where(RecipePartRow.tin_id == tin_id, RecipeRow.gone_on.is_(None))
        .order_by(RecipeRow.name),
    ).all()
    return tuple(
        tr("The recipe {name} needs it.").format(name=name) for name in _names(rows)
    )
