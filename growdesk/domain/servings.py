"""What a plant is to get of feed, and how far from its strength a jug may be for it."""

from __future__ import annotations

import math
from typing import Final

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import plain, tr

_DUST: Final = 1e-9
_STRONGEST_PPM_N: Final = 10_000.0


class Serving(Struct, frozen=True):
    """What one plant is to get; a volume that is not recorded is None.

    ``recipe`` is the number of its recipe; None stands for what is in use for all.
    """

    tag: str
    strength_ppm_n: float
    ceiling_ppm_n: float
    volume_l: float | None
    recipe: int | None = None

    def __post_init__(self) -> None:
        for name, value in (
            ("strength_ppm_n", self.strength_ppm_n),
            ("ceiling_ppm_n", self.ceiling_ppm_n),
        ):
            if not math.isfinite(value) or not 0 < value <= _STRONGEST_PPM_N:
                raise self._refused(name, value, tr("is not a strength in ppm N"))
        if self.ceiling_ppm_n < 1:
            problem = tr("is below 1 ppm N, the weakest jug there is")
            raise self._refused("ceiling_ppm_n", self.ceiling_ppm_n, problem)
        volume = self.volume_l
        if volume is not None and not 0 <= volume <= 10_000:
            raise self._refused("volume_l", volume, tr("is not a volume in litres"))

    def _refused(self, name: str, value: float, problem: str) -> InputError:
        hint = tr("Correct it, or give the plant clear water.")
        plant = tr("plant {tag}").format(tag=self.tag)
        return InputError(f"{plant}, {name}", value, problem, hint)


class Band(Struct, frozen=True):
    """How far below and above its strength a plant may be served, as shares."""

    low: float = -0.25
    high: float = 0.10

    def __post_init__(self) -> None:
        if not (-1 < self.low <= 0 <= self.high <= 1):
            raise InputError(
                "band",
                tr("{low} to {high}").format(
                    low=plain(self.low), high=plain(self.high)
                ),
                tr("is not a band around a strength"),
                tr("Give a share from -0.99 to 0 and one from 0 to 1."),
            )

    def holds(self, serving: Serving, strength_ppm_n: float) -> bool:
        """Tell whether a strength is inside a plant's band and not over its ceiling."""
        least, most = self.ends(serving)
        return least - _DUST <= strength_ppm_n <= most + _DUST

    def ends(self, serving: Serving) -> tuple[float, float]:
        """Give the weakest and the strongest that a plant accepts, in ppm N."""
        wish = serving.strength_ppm_n
        return (1 + self.low) * wish, min((1 + self.high) * wish, serving.ceiling_ppm_n)
