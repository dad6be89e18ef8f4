"""The ions that feeds and waters hold: charge, conductivity, acids and pairs.

Rows of data at 25 °C; nothing is reckoned here. What gives or takes a proton, and what
pairs, is written as a combination of the ions of ``BASIS``.

Sources. Conductivities at infinite dilution: CRC Handbook of Chemistry and Physics,
"Ionic conductivity and diffusion at infinite dilution" (its cations and sulphate read,
the other anions from memory). Dihydrogen phosphate is printed from 32 (from the
diffusion coefficients of Landolt and others) to 36 (CRC), hydrogen phosphate from 52 to
57: 33 and 55 are taken, which lie between. Pairs that carry current: after the
diffusion coefficients of the U.S. Geological Survey's ``phreeqc.dat`` (3.1.7), where it
has one; those of ammonium and of the phosphates are by likeness. Acids and association
constants: the same file, which is read and differs little from other geochemical
tables. Two lie apart from it: MgSO4 is printed from 2.2 to 2.4 (log K; 2.37 there) and
taken as 2.25, as conductivities measured by Kohlrausch have it; the pair of ammonium
and sulphate, 1.1 there and without a conductivity, is taken as 1.0, since it conducts.
Borate, boric acid and molybdate: from memory.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

IONS: Final[Mapping[str, tuple[int, float]]] = {
    "H": (1, 349.65),
    "K": (1, 73.48),
    "Na": (1, 50.08),
    "NH4": (1, 73.5),
    "Ca": (2, 59.47),
    "Mg": (2, 53.0),
    "Fe": (2, 54.0),
    "Mn": (2, 53.5),
    "Zn": (2, 52.8),
    "Cu": (2, 53.6),
    "OH": (-1, 198.0),
    "NO3": (-1, 71.42),
    "Cl": (-1, 76.31),
    "SO4": (-2, 80.0),
    "HCO3": (-1, 44.5),
    "CO3": (-2, 69.3),
    "H2PO4": (-1, 33.0),
    "HPO4": (-2, 55.0),
    "MoO4": (-2, 74.5),
    "BH4O4": (-1, 36.0),
}
"""Charge, and conductivity at infinite dilution per unit charge, S cm2/mol, 25 °C."""

BASIS: Final[Mapping[str, tuple[str | None, int]]] = {
    **{ion: (ion, 0) for ion in IONS},
    "H": (None, 1),
    "OH": (None, -1),
    "CO3": ("HCO3", -1),
    "HPO4": ("H2PO4", -1),
}
"""Each ion as an ion of the basis and the protons it has more than that one."""

WATER_LOG_K: Final = -14.0


@dataclass(frozen=True, slots=True)
class Made:
    """What basis ions make together, with ``protons`` taken up (or given off, below 0).

    ``log_k`` is of its making at zero ionic strength; ``conductivity`` per unit charge.
    """

    of: tuple[str, ...]
    log_k: float
    protons: int = 0
    conductivity: float = 0.0
    charge: int = field(init=False)

    def __post_init__(self) -> None:
        charge = sum(IONS[ion][0] for ion in self.of) + self.protons
        object.__setattr__(self, "charge", charge)


MADE: Final[tuple[Made, ...]] = (
    Made(("H2PO4",), 2.168, 1),
    Made(("H2PO4",), -7.207, -1, IONS["HPO4"][1]),
    Made(("HCO3",), 6.352, 1),
    Made(("HCO3",), -10.329, -1, IONS["CO3"][1]),
    Made(("NH4",), -9.252, -1),
    Made(("SO4",), 1.988, 1, 50.0),
    Made(("BH4O4",), 9.24, 1),
    Made(("Mg", "SO4"), 2.25),
    Made(("Ca", "SO4"), 2.25),
    Made(("Fe", "SO4"), 2.25),
    Made(("Mn", "SO4"), 2.25),
    Made(("Zn", "SO4"), 2.37),
    Made(("Cu", "SO4"), 2.31),
    Made(("K", "SO4"), 0.85, 0, 28.0),
    Made(("Na", "SO4"), 0.70, 0, 23.2),
    Made(("NH4", "SO4"), 1.0, 0, 28.0),
    Made(("Ca", "H2PO4"), 1.408, 0, 17.0),
    Made(("Mg", "H2PO4"), 1.513, 0, 17.0),
    Made(("Ca", "H2PO4"), 2.739 - 7.207, -1),
    Made(("Mg", "H2PO4"), 2.870 - 7.207, -1),
    Made(("K", "H2PO4"), 0.29 - 7.207, -1, 22.0),
    Made(("Na", "H2PO4"), 0.29 - 7.207, -1, 22.0),
    Made(("Ca", "HCO3"), 1.106, 0, 19.0),
    Made(("Mg", "HCO3"), 1.070, 0, 18.0),
    Made(("Ca", "HCO3"), 3.224 - 10.329, -1),
    Made(("Mg", "HCO3"), 2.980 - 10.329, -1),
    Made(("Na", "HCO3"), 1.27 - 10.329, -1, 22.0),
)
"""Other forms of acids first, then pairs."""
