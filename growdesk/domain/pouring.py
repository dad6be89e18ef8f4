"""How much a plant gets of what: a round, half a round, or a flush, in litres.

The verdict says what is poured; this module says how much. It knows no jug.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from growdesk.domain.facts import Verdict, Water

if TYPE_CHECKING:
    from growdesk.domain.facts import House, Plant

SPARING_SHARE = 0.5
ROUNDS_IN_A_FLUSH = 4
STEP_L = 0.05
"""What a jug's scale shows at the bench; what a plant gets is rounded to it."""
DUST = 1e-9
_SPARE_SHARE = 0.05
_LEAST_SPARE_L = 0.05


def round_l(plant: Plant, house: House) -> float | None:
    """Give a plant's litres a round: its own, else the house's share of its pot."""
    if plant.volume_l is not None:
        return plant.volume_l
    if plant.pot_volume_l is None:
        return None
    return plant.pot_volume_l * house.pot_share


def pour_l(
    plant: Plant,
    house: House,
    verdict: Verdict,
    water: Water,
    flush_l: float | None = None,
) -> float | None:
    """Give the litres to pour on a plant, rounded to what a jug's scale shows.

    A flush is the pot's volume, or ``flush_l`` where its salts ask for more, else four
    rounds; a sparing watering half a round.
    """
    litres = _exact_l(plant, house, verdict, water)
    if litres is not None and verdict is Verdict.FLUSH and flush_l is not None:
        litres = max(litres, flush_l)
    return None if litres is None else rounded_l(litres)


def spare_l(volume_l: float) -> float:
    """Give the litres that stand ready beyond these, so that the last pot is not short.

    A twentieth to 10 mL upward, 50 mL at least; common practice, no source.
    """
    if volume_l <= 0:
        return 0.0
    tens_of_ml = math.ceil(_SPARE_SHARE * volume_l * 100 - DUST)
    return max(_LEAST_SPARE_L, round(tens_of_ml / 100, 2))


def rounded_l(volume_l: float) -> float:
    """Give litres as they are poured at the bench, to 50 mL and never nothing."""
    steps = max(1, math.floor(volume_l / STEP_L + 0.5 + DUST))
    return round(steps * STEP_L, 3)


def _exact_l(
    plant: Plant, house: House, verdict: Verdict, water: Water
) -> float | None:
    if water is Water.NONE:
        return None
    a_round = round_l(plant, house)
    if verdict is Verdict.FLUSH:
        if plant.pot_volume_l is not None:
            return plant.pot_volume_l
        return None if a_round is None else ROUNDS_IN_A_FLUSH * a_round
    if a_round is None:
        return None
    return a_round * SPARING_SHARE if water is Water.SPARING else a_round
