"""The fewest jugs that serve every plant that is fed, and who gets which.

Each plant accepts a band around its strength and never more than its ceiling; a jug's
strength is a whole number of ppm N. The number of jugs is the least that serves all
(exact); among choices of that number the strengths deviate least, weighted by litres
(exact). With fewer jugs at hand than that, only the ceilings stay hard, the deviation
is the least for that number, and the plants outside their band are named.

A jug holds one recipe; the jugs at hand are shared out among the recipes so that all
plants together deviate least. Nothing is known here of what a recipe holds, of
verdicts, or of the order of mixing.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.jug_search import (
    Group,
    best_by_count,
    best_strengths,
    fewest_strengths,
)
from growdesk.domain.jug_shares import shared_out
from growdesk.domain.servings import Band
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from growdesk.domain.servings import Serving

_DUST: Final = 1e-9


class Batch(Struct, frozen=True):
    """One jug's worth: a letter, a whole strength, the litres and who gets it.

    ``ceiling_ppm_n`` is the lowest of its plants' ceilings.
    """

    letter: str
    strength_ppm_n: int
    volume_l: float
    tags: tuple[str, ...]
    recipe: int | None = None
    ceiling_ppm_n: float = math.inf


class BatchPlan(Struct, frozen=True):
    """The batches by recipe, strongest first, and the plants that need a word.

    ``fewest`` is how many jugs it takes to serve everybody inside the band;
    ``outside_band`` names who is served outside, ``volume_unknown`` whose litres are
    not in the batches. ``recipes`` is how many recipes there are, which may be more
    than the jugs at hand.
    """

    batches: tuple[Batch, ...]
    outside_band: tuple[str, ...] = ()
    volume_unknown: tuple[str, ...] = ()
    fewest: int = 0
    recipes: int = 0


def plan_batches(
    servings: Iterable[Serving], band: Band | None = None, jugs: int | None = None
) -> BatchPlan:
    """Give the fewest batches that serve all, or the best for the jugs at hand."""
    band = band or Band()
    plants = sorted(
        servings,
        key=lambda s: (
            natural_key(s.tag),
            s.strength_ppm_n,
            s.ceiling_ppm_n,
            _recipe_key(s.recipe),
        ),
    )
    if jugs is not None and jugs < 1:
        raise InputError("jugs", jugs, tr("is too few"), tr("One jug is the least."))
    by_recipe = _by_recipe(plants)
    groups = {key: _groups(members, band) for key, members in by_recipe.items()}
    fewest = {key: fewest_strengths(each) for key, each in groups.items()}
    in_band = jugs is None or jugs >= sum(fewest.values())
    if in_band:
        strengths = {
            key: best_strengths(each, fewest[key]) or () for key, each in groups.items()
        }
    else:
        strengths = _shared(by_recipe, jugs or 1)
    served = _served_plants(plants, strengths, band, in_band=in_band)
    return _assigned(plants, served, sum(fewest.values()))


def _by_recipe(plants: Iterable[Serving]) -> dict[int | None, list[Serving]]:
    """Give the plants of each recipe, what is in use for all first."""
    found: dict[int | None, list[Serving]] = {}
    for plant in plants:
        found.setdefault(plant.recipe, []).append(plant)
    return dict(sorted(found.items(), key=lambda item: _recipe_key(item[0])))


def _recipe_key(recipe: int | None) -> tuple[int, int]:
    return (0, 0) if recipe is None else (1, recipe)


def _shared(
    by_recipe: Mapping[int | None, Sequence[Serving]], jugs: int
) -> dict[int | None, tuple[int, ...]]:
    """Share the jugs out among the recipes, held by nothing but the ceilings."""
    room = max(1, jugs - len(by_recipe) + 1)
    choices = [
        best_by_count(_groups(plants, None), room) for plants in by_recipe.values()
    ]
    return dict(zip(by_recipe, shared_out(choices, jugs), strict=True))


def letter(index: int) -> str:
    """Give A for 0, B for 1, … Z, AA, AB, as columns are named."""
    name = ""
    index += 1
    while index:
        index, rest = divmod(index - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def natural_key(tag: str) -> tuple[tuple[int, int, str], ...]:
    """Give a key that sorts A2 before A10."""
    parts = re.findall(r"[0-9]+|[^0-9]+", tag)
    key = [
        (0, int(part), part) if part[0] in "0123456789" else (1, 0, part.casefold())
        for part in parts
    ]
    return (*key, (-1, 0, tag))


def _groups(plants: Sequence[Serving], band: Band | None) -> list[Group]:
    """Gather plants that want and accept the same; without a band by ceiling only."""
    gathered: dict[tuple[int, int, int], list[Serving]] = {}
    top = math.ceil(max((plant.strength_ppm_n for plant in plants), default=0))
    ends: dict[tuple[float, float], tuple[int, int]] = {}
    for plant in plants:
        wish = (plant.strength_ppm_n, plant.ceiling_ppm_n)
        if wish not in ends:
            ends[wish] = _whole_ends(plant, band)
        least, most = ends[wish]
        key = (math.floor(2 * plant.strength_ppm_n), least, min(most, max(top, least)))
        gathered.setdefault(key, []).append(plant)
    return [_group(key, members) for key, members in sorted(gathered.items())]


def _group(key: tuple[int, int, int], plants: Sequence[Serving]) -> Group:
    """Sum up plants that count as one, in an order that the input does not change."""
    pairs = [(plant.volume_l or 0.0, plant.strength_ppm_n) for plant in plants]
    return Group(
        *key,
        litres=math.fsum(volume for volume, _ in pairs),
        litres_per_ppm=math.fsum(volume / wish for volume, wish in pairs),
        plants=float(len(pairs)),
        plants_per_ppm=math.fsum(1 / wish for _, wish in pairs),
    )


def _whole_ends(plant: Serving, band: Band | None) -> tuple[int, int]:
    """Give the weakest and strongest whole strength a plant is served at.

    A band may hold no whole number (1.125 to 1.65): then the nearest below the wish
    stands for it. Or it may lie above the ceiling: then the ceiling is the wish.
    """
    ceiling = math.floor(plant.ceiling_ppm_n + _DUST)
    if band is None:
        return 1, ceiling
    low, high = band.ends(plant)
    if low > high:
        low = (1 + band.low) * high
    least = max(1, math.ceil(low - _DUST))
    most = math.floor(high + _DUST)
    if least <= most:
        return least, most
    only = max(1, min(math.floor(plant.strength_ppm_n + _DUST), ceiling))
    return only, only


def _served_plants(
    plants: Iterable[Serving],
    strengths: Mapping[int | None, Sequence[int]],
    band: Band,
    *,
    in_band: bool,
) -> list[tuple[int, bool]]:
    """Give each plant's strength, and whether its band holds it."""
    known: dict[tuple[int | None, float, float], tuple[int, bool]] = {}
    served: list[tuple[int, bool]] = []
    for plant in plants:
        wish = (plant.recipe, plant.strength_ppm_n, plant.ceiling_ppm_n)
        if wish not in known:
            of_recipe = strengths[plant.recipe]
            known[wish] = _served(plant, of_recipe, band, in_band=in_band)
        served.append(known[wish])
    return served


