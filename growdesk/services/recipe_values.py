"""What recipe forms hand in and get back: frozen values, no store."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.recipe import Wanted
    from growdesk.domain.seasons import MonthDay
    from growdesk.services.values import TinView, WaterView


class PartDraft(Struct, frozen=True):
    """A tin of a recipe; ``share`` by mass to any scale, None where it is solved."""

    tin_id: int
    share: float | None = None


class UseDraft(Struct, frozen=True):
    """Where a recipe holds: a plant, a place, a season for the north, or together."""

    plant_id: int | None = None
    place_id: int | None = None
    season: tuple[MonthDay, MonthDay] | None = None


class RecipeDraft(Struct, frozen=True):
    """A recipe as a form holds it; with ``wanted`` its shares are solved for.

    ``water_id`` is the water it is mixed with; None for the one in use.
    """

    name: str
    parts: tuple[PartDraft, ...] = ()
    wanted: Wanted | None = None
    water_id: int | None = None
    in_use: bool = False
    note: str = ""
    uses: tuple[UseDraft, ...] = ()


class RecipeView(Struct, frozen=True):
    """A recipe with its number, and the tins it needs that are off the shelf."""

    recipe_id: int
    draft: RecipeDraft
    lacking: tuple[str, ...] = ()


class RecipeBoard(Struct, frozen=True):
    """All recipes, and what one can be made of and said to hold for.

    ``plants`` and ``places`` are numbers with tag or name, in order.
    """

    recipes: tuple[RecipeView, ...]
    tins: tuple[TinView, ...]
    waters: tuple[WaterView, ...]
    plants: tuple[tuple[int, str], ...]
    places: tuple[tuple[int, str], ...]


class ElementRow(Struct, frozen=True):
    """One element of a litre of feed, in mg/L; ``wanted`` is None where none is."""

    element: str
    wanted_mg_per_l: float | None
    got_mg_per_l: float
    from_water_mg_per_l: float

    @property
    def off_mg_per_l(self) -> float | None:
        """Give how far it is off what is wanted, above nothing where too much."""
        wanted = self.wanted_mg_per_l
        return None if wanted is None else self.got_mg_per_l - wanted


class RecipeLook(Struct, frozen=True):
    """What a litre of a recipe is made of and then holds.

    ``doses`` are name and g/L; ``forms`` are form and mg/L of nitrogen. ``notes`` are
    whole sentences, ``advice`` one on its ammonium and urea.
    """

    strength_ppm_n: float
    water: str
    doses: tuple[tuple[str, float], ...]
    rows: tuple[ElementRow, ...]
    forms: tuple[tuple[str, float], ...]
    notes: tuple[str, ...]
    advice: str = ""


class MixChart(Struct, frozen=True):
    """A litre of a recipe as a chart draws it, on the day it was looked at."""

    on: date
    name: str
    look: RecipeLook
