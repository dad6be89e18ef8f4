"""Say which clear water to have ready, the same on the screen and on the sheet."""

from __future__ import annotations

import math
from functools import reduce
from operator import add
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.mugs import in_mugs
from growdesk.domain.phrases import listed
from growdesk.domain.speech import tr
from growdesk.domain.volume_words import volume_text
from growdesk.domain.water_ready import WaterNeed
from growdesk.domain.water_templates import VESSELS
from growdesk.domain.water_words import level_text, spoken, uses
from growdesk.ui import jug_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.services.values import MixPlan

_DUST_L = 1e-6


class ClearWater(Struct, frozen=True):
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
        return (*_blended(needs, mix), *(_of(n, mix) for n in needs if _is_plain(n)))
    total_l = jug_words.clear_total_l(mix)
    if not total_l:
        return ()
    need = WaterNeed(0, "", "", clear_l=mix.clear_l, flush_l=mix.flush_l)
    lines = (tr("And a little to spare."), *_shares(need))
    return (
        ClearWater(
            volume_text(total_l),
            tr("of {water_name}").format(water_name=jug_words.water_name(mix)),
            lines,
        ),
    )


def _of(need: WaterNeed, mix: MixPlan) -> ClearWater:
    clear_l = need.ready_l - need.into_blend_l
    return ClearWater(
        volume_text(clear_l),
        tr("of {spoken}").format(spoken=spoken(need.name, need.kind)),
        (*(() if need.blended_l else _shares(need)), *_stands(need, mix)),
        in_mugs(clear_l, mix.mug),
        _vessel(need),
    )


def _is_plain(need: WaterNeed) -> bool:
    return need.ready_l - need.into_blend_l > _DUST_L


def _blended(needs: Sequence[WaterNeed], mix: MixPlan) -> Iterator[ClearWater]:
    """Give the clear water that is blended as one, with the litres of its waters."""
    parts = [need for need in needs if need.blended_l]
    if not parts:
        return
    litres = math.fsum(need.into_blend_l for need in parts)
    lines = [mix.clear_blend] if mix.clear_blend else []
    if not any(map(_is_plain, parts)):
        lines.append(_what_for(reduce(add, parts)))
    with_jugs = [
        tr("{ready_l} of {spoken}").format(
            ready_l=volume_text(need.ready_l + need.jugs_l),
            spoken=spoken(need.name, need.kind),
        )
        for need in parts
        if need.jugs_l > 0
    ]
    if with_jugs:
        lines.append(
            tr("With what goes into the jugs, {list} in all.").format(
                list=listed(with_jugs)
            )
        )
    lines += [line for need in parts for line in _stands(need, mix)]
    yield ClearWater(
        volume_text(litres),
        tr("of {blended}").format(blended=parts[0].blended),
        tuple(lines),
        in_mugs(litres, mix.mug),
        next(filter(None, map(_vessel, parts)), ""),
    )


def _vessel(need: WaterNeed) -> str:
    return VESSELS.get(need.kind.casefold(), "")


def _stands(need: WaterNeed, mix: MixPlan) -> Iterator[str]:
    vessel = _vessel(need)
    there_l = dict(mix.stands).get(need.key)
    if there_l is not None:
        where = (
            tr("in the {vessel}").format(vessel=vessel)
            if vessel
            else tr("on the shelf")
        )
        yield tr("{level} {where} by the record.").format(
            level=level_text(max(there_l, 0.0)), where=where
        )


def _shares(need: WaterNeed) -> Iterator[str]:
    yield _what_for(need)
    if need.jugs_l > 0:
        all_l = need.ready_l + need.jugs_l
        yield tr("With what goes into the jugs, {all_l} in all.").format(
            all_l=volume_text(all_l)
        )


def _what_for(need: WaterNeed) -> str:
    return f"{', '.join(uses(need, 'clear_l', 'flush_l', 'spare_l'))}."
