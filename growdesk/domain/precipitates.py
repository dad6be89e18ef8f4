"""How near a solution is to dropping gypsum or a phosphate.

A saturation index is the log10 of the product of the free ions' activities over that of
the saturated solution: above 0 the solid falls out sooner or later. Pairs, acids and
activities are those of ``speciation``, which reaches to about 0.5 mol/L; beyond that
activities stay as they are there, far on the safe side for calcium sulphate.

Sources of the solubility products, log K at 25 °C. Gypsum: the U.S. Geological Survey's
``phreeqc.dat``, -4.58. Calcium hydrogen phosphate (brushite), CaHPO4.2H2O, -6.59;
magnesium hydrogen phosphate (newberyite), MgHPO4.3H2O, -5.80; magnesium ammonium
phosphate (struvite), -13.26: as geochemical tables have them, from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.ions import IONS
from growdesk.domain.speciation import settled

if TYPE_CHECKING:
    from collections.abc import Mapping

_LOG_K: Final = {
    "gypsum": -4.58,
    "brushite": -6.59,
    "newberyite": -5.80,
    "struvite": -13.26,
}
_HPO4_FROM_H2PO4: Final = -7.207
_PO4_FROM_HPO4: Final = -12.346


_MOST_HPO4_OF_ACID: Final = 1e-4
_MOST_PO4_PER_HPO4: Final = 10**-3.9


class Indices(Struct, frozen=True):
    """Saturation indices, minus infinity where an ion is missing; ``ph`` reckoned."""

    gypsum: float
    brushite: float
    newberyite: float
    struvite: float
    ph: float


def indices(ions_mol_per_l: Mapping[str, float]) -> Indices:
    """Give how near ions, told in moles per litre, are to falling out."""
    known = {ion: moles for ion, moles in ions_mol_per_l.items() if ion in IONS}
    solution = settled(known)
    calcium = solution.log_activity_of("Ca")
    magnesium = solution.log_activity_of("Mg")
    sulphate = solution.log_activity_of("SO4")
    ammonium = solution.log_activity_of("NH4")
    dihydrogen = solution.log_activity_of("H2PO4")
    hydrogen = dihydrogen + _HPO4_FROM_H2PO4 + solution.ph
    bare = hydrogen + _PO4_FROM_HPO4 + solution.ph
    return Indices(
        gypsum=calcium + sulphate - _LOG_K["gypsum"],
        brushite=calcium + hydrogen - _LOG_K["brushite"],
        newberyite=magnesium + hydrogen - _LOG_K["newberyite"],
        struvite=magnesium + ammonium + bare - _LOG_K["struvite"],
        ph=solution.ph,
    )


def far_below(ions_mol_per_l: Mapping[str, float]) -> bool:
    """Tell at a glance that nothing can fall out, so that nothing need be reckoned.

    Activities never exceed concentrations, and no more hydrogen phosphate stands in a
    feed than its alkalinity makes of the phosphate there is (and 0.1 mmol/L of its
    own), as long as it is no stronger than pH 8.4.
    """

    def of(ion: str) -> float:
        return ions_mol_per_l.get(ion, 0.0)

    alkaline = of("HCO3") + of("HPO4")
    phosphate = min(of("H2PO4") + of("HPO4"), alkaline + _MOST_HPO4_OF_ACID)
    products = {
        "gypsum": of("Ca") * of("SO4"),
        "brushite": of("Ca") * phosphate,
        "newberyite": of("Mg") * phosphate,
        "struvite": of("Mg") * of("NH4") * phosphate * _MOST_PO4_PER_HPO4,
    }
    return all(most <= 10 ** _LOG_K[name] for name, most in products.items())