def _assigned(
    plants: Sequence[Serving], served: Sequence[tuple[int, bool]], fewest: int
) -> BatchPlan:
    members: dict[tuple[int | None, int], list[Serving]] = {}
    for plant, (strength, _) in zip(plants, served, strict=True):
        members.setdefault((plant.recipe, strength), []).append(plant)
    strongest: dict[int | None, int] = {}
    for recipe, strength in members:
        strongest[recipe] = max(strength, strongest.get(recipe, 0))
    ordered = sorted(
        members,
        key=lambda jug: (-strongest[jug[0]], _recipe_key(jug[0]), -jug[1]),
    )
    return BatchPlan(
        batches=tuple(
            _batch(letter(index), jug, members[jug])
            for index, jug in enumerate(ordered)
        ),
        outside_band=tuple(
            plant.tag
            for plant, (_, inside) in zip(plants, served, strict=True)
            if not inside
        ),
        volume_unknown=tuple(plant.tag for plant in plants if plant.volume_l is None),
        fewest=fewest,
        recipes=len(strongest),
    )


def _served(
    plant: Serving, strengths: Sequence[int], band: Band, *, in_band: bool
) -> tuple[int, bool]:
    """Give the nearest strength the plant may have, and whether its band holds it.

    With ``in_band`` only the band is looked at, where a strength is in it. Of two as
    near the weaker is given.
    """
    ceiling = plant.ceiling_ppm_n + _DUST
    allowed = [strength for strength in strengths if strength <= ceiling]
    inside = [strength for strength in allowed if band.holds(plant, strength)]
    nearest = min(
        (inside if in_band else None) or allowed,
        key=lambda strength: (abs(strength - plant.strength_ppm_n), strength),
    )
    return nearest, nearest in inside


def _batch(name: str, jug: tuple[int | None, int], plants: Sequence[Serving]) -> Batch:
    return Batch(
        letter=name,
        strength_ppm_n=jug[1],
        volume_l=math.fsum(plant.volume_l or 0.0 for plant in plants),
        tags=tuple(plant.tag for plant in plants),
        recipe=jug[0],
        ceiling_ppm_n=min(plant.ceiling_ppm_n for plant in plants),
    )
