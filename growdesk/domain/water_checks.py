"""Whether what is told of one water fits together; what does not, in words' keys.

A slip of the unit shows here: ions that would conduct far more than the meter read,
calcium and magnesium that are not the hardness, charges that do not balance. Bands are
wide, since analyses are rounded and taken on different days: laboratories hold each
other to a tenth (Standard Methods for the Examination of Water and Wastewater, 1030 E,
from memory), here it is a fifth.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import mark, tr
from growdesk.domain.water_analysis import CONSERVED
from growdesk.domain.water_blend import charges_meq_per_l, ions_ms_per_cm
from growdesk.domain.water_ions import MG_CACO3_PER_MEQ
from growdesk.domain.water_limits import Weight, flag

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.domain.water_limits import Flag

BAND: Final = 0.20
SOURCE: Final = mark(
    "The idea of Standard Methods 1030 E (from memory) with a wider band: a fifth."
)
_LEAST_MG_PER_L: Final = 10.0
_LEAST_MS_PER_CM: Final = 0.05
_LEAST_MEQ_PER_L: Final = 0.5
"""Less than these apart is within what is printed and read; ours."""
_CATIONS: Final = frozenset({"Ca", "Mg", "Na"})
_MAIN: Final = _CATIONS | {"HCO3", "Cl", "SO4"}


def consistency(water: WaterAnalysis) -> tuple[Flag, ...]:
    """Give what in an analysis does not fit together; nothing for a sound one."""
    if all(getattr(water, field) is None for field in CONSERVED):
        return ()
    return (*_hardness(water), *_alone(water), *_charges(water), *_ec(water))


def _flag(key: str, **values: float | str) -> Flag:
    return flag(key, Weight.CARE, tr(SOURCE), **values)


def _hardness(water: WaterAnalysis) -> Iterator[Flag]:
    told = water.hardness_mg_per_l
    if told is None:
        return
    band = max(BAND * told, _LEAST_MG_PER_L)
    made = water.hardness_of_ions_mg_per_l()
    if made is not None and abs(made - told) > band:
        yield _flag("hardness-differs", hardness=told, made=made)
    elif made is None:
        ions = water.ions_mmol_per_l()
        for ion in ("Ca", "Mg"):
            alone = 2 * MG_CACO3_PER_MEQ * ions.get(ion, 0.0)
            if alone > told + band:
                yield _flag("hardness-too-small", hardness=told, ion=ion, made=alone)


def _alone(water: WaterAnalysis) -> Iterator[Flag]:
    """Tell alkalinity that has no cations to go with it, where all are known."""
    ions = water.ions_mmol_per_l()
    alkalinity = water.alkalinity_mg_per_l
    if alkalinity is None or not set(ions) >= _CATIONS:
        return
    plus, _minus = charges_meq_per_l(ions)
    meq = alkalinity / MG_CACO3_PER_MEQ
    if meq > (1 + BAND) * plus + _LEAST_MEQ_PER_L:
        yield _flag("alkalinity-alone", alkalinity=meq, cations=plus)


def _charges(water: WaterAnalysis) -> Iterator[Flag]:
    ions = water.ions_mmol_per_l()
    if not set(ions) >= _MAIN:
        return
    plus, minus = charges_meq_per_l(ions)
    if abs(plus - minus) > max(BAND * (plus + minus) / 2, _LEAST_MEQ_PER_L):
        if any(_alone(water)):
            return
        yield _flag("charges-differ", cations=plus, anions=minus)


def _ec(water: WaterAnalysis) -> Iterator[Flag]:
    """Tell ions that do not make the EC: more than it, or all told and far less."""
    read = water.ec_ms_per_cm
    if read is None:
        return
    ions = water.ions_mmol_per_l()
    band = max(BAND * read, _LEAST_MS_PER_CM)
    plus, minus = charges_meq_per_l(ions)
    # One side alone needs as much of the other: about 0.1 mS/cm for each meq/L.
    least = max(0.8 * max(plus, minus) / 10, ions_ms_per_cm(ions))
    if least > read + band:
        yield _flag("ec-too-small", ec=read, made=least)
    elif set(ions) >= _MAIN and ions_ms_per_cm(ions) < read - band:
        yield _flag("ec-too-large", ec=read, made=ions_ms_per_cm(ions))
