"""The order of mixing: the strongest jug large enough, then diluted from jug to jug.

Steps are data in whole millilitres, so that what is mixed, used, kept and added adds
up; their sentences have the same ladder in steps of 10 mL, as a jug is read, and add up
too. What is kept is rounded down, so that no jug comes out above its strength; where
that leaves less than a millilitre, the next jug is mixed fresh. Nitrogen that the water
brings is in every jug already, so only the rest is thinned. Sizes of jugs and cans,
scales and fertilizers are not known here.
"""

from __future__ import annotations

import math
from functools import partial
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.speech import tr
from growdesk.domain.volume_words import STEP_ML, volume_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from growdesk.domain.batches import Batch, BatchPlan

_WEAKER_SHARE = 0.05
_FINER_SHARE = 0.01
"""What a step as told may take from a jug's strength, without and with a fine measure;
ours."""
_DUST = 1e-9


class LadderStep(Struct, frozen=True):
    """One jug in mixing order.

    ``mix_l`` stands in the jug when it is ready: ``kept_l`` from the jug before plus
    ``add_water_l`` (for a jug mixed fresh, as the first one is, both are 0). Of it
    ``use_l`` goes to the plants and ``keep_l`` to the next jug. ``result_ppm_n`` is
    the strength that comes out, never above ``strength_ppm_n``. ``told_mix_l`` and
    ``told_kept_l`` are the same as the sentence has them.
    """

    letter: str
    strength_ppm_n: int
    mix_l: float
    kept_l: float
    add_water_l: float
    use_l: float
    keep_l: float
    result_ppm_n: float
    told_mix_l: float
    sentence: str
    told_kept_l: float = 0.0

    @property
    def is_fresh(self) -> bool:
        """Tell whether it is mixed of products, not of the jug before."""
        return not self.kept_l


class _Volumes(Struct, frozen=True):
    """The millilitres of one step."""

    mix: int
    use: int
    keep: int


def ladder(
    batches: Iterable[Batch],
    water_ppm_n: float = 0.0,
    fine_ml: int | None = None,
    of_water: str = "",
) -> tuple[LadderStep, ...]:
    """Give the steps that mix once and dilute down, strongest jug first.

    All are of one recipe, diluted with the water it is mixed with, which brings
    ``water_ppm_n`` of its own and is called ``of_water``. With ``fine_ml``, the step of
    a fine measure, what is kept is told as finely where steps of 10 mL would weaken a
    jug. Batches without a known volume are left out; ``unmeasured`` has a sentence for
    each.
    """
    of_water = of_water or tr("water")
    ordered = sorted(
        (batch for batch in batches if batch.volume_l > 0),
        key=lambda batch: -batch.strength_ppm_n,
    )
    thinned = [max(batch.strength_ppm_n - water_ppm_n, 0.0) for batch in ordered]
    volumes = _volumes(ordered, thinned, _whole_ml)
    joined = [bool(ml.keep) for ml in volumes]
    told = _volumes(ordered, thinned, partial(_told_ml, fine_ml=fine_ml), joined)
    steps: list[LadderStep] = []
    for index, (batch, ml) in enumerate(zip(ordered, volumes, strict=True)):
        kept = volumes[index - 1].keep if index else 0
        added = steps[-1].result_ppm_n - water_ppm_n if kept else thinned[index]
        result = added * kept / ml.mix + water_ppm_n if kept else batch.strength_ppm_n
        followed = ordered[index + 1].letter if ml.keep else None
        told_kept = told[index - 1].keep if index else 0
        sentence = _sentence(batch, told[index], told_kept, followed, of_water)
        steps.append(
            LadderStep(
                letter=batch.letter,
                strength_ppm_n=batch.strength_ppm_n,
                mix_l=ml.mix / 1000,
                kept_l=kept / 1000,
                add_water_l=(ml.mix - kept) / 1000 if kept else 0.0,
                use_l=ml.use / 1000,
                keep_l=ml.keep / 1000,
                result_ppm_n=float(result),
                told_mix_l=told[index].mix / 1000,
                sentence=sentence,
                told_kept_l=told_kept / 1000,
            )
        )
    return tuple(steps)


