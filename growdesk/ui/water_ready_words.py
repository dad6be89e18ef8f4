"""Say which clear water to have ready, the same on the screen and on the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.mugs import in_mugs
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_ready import WaterNeed
from growdesk.domain.water_templates import VESSELS
from growdesk.domain.water_words import level_text, spoken, uses
from growdesk.ui import jug_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.values import MixPlan


@dataclass(frozen=True, slots=True)
class ClearWater:
    """One kind of clear water: how much, of what, and what it is for.

    ``vessel`` is where it stands, barrel or can; empty for what comes from a tap.
    """

    volume: str
    phrase: str
    lines: tuple[str, ...]
    mugs: str = ""
    vessel: str = ""

    @property
    def in_mugs(self) -> str:
        """Give the mugs as they follow the water, or nothing."""
        return f", {self.mugs}" if self.mugs else ""

    @property
    def title(self) -> str:
        """Give amount and water in one line."""
        return f"{self.volume} {self.phrase}{self.in_mugs}"


def to_have_ready(mix: MixPlan) -> tuple[ClearWater, ...]:
    """Give the clear water of a round, a kind at a time; none where none is poured."""
    needs = [need for need in mix.waters if need.clear_l + need.flush_l > 0]
    if needs:
        return tuple(_of(need, mix) for need in needs)
    total_l = jug_words.clear_total_l(mix)
    if not total_l:
        return ()
    need = WaterNeed(0, "", "", clear_l=mix.clear_l, flush_l=mix.flush_l)
    lines = (f"{jug_words.CLEAR_SPARE.capitalize()}.", *_shares(need))
    return (ClearWater(volume_text(total_l), f"of {jug_words.water_name(mix)}", lines),)


def _of(need: WaterNeed, mix: MixPlan) -> ClearWater:
    clear_l = need.clear_l + need.flush_l + need.spare_l
    vessel, _ = VESSELS.get(need.kind.casefold(), ("", ""))
    into = f" into {need.blended}" if need.blended else ""
    return ClearWater(
        volume_text(clear_l),
        f"of {spoken(need.name, need.kind)}{into}",
        (*_shares(need), *_stands(need, mix, vessel)),
        in_mugs(clear_l, mix.mug),
        vessel,
    )


def _stands(need: WaterNeed, mix: MixPlan, vessel: str) -> Iterator[str]:
    there_l = dict(mix.stands).get(need.key)
    if there_l is not None:
        where = f"in the {vessel}" if vessel else "on the shelf"
        yield f"{level_text(max(there_l, 0.0))} {where} by the record."


def _shares(need: WaterNeed) -> Iterator[str]:
    yield f"{', '.join(uses(need, 'clear_l', 'flush_l', 'spare_l'))}."
    if need.jugs_l > 0:
        all_l = need.clear_l + need.flush_l + need.spare_l + need.jugs_l
        yield f"With what goes into the jugs, {volume_text(all_l)} in all."
