"""Which water to have ready for the rounds of a week, and how much of each.

Jugs, clear water and flushes all take of it; a blend takes of its two. What stands in
the rain barrel or the RO can is held against all rounds together, so that it is filled
before it runs dry. Nothing is known here of plants or of why they are watered.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence
    from datetime import date

_DUST: Final = 1e-6
_STEPS: Final = ((10.0, 0.5), (1.0, 0.1), (0.0, 0.05))


class WaterNeed(Struct, frozen=True):
    """Litres of one water for a round: in jugs, as clear water, for flushes, to spare.

    ``key`` is its number on the shelf. The jugs' own spare is in ``jugs_l``;
    ``spare_l`` is of clear water and flushes. ``taken_l`` was poured already.
    ``blended`` names the blend that ``blended_l`` of its clear water goes into.
    """

    key: int
    name: str
    kind: str
    jugs_l: float = 0.0
    clear_l: float = 0.0
    flush_l: float = 0.0
    spare_l: float = 0.0
    taken_l: float = 0.0
    blended: str = ""
    blended_l: float = 0.0

    @property
    def volume_l(self) -> float:
        """Give what is still to be had ready, with the spare."""
        whole = self.jugs_l + self.clear_l + self.flush_l + self.spare_l
        return max(whole - self.taken_l, 0.0)

    @property
    def ready_l(self) -> float:
        """Give what is had ready as clear water and for flushes, with its spare."""
        return self.clear_l + self.flush_l + self.spare_l

    @property
    def into_blend_l(self) -> float:
        """Give what of that goes into the blend, with its part of the spare."""
        poured_l = self.clear_l + self.flush_l
        return self.ready_l * self.blended_l / poured_l if poured_l > 0 else 0.0

    def __add__(self, other: WaterNeed) -> WaterNeed:
        """Give two needs of the same water together."""
        return replace(
            self,
            jugs_l=self.jugs_l + other.jugs_l,
            clear_l=self.clear_l + other.clear_l,
            flush_l=self.flush_l + other.flush_l,
            spare_l=self.spare_l + other.spare_l,
            taken_l=self.taken_l + other.taken_l,
            blended=self.blended or other.blended,
            blended_l=self.blended_l + other.blended_l,
        )


class WaterStand(Struct, frozen=True):
    """What stands of a water: litres there and what its barrel or can holds.

    None where nobody counted, or where it has no barrel.
    """

    there_l: float | None = None
    capacity_l: float | None = None


class WaterWeek(Struct, frozen=True):
    """Litres of one water for some days, held against what stands of it.

    ``instead`` names a water that can be taken for what is short.
    """

    need: WaterNeed
    days: tuple[date, ...]
    volume_l: float
    stand: WaterStand
    instead: str | None = None

    @property
    def short_l(self) -> float:
        """Give what is missing, as it would be measured; 0 where it lasts."""
        if self.stand.there_l is None:
            return 0.0
        missing = self.volume_l - self.stand.there_l
        return rounded_up_l(missing) if missing > _DUST else 0.0


def together(needs: Iterable[WaterNeed]) -> tuple[WaterNeed, ...]:
    """Add up needs by their water, in the order in which they come; none is empty."""
    found: dict[int, WaterNeed] = {}
    for need in needs:
        there = found.get(need.key)
        found[need.key] = need if there is None else there + need
    return tuple(need for need in found.values() if need.volume_l > _DUST)


def over_days(
    rounds: Sequence[tuple[date, Sequence[WaterNeed]]],
    stands: Mapping[int, WaterStand],
    instead: Mapping[int, str],
) -> tuple[WaterWeek, ...]:
    """Give each water's litres over all rounds, with the days that take of it.

    ``instead`` names, by water, what may be taken for it; only told where it is short.
    """
    left = [(on, n) for on, needs in rounds for n in needs if n.volume_l > _DUST]
    days: dict[int, list[date]] = {}
    for on, need in left:
        days.setdefault(need.key, []).append(on)
    weeks = []
    for need in together(need for _on, need in left):
        volume_l = rounded_up_l(need.volume_l)
        stand = stands.get(need.key, WaterStand())
        made = WaterWeek(need, tuple(sorted(set(days[need.key]))), volume_l, stand)
        if made.short_l > 0:
            made = replace(made, instead=instead.get(need.key))
        weeks.append(made)
    return tuple(weeks)


def rounded_up_l(volume_l: float) -> float:
    """Give litres as they are had ready: up to 0.5 L from ten on, 0.1 from one."""
    step = next(step for least, step in _STEPS if volume_l >= least)
    return round(math.ceil(volume_l / step - _DUST) * step, 3)
