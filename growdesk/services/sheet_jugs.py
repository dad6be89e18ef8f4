"""The week's jugs: one letter is one strength all week, and what a jug is short of.

The first round keeps the letters of the watering day's own plan. A strength that was
not mixed before takes the next free letter, in the ladder's sentences too.
"""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TYPE_CHECKING

from growdesk.domain.batches import letter
from growdesk.domain.ladder import litres

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.domain.explain import Strength
    from growdesk.domain.facts import House
    from growdesk.services.values import Jug, MixPlan

STEP_L = 0.05
"""What a jug's scale shows at the bench; a plant's volume is rounded to it."""

_NAMED = re.compile(r"\b([Jj]ug) ([A-Z]+)\b")
_DUST = 1e-9


def rounded_l(volume_l: float) -> float:
    """Give a plant's litres as they are poured, never nothing."""
    return max(1, math.floor(volume_l / STEP_L + 0.5 + _DUST)) * STEP_L


def with_week_letters(mixes: Iterable[MixPlan]) -> tuple[MixPlan, ...]:
    """Give the rounds' plans in order, lettered by strength over all of them."""
    letters: dict[int, str] = {}
    lettered = []
    for mix in mixes:
        for jug in mix.jugs:
            letters.setdefault(jug.strength_ppm_n, letter(len(letters)))
        lettered.append(_lettered(mix, letters))
    return tuple(lettered)


def _lettered(mix: MixPlan, letters: Mapping[int, str]) -> MixPlan:
    renamed = {jug.letter: letters[jug.strength_ppm_n] for jug in mix.jugs}
    return replace(
        mix,
        jugs=tuple(replace(jug, letter=renamed[jug.letter]) for jug in mix.jugs),
        ladder=tuple(
            _NAMED.sub(lambda found: f"{found[1]} {renamed[found[2]]}", step)
            for step in mix.ladder
        ),
    )


def large_enough(mix: MixPlan, poured_l: Mapping[str, float | None]) -> MixPlan:
    """Give the plan with a word on each jug that its rounded volumes would empty."""
    jugs = tuple(_enough(jug, poured_l) for jug in mix.jugs)
    return replace(mix, jugs=jugs)


def _enough(jug: Jug, poured_l: Mapping[str, float | None]) -> Jug:
    needed_l = math.fsum(rounded_l(poured_l.get(tag) or STEP_L) for tag in jug.tags)
    mixed_l = jug.volume_l + jug.spare_l
    if not jug.volume_l or needed_l <= mixed_l + _DUST:
        return jug
    more = f"The rounded volumes below take {litres(needed_l)}: mix that much"
    share = needed_l / mixed_l
    if jug.volume_ml is not None:
        more += f", from {jug.volume_ml * share:.1f} mL"
    elif jug.mass_g is not None:
        more += f", from {jug.mass_g * share:.2f} g"
    return replace(jug, warnings=(*jug.warnings, f"{more}."))


def jug_for(strength: Strength, jugs: Iterable[Jug], house: House) -> Jug | None:
    """Give the jug for a plant not counted in: in its band, else the next weaker."""
    wish = strength.ppm_n
    most = min(wish * (1 + house.band_high), strength.ceiling_ppm_n) + _DUST
    allowed = [jug for jug in jugs if jug.strength_ppm_n <= most]
    least = wish * (1 - house.band_low) - _DUST
    inside = [jug for jug in allowed if jug.strength_ppm_n >= least]
    if inside:
        return min(inside, key=lambda jug: abs(jug.strength_ppm_n - wish))
    return max(allowed, key=lambda jug: jug.strength_ppm_n, default=None)
