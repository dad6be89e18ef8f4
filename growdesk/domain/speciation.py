"""What ions become in one another's company: pairs, and the forms of weak acids.

Mass action with activities after Davies, closed to the air: bicarbonate keeps its
carbon dioxide. The solution finds its own acidity from the balance of charges, which is
what makes an acid phosphate's hydrogen ions, and the ammonia of an alkaline one, count.
Nothing precipitates here. Meant for feeds, up to 0.1 mol/L of ionic strength.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.ions import BASIS, IONS, MADE, WATER_LOG_K

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.ions import Made

_ACTIVITY: Final = 0.509
_FARTHEST_MOL_PER_L: Final = 0.5  # as far as Davies' form goes
_STEPS: Final = 60
_SWEEPS: Final = 60
_SETTLED: Final = 1e-7
_PH: Final = (1.0, 7.0, 13.0)
_PH_OF_BICARBONATE: Final = 8.34  # halfway between its two acids' constants
_WEAK: Final = frozenset({"H", "OH", "HCO3", "CO3", "H2PO4", "HPO4", "BH4O4"})


class Carrier(Struct, frozen=True):
    """One kind of ion or charged pair; conductivity per unit charge."""

    mol_per_l: float
    charge: int
    conductivity: float

    @property
    def equivalents(self) -> float:
        """Give the moles of charge in a litre."""
        return self.mol_per_l * abs(self.charge)


def carriers(ions_mol_per_l: Mapping[str, float]) -> tuple[list[Carrier], float]:
    """Give all that carries current, and the ionic strength in mol/L."""
    solution = _solved(ions_mol_per_l)
    return solution.carriers(), solution.strength


class Settled(Struct, frozen=True):
    """Ions in one another's company: what of each is free, in mol/L, and the pH.

    ``log_activity`` is of one charge; an ion of charge z has z² times as much.
    """

    free_mol_per_l: Mapping[str, float]
    ph: float
    log_activity: float

    def log_activity_of(self, ion: str) -> float:
        """Give the log10 of a basis ion's activity; minus infinity where it is none."""
        moles = self.free_mol_per_l.get(ion, 0.0)
        if moles <= 0:
            return -math.inf
        return math.log10(moles) + IONS[ion][0] ** 2 * self.log_activity


def settled(ions_mol_per_l: Mapping[str, float]) -> Settled:
    """Give what is free of the ions of the basis once pairs and acids have settled."""
    solution = _solved(ions_mol_per_l)
    return Settled(solution.free, solution.ph, -davies_log(solution.strength))


def _solved(ions_mol_per_l: Mapping[str, float]) -> _Solution:
    ions = {ion: moles for ion, moles in ions_mol_per_l.items() if moles > 0}
    solution = _Solution(ions)
    weak = _WEAK & set(ions)
    if weak == {"HCO3"} and "NH4" not in ions:
        solution.ph = _PH_OF_BICARBONATE
    elif weak:
        solution.find_acidity()
    solution.settle()
    return solution


