"""What a form says of a water while it is typed: what it holds, and what to mind."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import tr
from growdesk.domain.water_analysis import BLEND
from growdesk.domain.water_checks import consistency
from growdesk.domain.water_limits import Weight, water_flags
from growdesk.domain.water_words import blend_lines, flag_text, holds_text
from growdesk.services.water_rows import made, water_analysis

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from growdesk.domain.water_limits import Flag
    from growdesk.services.values import WaterDraft, WaterView


class FlagLine(Struct, frozen=True):
    """One thing to say of a water, with where it is from; ``weight`` from 1 to 3."""

    text: str
    source: str
    weight: int

    @property
    def is_too_much(self) -> bool:
        """Tell whether it is one that should not stay as it is."""
        return self.weight == Weight.TOO_MUCH


class WaterTold(Struct, frozen=True):
    """A water in words: what it holds or how it is blended, and what to mind."""

    lines: tuple[str, ...] = ()
    flags: tuple[FlagLine, ...] = ()


def told(draft: WaterDraft, views: Iterable[WaterView], volume_l: float) -> WaterTold:
    """Say what a water is, as it stands in a form; litres of a blend for a volume."""
    if draft.kind == BLEND and (draft.first_id is None or draft.second_id is None):
        return WaterTold((tr("Choose the two waters it is made of."),))
    if draft.kind == BLEND and draft.aim_value is None:
        return WaterTold((tr("Say what the blend is to have."),))
    now = made(draft, {view.water_id: view.draft for view in views})
    water = water_analysis(now.draft, None)
    if now.blend is not None:
        lines = tuple(blend_lines(now.blend, volume_l))
        return WaterTold(lines, tuple(_lines(water_flags(water))))
    holds = holds_text(water)
    flags = (*consistency(water), *water_flags(water))
    return WaterTold((f"{holds}.",) if holds else (), tuple(_lines(flags)))


def _lines(flags: Iterable[Flag]) -> Iterator[FlagLine]:
    for flag in flags:
        yield FlagLine(flag_text(flag), flag.source, int(flag.weight))
