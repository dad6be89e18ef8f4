"""Which recipe a plant is fed by on a day, of those the grower gave it.

The narrower word goes first: what was said of the plant, then of its place, then of the
season alone, then the recipe in use. What is mixed where there is none is not asked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import seasons

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from growdesk.domain.facts import Plant
    from growdesk.domain.recipe import Recipe
    from growdesk.domain.seasons import MonthDay


class RecipeUse(Struct, frozen=True):
    """Where a recipe holds: for a plant by tag, a place by name, a season, or together.

    ``season`` is its first and last day, written for the north; None is all year.
    """

    recipe: Recipe
    tag: str | None = None
    place: str | None = None
    season: tuple[MonthDay, MonthDay] | None = None
    key: int | None = None

    def holds(self, plant: Plant, on: date, latitude: float) -> bool:
        """Tell whether all that is named fits the plant and the day."""
        return (
            self.tag in (None, plant.tag)
            and self.place in (None, plant.place.name)
            and (self.season is None or _in_season(on, self.season, latitude))
        )

    def rank(self) -> tuple[bool, bool, bool, int]:
        """Give how narrow it is; among equals the one written last goes first."""
        named = (self.tag is not None, self.place is not None, self.season is not None)
        return (*named, self.key or 0)


def recipe_for(
    plant: Plant,
    on: date,
    uses: Iterable[RecipeUse],
    in_use: Recipe | None,
    latitude: float,
) -> Recipe | None:
    """Give the recipe of a plant on a day; None where nothing says one."""
    holding = [use for use in uses if use.holds(plant, on, latitude)]
    return max(holding, key=RecipeUse.rank).recipe if holding else in_use


def _in_season(on: date, season: tuple[MonthDay, MonthDay], latitude: float) -> bool:
    """Tell whether a day is in a season; the day after its last turns, not the last.

    So that two halves of a year leave no day out in the south either.
    """
    first, after = season[0], seasons.day_after(season[1])
    first, after = (seasons.turned(day, latitude) for day in (first, after))
    now = (on.month, on.day)
    if first < after:
        return first <= now < after
    return now >= first or now < after
