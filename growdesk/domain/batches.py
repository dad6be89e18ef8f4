"""The fewest jugs that serve every plant that is fed, and who gets which.

Each plant accepts a band around its strength and never more than its ceiling; a jug's
strength is a whole number of ppm N. The number of jugs is the least that serves all
(exact); among choices of that number the strengths deviate least, weighted by litres
(exact). With fewer jugs at hand than that, only the ceilings stay hard, the deviation
is the least for that number, and the plants outside their band are named.

Nothing is known here of fertilizers, of verdicts, or of the order of mixing.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError
from growdesk.domain.jug_search import Group, best_strengths, fewest_strengths

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

_DUST: Final = 1e-9
_STRONGEST_PPM_N: Final = 10_000.0


@dataclass(frozen=True, slots=True)
class Serving:
    """What one plant is to get; a volume that is not recorded is None."""

    tag: str
    strength_ppm_n: float
    ceiling_ppm_n: float
    volume_l: float | None

    def __post_init__(self) -> None:
        for name, value in (
            ("strength_ppm_n", self.strength_ppm_n),
            ("ceiling_ppm_n", self.ceiling_ppm_n),
        ):
            if not math.isfinite(value) or not 0 < value <= _STRONGEST_PPM_N:
                raise self._refused(name, value, "is not a strength in ppm N")
        if self.ceiling_ppm_n < 1:
            problem = "is below 1 ppm N, the weakest jug there is"
            raise self._refused("ceiling_ppm_n", self.ceiling_ppm_n, problem)
        volume = self.volume_l
        if volume is not None and not 0 <= volume <= 10_000:
            raise self._refused("volume_l", volume, "is not a volume in litres")

    def _refused(self, name: str, value: float, problem: str) -> InputError:
        hint = "Correct it, or give the plant clear water."
        return InputError(f"plant {self.tag}, {name}", value, problem, hint)


@dataclass(frozen=True, slots=True)
class Band:
    """How far below and above its strength a plant may be served, as shares."""

    low: float = -0.25
    high: float = 0.10

    def __post_init__(self) -> None:
        if not (-1 < self.low <= 0 <= self.high <= 1):
            raise InputError(
                "band",
                f"{self.low} to {self.high}",
                "is not a band around a strength",
                "Give a share from -0.99 to 0 and one from 0 to 1.",
            )

    def holds(self, serving: Serving, strength_ppm_n: float) -> bool:
        """Tell whether a strength is inside a plant's band and not over its ceiling."""
        least, most = self.ends(serving)
        return least - _DUST <= strength_ppm_n <= most + _DUST

    def ends(self, serving: Serving) -> tuple[float, float]:
        """Give the weakest and the strongest that a plant accepts, in ppm N."""
        wish = serving.strength_ppm_n
        return (1 + self.low) * wish, min((1 + self.high) * wish, serving.ceiling_ppm_n)


@dataclass(frozen=True, slots=True)
class Batch:
    """One jug's worth: a letter, a whole strength, the litres and who gets it."""

    letter: str
    strength_ppm_n: int
    volume_l: float
    tags: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BatchPlan:
    """The batches, strongest first, and the plants that need a word.

    ``fewest`` is how many jugs it takes to serve everybody inside the band;
    ``outside_band`` names who is served outside, ``volume_unknown`` whose litres are
    not in the batches. ``deviation`` is the weighted mean relative deviation.
    """

    batches: tuple[Batch, ...]
    outside_band: tuple[str, ...] = ()
    volume_unknown: tuple[str, ...] = ()
    fewest: int = 0
    deviation: float = 0.0


def plan_batches(
    servings: Iterable[Serving], band: Band | None = None, jugs: int | None = None
) -> BatchPlan:
    """Give the fewest batches that serve all, or the best for the jugs at hand."""
    band = band or Band()
    plants = sorted(
        servings, key=lambda s: (natural_key(s.tag), s.strength_ppm_n, s.ceiling_ppm_n)
    )
    if jugs is not None and jugs < 1:
        raise InputError("jugs", jugs, "is too few", "One jug is the least.")
    groups = _groups(plants, band)
    fewest = fewest_strengths(groups)
    if jugs is None or jugs >= fewest:
        strengths = best_strengths(groups, fewest)
        return _assigned(plants, strengths or (), band, fewest, in_band=True)
    strengths = best_strengths(_groups(plants, None), jugs)
    return _assigned(plants, strengths or (), band, fewest, in_band=False)


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


def _assigned(
    plants: Sequence[Serving],
    strengths: Sequence[int],
    band: Band,
    fewest: int,
    *,
    in_band: bool,
) -> BatchPlan:
    members: dict[int, list[Serving]] = {}
    outside: list[str] = []
    served: dict[tuple[float, float], tuple[int, bool]] = {}
    for plant in plants:
        wish = (plant.strength_ppm_n, plant.ceiling_ppm_n)
        if wish not in served:
            served[wish] = _served(plant, strengths, band, in_band=in_band)
        strength, inside = served[wish]
        members.setdefault(strength, []).append(plant)
        if not inside:
            outside.append(plant.tag)
    return BatchPlan(
        batches=tuple(
            _batch(index, strength, members[strength])
            for index, strength in enumerate(sorted(members, reverse=True))
        ),
        outside_band=tuple(outside),
        volume_unknown=tuple(plant.tag for plant in plants if plant.volume_l is None),
        fewest=fewest,
        deviation=_deviation(members),
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


def _batch(index: int, strength: int, plants: Sequence[Serving]) -> Batch:
    volume = math.fsum(plant.volume_l or 0.0 for plant in plants)
    tags = tuple(plant.tag for plant in plants)
    return Batch(letter(index), strength, volume, tags)


def _deviation(members: dict[int, list[Serving]]) -> float:
    pairs = [
        (plant.volume_l or 0.0, abs(strength / plant.strength_ppm_n - 1))
        for strength, plants in members.items()
        for plant in plants
    ]
    total = math.fsum(volume for volume, _ in pairs)
    if not total:
        return 0.0
    return math.fsum(volume * part for volume, part in pairs) / total
