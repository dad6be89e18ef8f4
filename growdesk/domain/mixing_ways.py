"""Which way of mixing loses less to measuring: each jug dosed alone, or diluted down.

A dose is off by its rounding and by half a step of its tool; a volume by half a step of
what it is read on. Down a ladder the volumes' errors add up, jug by jug, while its one
large dose is measured better than small ones. All errors are taken at their worst, as
shares of the nitrogen that is mixed in. Words are made in ``mix_words``.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.measuring import ToolKind
from growdesk.domain.volume_words import STEP_ML
from growdesk.domain.water_measures import finest_measure, volume_step_ml

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.domain.ladder import LadderStep
    from growdesk.domain.measuring import Measured, Tool
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.vessels import Vessel
    from growdesk.domain.water_measures import WaterMeasure

SAME_SHARES: Final = 0.02
"""How far a product's share may move and be the same feed; ours: no scale tells it."""
CLEARLY: Final = 0.005
"""A way is said to be closer from half a per cent on; ours."""


class Scales(Struct, frozen=True):
    """What volumes are read on: the grower's vessels, cylinders and syringes."""

    vessels: Sequence[Vessel] = ()
    tools: Sequence[Tool] = ()

    def off(self, volume_l: float) -> float:
        """Give the share by which a volume may be misread."""
        if volume_l <= 0:
            return 0.0
        step_ml = volume_step_ml(volume_l, self.vessels, self.tools)
        return step_ml / 2 / (volume_l * 1000)

    def finest(self, volume_l: float) -> WaterMeasure | None:
        """Give what is worth taking for a volume that is kept; None where no better.

        That is a measure whose fills together are closer than a jug or can.
        """
        found = finest_measure(volume_l, self.vessels, self.tools)
        at_hand = volume_step_ml(volume_l, self.vessels)
        if found is None or found.fills * found.step_ml >= at_hand:
            return None
        return found

    def off_kept(self, volume_l: float) -> float:
        """Give the share by which a volume that is kept may be off."""
        found = self.finest(volume_l)
        if found is None:
            return self.off(volume_l)
        return found.fills * found.step_ml / 2 / (volume_l * 1000)

    @property
    def fine_ml(self) -> int | None:
        """Give the step of the finest measure of volumes, if a jug is read coarser."""
        steps = [tool.step for tool in self.tools if tool.kind is ToolKind.CYLINDER] + [
            vessel.step_ml for vessel in self.vessels if vessel.step_ml
        ]
        fine = min(steps, default=float(STEP_ML))
        return max(1, math.ceil(fine)) if fine < STEP_ML else None


class Dosed(Struct, frozen=True):
    """One mix: the jug it is for, its litres and its doses."""

    letter: str
    volume_l: float
    doses: tuple[Measured, ...]


class Loss(Struct, frozen=True):
    """How far off a jug may come out, as a share, and the dose that costs most."""

    letter: str
    share: float
    dose: Measured | None = None


class Ways(Struct, frozen=True):
    """The worst jug each way."""

    alone: Loss
    diluted: Loss

    @property
    def ladder_first(self) -> bool:
        """Tell whether diluting is clearly closer."""
        return self.diluted.share < self.alone.share - CLEARLY


def compared(
    alone: Sequence[Dosed],
    chains: Sequence[tuple[Sequence[LadderStep], float]],
    fresh: Mapping[str, Dosed],
    scales: Scales,
) -> Ways | None:
    """Compare both ways; None where it is not known what a dose is measured with.

    ``chains`` are the ladders with the nitrogen of their water in ppm, ``fresh`` the
    mixes they begin with, by letter.
    """
    mixes = (*alone, *fresh.values())
    doses = [dose for mix in mixes for dose in mix.doses]
    if any(not mix.doses for mix in mixes) or any(dose.tool is None for dose in doses):
        return None
    losses = [dosed_alone(mix, scales) for mix in alone]
    thinned = [
        loss
        for steps, water_ppm_n in chains
        for loss in down_the_ladder(steps, water_ppm_n, fresh, scales)
    ]
    if not losses or not thinned:
        return None
    return Ways(max(losses, key=_share), max(thinned, key=_share))


def dosed_alone(mix: Dosed, scales: Scales) -> Loss:
    """Give how far off a mix may be by its doses and its own litres."""
    wanted = math.fsum(_nitrogen_mg(dose, dose.mass_g) for dose in mix.doses)
    off = math.fsum(_nitrogen_mg(dose, _off_g(dose)) for dose in mix.doses)
    worst = max(mix.doses, key=lambda dose: _nitrogen_mg(dose, _off_g(dose)))
    share = off / wanted if wanted > 0 else 0.0
    return Loss(mix.letter, share + scales.off(mix.volume_l), worst)


def down_the_ladder(
    steps: Sequence[LadderStep],
    water_ppm_n: float,
    fresh: Mapping[str, Dosed],
    scales: Scales,
) -> list[Loss]:
    """Give how far off each jug of a ladder may be.

    Volumes are those of the sentences, which the grower reads.
    """
    losses: list[Loss] = []
    carried = read_off = 0.0
    for step in steps:
        wanted = step.strength_ppm_n - water_ppm_n
        if step.is_fresh:
            begun = dosed_alone(fresh[step.letter], scales)
            carried, read_off = wanted, begun.share
            losses.append(begun)
            continue
        carried *= step.told_kept_l / step.told_mix_l
        read_off += scales.off_kept(step.told_kept_l) + scales.off(step.told_mix_l)
        losses.append(Loss(step.letter, read_off + max(0.0, 1 - carried / wanted)))
    return losses


def same_feed(stronger: Mixture, weaker: Mixture) -> bool:
    """Tell whether diluting one with its water gives the other.

    It does for fixed shares with any water, and for solved ones where the water brings
    nothing that the solving counts in.
    """
    water_ppm_n = stronger.from_water_mg_per_l.get("N", 0.0)
    above = stronger.strength_ppm_n - water_ppm_n
    if above <= 0:
        return False
    ratio = (weaker.strength_ppm_n - water_ppm_n) / above
    held, wanted = _grams(stronger), _grams(weaker)
    return all(
        math.isclose(
            held.get(key, 0.0) * ratio, wanted.get(key, 0.0), rel_tol=SAME_SHARES
        )
        for key in held | wanted
    )


def _grams(mixture: Mixture) -> dict[tuple[int | None, str], float]:
    return {
        (product.key, product.name): grams
        for product, grams in mixture.g_per_l
        if grams > 0
    }


def _off_g(dose: Measured) -> float:
    """Give the grams a dose may be off; what rounds to nothing is off by itself."""
    return dose.worst_g if dose.given_g > 0 else dose.mass_g


def _nitrogen_mg(dose: Measured, mass_g: float) -> float:
    return dose.product.mg_per_g().get("N", 0.0) * mass_g


def _share(loss: Loss) -> float:
    return loss.share