class _Solution:
    """Totals of basis ions, and what of each is free at the acidity tried last."""

    def __init__(self, ions: Mapping[str, float]) -> None:
        self.totals: dict[str, float] = {}
        for ion, moles in ions.items():
            basis = BASIS[ion][0]
            if basis is not None:
                self.totals[basis] = self.totals.get(basis, 0.0) + moles
        self.made = [made for made in MADE if self.totals.keys() >= set(made.of)]
        self.free = dict(self.totals)
        self.strength = 0.5 * sum(n * IONS[ion][0] ** 2 for ion, n in ions.items())
        self.constants: list[float] = []
        self.ph = _PH[1]
        self.hydrogen = self.hydroxide = 1e-7
        self.uneven = sum(n * IONS[ion][0] for ion, n in ions.items())

    def find_acidity(self) -> None:
        """Settle at the pH where the charges are as even as they were put in.

        Newton's steps, halving what is left where one leads out of it.
        """
        low, high = _PH[0], _PH[2]
        for _ in range(_STEPS):
            self.settle()
            step = self._step()
            low, high = (self.ph, high) if step > 0 else (low, self.ph)
            if abs(step) <= _SETTLED:
                break
            tried = self.ph + step
            self.ph = tried if low < tried < high else (low + high) / 2

    def settle(self) -> None:
        """Sweep over the pairs at this pH until they stand still."""
        for _ in range(_SWEEPS):
            self._take_constants()
            before = self.free
            self.free = self._freed(self._freed(before, 1), -1)
            self._take_strength()
            if all(
                abs(self.free[ion] - moles) <= _SETTLED * moles
                for ion, moles in before.items()
            ):
                break

    def carriers(self) -> list[Carrier]:
        """Give the free ions, the charged pairs and forms, and the water's own."""
        found = [Carrier(n, *IONS[ion]) for ion, n in self.free.items()]
        found += [
            Carrier(self._moles(made, k), made.charge, made.conductivity)
            for made, k in zip(self.made, self.constants, strict=True)
            if made.charge
        ]
        if not found:
            return []
        found.append(Carrier(self.hydrogen, *IONS["H"]))
        found.append(Carrier(self.hydroxide, *IONS["OH"]))
        return found

    def _take_constants(self) -> None:
        """Turn constants of activities into constants of concentrations."""
        davies, ph = davies_log(self.strength), self.ph
        self.constants = [
            10.0 ** (made.log_k - made.protons * ph - davies * _squares(made))
            for made in self.made
        ]
        self.hydrogen = 10.0 ** (davies - ph)
        self.hydroxide = 10.0 ** (WATER_LOG_K + ph + davies)

    def _freed(self, free: Mapping[str, float], sign: int) -> dict[str, float]:
        """Give what is free of the ions of one sign, the others standing still."""
        bound = dict.fromkeys(free, 1.0)
        for made, k in zip(self.made, self.constants, strict=True):
            if len(made.of) == 1:
                bound[made.of[0]] += k
            else:
                one, other = made.of
                bound[one] += k * free[other]
                bound[other] += k * free[one]
        return {
            ion: self.totals[ion] / bound[ion] if IONS[ion][0] * sign > 0 else moles
            for ion, moles in free.items()
        }

    def _take_strength(self) -> None:
        total = sum(n * IONS[ion][0] ** 2 for ion, n in self.free.items())
        for made, k in zip(self.made, self.constants, strict=True):
            if made.charge:
                total += self._moles(made, k) * made.charge**2
        self.strength = 0.5 * (self.strength + 0.5 * (total + self.hydrogen))

    def _step(self) -> float:
        """Give Newton's step in pH towards even charges."""
        charge = sum(n * IONS[ion][0] for ion, n in self.free.items()) - self.uneven
        mean, square = dict.fromkeys(self.totals, 0.0), self.hydrogen + self.hydroxide
        for made, k in zip(self.made, self.constants, strict=True):
            moles = self._moles(made, k)
            charge += moles * made.charge
            square += moles * made.protons**2
            mean[made.of[-1]] += moles * made.protons
        charge += self.hydrogen - self.hydroxide
        buffer = square - sum(m * m / self.totals[ion] for ion, m in mean.items())
        return charge / (buffer * math.log(10))

    def _moles(self, made: Made, constant: float) -> float:
        moles = constant * self.free[made.of[0]]
        return moles if len(made.of) == 1 else moles * self.free[made.of[1]]


def davies_log(strength_mol_per_l: float) -> float:
    """Give the log10 of an activity for one charge, with its sign turned."""
    strength = min(strength_mol_per_l, _FARTHEST_MOL_PER_L)
    root = math.sqrt(strength)
    return _ACTIVITY * (root / (1 + root) - 0.3 * strength)


def _squares(made: Made) -> int:
    """Give how many times Davies' log stands in the constant: charges lost, squared."""
    before = sum(IONS[ion][0] ** 2 for ion in made.of)
    return before - made.charge**2
