"""What is on the shelf: tins and waters, tools and vessels, and which are in use."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from msgspec import Struct, field
from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.product import Product
from growdesk.domain.recipe import single
from growdesk.domain.recipe_uses import RecipeUse, recipe_for
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.domain.water_analysis import WaterAnalysis
from growdesk.services.recipe_rows import read_recipes
from growdesk.services.stock_record import Record, read_record
from growdesk.services.values import TinDraft, TinView
from growdesk.services.water_rows import water_analysis, waters
from growdesk.store.mapping import word
from growdesk.store.schema import SpoonWeightRow, TinRow, ToolRow, VesselRow

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date

    from growdesk.domain.facts import House, Plant
    from growdesk.domain.recipe import Recipe
    from growdesk.services.values import WaterDraft, WaterView
    from growdesk.store.session import Session

_TIN = TinDraft.__struct_fields__


class Shelf(Struct, frozen=True):
    """What a plan is made with: tin and water in use, and all that stands there.

    ``tin_id`` and ``water_id`` are the numbers of those in use, ``recipe`` is the
    recipe in use, ``record`` what was counted and taken. ``on`` is the day of the round
    that bottles are to serve.
    """

    tin: TinDraft | None = None
    water: WaterDraft | None = None
    tin_id: int | None = None
    water_id: int | None = None
    tins: tuple[TinView, ...] = ()
    waters: tuple[WaterView, ...] = ()
    tools: tuple[Tool, ...] = ()
    vessels: tuple[Vessel, ...] = ()
    recipes: tuple[Recipe, ...] = ()
    recipe: Recipe | None = None
    uses: tuple[RecipeUse, ...] = ()
    record: Record = field(default_factory=Record)
    on: date | None = None

    def recipe_for(self, plant: Plant, on: date, house: House) -> Recipe | None:
        """Give what a plant is fed by on a day: its recipe, else the tin in use alone.

        None where nothing is in use; ``InputError`` where the tin cannot be read.
        """
        found = recipe_for(plant, on, self.uses, self.recipe, house.latitude)
        if found is not None or self.tin is None:
            return found
        return single(product_of(self.tin, self.tin_id))

    def recipe_by(self, key: int | None) -> Recipe | None:
        """Give a recipe by its number, else the one in use, if there is one."""
        return next((each for each in self.recipes if each.key == key), self.recipe)

    def water_view(self, water_id: int | None) -> WaterView | None:
        """Give a water by its number; None where it is not on the shelf."""
        return next((each for each in self.waters if each.water_id == water_id), None)

    def water_for(self, recipe: Recipe) -> WaterAnalysis:
        """Give the water a recipe is mixed with: its own, else the one in use."""
        own = self.water_view(recipe.water_key)
        if own is not None:
            return water_analysis(own.draft, own.water_id)
        return self.water_analysis()

    def water_analysis(self) -> WaterAnalysis:
        """Give what is known of the water in use; nothing where none is set."""
        if self.water is None:
            return WaterAnalysis(kind="")
        return water_analysis(self.water, self.water_id)


def tins(session: Session) -> tuple[TinView, ...]:
    """Give all tins, the one in use first."""
    rows = session.execute(
        select(TinRow.__table__)
        .where(TinRow.gone_on.is_(None))
        .order_by(TinRow.in_use.desc(), TinRow.id),
    )
    return tuple(
        TinView(row.id, TinDraft(**{name: getattr(row, name) for name in _TIN}))
        for row in rows
    )


def tools(session: Session) -> tuple[Tool, ...]:
    """Give the scales, spoons, syringes and cylinders."""
    weighed: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for row in session.execute(
        select(SpoonWeightRow.__table__).order_by(SpoonWeightRow.id)
    ):
        weighed[row.tool_id].append((row.tin_id, row.g_per_level))
    return tuple(
        Tool(
            kind=word(ToolKind, row.kind),
            name=row.name,
            step=row.step,
            most=row.most,
            g_per_level=tuple(weighed[row.id]),
            key=row.id,
        )
        for row in session.execute(select(ToolRow.__table__).order_by(ToolRow.id))
    )


def vessels(session: Session) -> tuple[Vessel, ...]:
    """Give the jugs, cans, bottles and mugs."""
    return tuple(
        Vessel(
            kind=word(VesselKind, row.kind),
            name=row.name,
            volume_l=row.volume_l,
            how_many=row.how_many,
            step_ml=row.step_ml,
            key=row.id,
        )
        for row in session.execute(select(VesselRow.__table__).order_by(VesselRow.id))
    )


def read_waters(session: Session) -> Shelf:
    """Give the waters alone, for what judges plants and mixes nothing."""
    found = waters(session)
    used = next((view for view in found if view.draft.in_use), None)
    return Shelf(
        water=None if used is None else used.draft,
        water_id=None if used is None else used.water_id,
        waters=found,
    )


def read_shelf(session: Session) -> Shelf:
    """Give all that a plan is made with."""
    return replace(read_unrecorded(session), record=read_record(session))


def read_unrecorded(session: Session) -> Shelf:
    """Give all that a litre is mixed from, without what was counted and taken.

    What is looked at with each key typed must not sum up years of rounds.
    """
    found = tins(session)
    used = next((view for view in found if view.draft.in_use), None)
    kept = read_recipes(session)
    return replace(
        read_waters(session),
        tin=None if used is None else used.draft,
        tin_id=None if used is None else used.tin_id,
        tins=found,
        tools=tools(session),
        vessels=vessels(session),
        recipes=kept.recipes,
        recipe=kept.in_use,
        uses=kept.uses,
    )


def product_of(tin: TinDraft, tin_id: int | None) -> Product:
    """Give a tin as a recipe takes it; ``InputError`` where its analysis is none."""
    return Product(
        name=tin.name,
        analysis=parse_analysis(tin.analysis, tin.density_g_per_ml),
        formula=tin.formula,
        ec_per_100_ppm_n_ms_per_cm=tin.ec_per_100_ppm_n_ms_per_cm,
        key=tin_id,
    )


def products_of(drafts: Mapping[int, TinDraft]) -> dict[int, Product]:
    """Give tins as products; one whose analysis cannot be read is left out."""
    found: dict[int, Product] = {}
    for tin_id, draft in drafts.items():
        try:
            found[tin_id] = product_of(draft, tin_id)
        except InputError:
            continue
    return found


def house_with_water(house: House, shelf: Shelf) -> House:
    """Give the house rules with the EC of the water in use, where it is known."""
    if shelf.water is None or shelf.water.ec_ms_per_cm is None:
        return house
    return replace(house, water_ec_ms_per_cm=shelf.water.ec_ms_per_cm)