def unmeasured(batches: Iterable[Batch]) -> tuple[str, ...]:
    """Give a sentence for each batch whose litres nobody recorded."""
    return tuple(
        tr(
            "Jug {letter}, {strength_ppm_n} ppm N: the litres are not "
            "known, so it is mixed on its own."
        ).format(letter=batch.letter, strength_ppm_n=batch.strength_ppm_n)
        for batch in batches
        if batch.volume_l <= 0
    )


def sentences(batches: Iterable[Batch]) -> tuple[str, ...]:
    """Give the ladder as whole sentences, one a step, in mixing order."""
    known = tuple(batches)
    return (*(step.sentence for step in ladder(known)), *unmeasured(known))


def plan_report(plan: BatchPlan) -> dict[str, object]:
    """Give batches and ladder under the fixed keys of ``growdesk plan --json``."""
    return {
        "batches": [
            {
                "letter": batch.letter,
                "strength_ppm_n": batch.strength_ppm_n,
                "volume_l": round(batch.volume_l, 6),
                "tags": list(batch.tags),
            }
            for batch in plan.batches
        ],
        "ladder": [{"sentence": line} for line in sentences(plan.batches)],
        "outside_band": list(plan.outside_band),
        "volume_unknown": list(plan.volume_unknown),
        "fewest": plan.fewest,
    }


def litres(volume_l: float) -> str:
    """Give a step's volume, whole where it is finer than a jug is read: "1237 mL"."""
    ml = round(volume_l * 1000)
    return f"{ml} mL" if ml % STEP_ML else volume_text(volume_l)


def _volumes(
    ordered: Sequence[Batch],
    thinned: Sequence[float],
    kept: Callable[[float], int],
    joined: Sequence[bool] | None = None,
) -> list[_Volumes]:
    """Give each step's millilitres, reckoned from the weakest jug up.

    With ``joined``, which jugs keep for the next, they are as a jug is read.
    """
    step_ml = 1 if joined is None else STEP_ML
    found: list[_Volumes] = []
    needed, below = 0, 0.0
    for index in reversed(range(len(ordered))):
        litres_used, above = ordered[index].volume_l, thinned[index]
        use = math.ceil((litres_used * 1000 - 1e-6) / step_ml) * step_ml
        keep = kept(needed * below / above) if above > 0 else 0
        if joined is not None and not joined[index]:
            keep = 0
        found.append(_Volumes(use + keep, use, keep))
        needed, below = use + keep, above
    return found[::-1]


def _whole_ml(wanted_ml: float) -> int:
    """Round what is kept down, so that no jug comes out above its strength."""
    return math.floor(wanted_ml + _DUST)


def _told_ml(wanted_ml: float, *, fine_ml: int | None) -> int:
    """Round down to a step as told, unless that weakens the next jug by much."""
    whole = _whole_ml(wanted_ml)
    stepped = whole // STEP_ML * STEP_ML
    share = _WEAKER_SHARE if fine_ml is None else _FINER_SHARE
    if stepped >= (1 - share) * whole:
        return stepped
    return whole if fine_ml is None else max(whole // fine_ml * fine_ml, stepped, 1)


def _sentence(
    batch: Batch, ml: _Volumes, kept_ml: int, followed: str | None, of_water: str
) -> str:
    return _step(begins=not kept_ml, ends=followed is None).format(
        name=batch.letter,
        strength=batch.strength_ppm_n,
        mix=litres(ml.mix / 1000),
        use=litres(ml.use / 1000),
        keep=litres(ml.keep / 1000),
        kept=litres(kept_ml / 1000),
        water=litres((ml.mix - kept_ml) / 1000),
        of_water=of_water,
        followed=followed,
    )


def _step(*, begins: bool, ends: bool) -> str:
    """Give the sentence of a jug by where it stands in the ladder."""
    if begins and ends:
        return tr("Mix {mix} at {strength} ppm N in jug {name} and use all of it.")
    if begins:
        return tr(
            "Mix {mix} at {strength} ppm N in jug {name}, use {use} of "
            "it, and keep {keep} for jug {followed}."
        )
    if ends:
        return tr(
            "Pour the {kept} kept into jug {name}, add {water} of "
            "{of_water} to make {mix} at {strength} ppm N, and use all "
            "of it."
        )
    return tr(
        "Pour the {kept} kept into jug {name}, add {water} of "
        "{of_water} to make {mix} at {strength} ppm N, use {use} of "
        "it, and keep {keep} for jug {followed}."
    )
