"""The conductivity at 25 °C of known salts in water.

Each ion has a conductivity at infinite dilution; in company it loses some of it, by
the drag of its cloud of counter-ions and by the counter-flow of water. Both are taken
after Debye, Hückel and Onsager in the form for ions of finite size (Falkenhagen), with
the mean of the counter-ions' mobility in a mixture, which for a single salt is the
exact form. Sulphate pairs with magnesium, calcium and, weakly, with potassium, sodium
and ammonium, by mass action with Davies activities; an uncharged pair does not conduct.

Sources. Conductivities at infinite dilution: CRC Handbook of Chemistry and Physics,
"Ionic conductivity and diffusion at infinite dilution" (Ca read there; the others from
memory). H2PO4 is printed from 32 to 36 and taken as 33. Association constants: as
common geochemical tables have them, from memory; MgSO4 is printed from 2.2 to 2.4 (log
K) and taken as 2.2, which fits measured conductivities. The size parameter 1.15
L^½ mol^-½ (3.5 Å) was chosen here. Meant for ionic strengths up to 0.1 mol/L.

The bicarbonate and phosphates are taken as the ions of their names; the water's own EC
is added as it is. Products known only by their label are not known here.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.salts import SaltsInWater

IONS: Final[Mapping[str, tuple[int, float]]] = {
    "K": (1, 73.48),
    "Na": (1, 50.08),
    "NH4": (1, 73.5),
    "Ca": (2, 59.47),
    "Mg": (2, 53.0),
    "NO3": (-1, 71.42),
    "Cl": (-1, 76.31),
    "SO4": (-2, 80.0),
    "HCO3": (-1, 44.5),
    "H2PO4": (-1, 33.0),
    "HPO4": (-2, 57.0),
}
"""Charge, and conductivity at infinite dilution per unit charge, S cm2/mol, 25 °C."""

PAIRS: Final[Mapping[tuple[str, str], float]] = {
    ("Mg", "SO4"): 2.20,
    ("Ca", "SO4"): 2.30,
    ("K", "SO4"): 0.85,
    ("Na", "SO4"): 0.70,
    ("NH4", "SO4"): 0.85,
}
"""Cation, anion and log10 of their association constant at 25 °C."""

CHANGE_PER_DEGREE: Final = 0.02
COMPENSATION_MEANS: Final = (
    "Conductivity is told at 25 °C; it is taken to change by 2 % per degree."
)
_SIZE: Final = 1.15
_DRAG: Final = 0.7852
_COUNTERFLOW: Final = 30.3
_ACTIVITY: Final = 0.509
_PAIR_SHARE: Final = 0.5
_STRONGEST_MOL_PER_L: Final = 0.1


@dataclass(frozen=True, slots=True)
class Prediction:
    """The EC to expect at 25 °C and at the solution's own temperature.

    ``ions_mmol_per_l`` is what the salts bring, pairs counted as their ions; the
    water's own ions are in the EC only. ``notes`` are whole sentences.
    """

    ec_ms_per_cm: float
    ec_at_temperature_ms_per_cm: float
    temperature_c: float
    ions_mmol_per_l: Mapping[str, float]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Carrier:
    """One kind of ion or charged pair that carries current."""

    mol_per_l: float
    charge: int
    conductivity: float

    @property
    def equivalents(self) -> float:
        return self.mol_per_l * abs(self.charge)


def predict(mix: SaltsInWater) -> Prediction:
    """Give the EC of the salts in their water, with the water's own EC added."""
    ions = mix.ions_mol_per_l()
    ec = conductivity_ms_per_cm(ions) + mix.water_ec_ms_per_cm
    notes: list[str] = []
    if ionic_strength_mol_per_l(ions) > _STRONGEST_MOL_PER_L:
        notes.append(
            "This is stronger than the method is meant for; the true EC may differ "
            "by more than a tenth."
        )
    return Prediction(
        ec_ms_per_cm=ec,
        ec_at_temperature_ms_per_cm=at_temperature(ec, mix.temperature_c),
        temperature_c=mix.temperature_c,
        ions_mmol_per_l={ion: 1000 * moles for ion, moles in ions.items()},
        notes=tuple(notes),
    )


def conductivity_ms_per_cm(ions_mol_per_l: Mapping[str, float]) -> float:
    """Give the conductivity at 25 °C of ions told in moles per litre, in mS/cm."""
    ions = {ion: moles for ion, moles in ions_mol_per_l.items() if moles > 0}
    carriers, strength = _carriers(ions)
    positive = [carrier for carrier in carriers if carrier.charge > 0]
    negative = [carrier for carrier in carriers if carrier.charge < 0]
    if not positive or not negative:
        return 0.0
    plus, minus = _mean(positive), _mean(negative)
    mobility = _mobility_share(plus, minus)
    return sum(
        carrier.equivalents * _slowed(carrier, opposite, mobility, strength)
        for side, opposite in ((positive, minus[1]), (negative, plus[1]))
        for carrier in side
    )


def at_temperature(ec_at_25_ms_per_cm: float, temperature_c: float) -> float:
    """Give an EC at 25 °C as it would read uncompensated at another temperature."""
    return ec_at_25_ms_per_cm * _compensation(temperature_c)


def at_25(ec_ms_per_cm: float, temperature_c: float) -> float:
    """Give an uncompensated reading as it would be at 25 °C."""
    return ec_ms_per_cm / _compensation(temperature_c)


def ionic_strength_mol_per_l(ions_mol_per_l: Mapping[str, float]) -> float:
    """Give half the sum of concentration times charge squared."""
    return 0.5 * sum(moles * IONS[ion][0] ** 2 for ion, moles in ions_mol_per_l.items())


def ec_report(predicted: Prediction) -> dict[str, object]:
    """Give the prediction under the fixed keys of ``growdesk ec --json``."""
    return {
        "ec_ms_per_cm": round(predicted.ec_ms_per_cm, 4),
        "ec_at_temperature_ms_per_cm": round(predicted.ec_at_temperature_ms_per_cm, 4),
        "temperature_c": predicted.temperature_c,
        "ions_mmol_per_l": {
            ion: round(amount, 6) for ion, amount in predicted.ions_mmol_per_l.items()
        },
        "notes": list(predicted.notes),
    }


def _compensation(temperature_c: float) -> float:
    if not math.isfinite(temperature_c) or not 0 <= temperature_c <= 60:
        raise InputError(
            "temperature_c",
            temperature_c,
            "is not a temperature of a solution",
            "Write a number from 0 to 60.",
        )
    return 1 + CHANGE_PER_DEGREE * (temperature_c - 25)


def _mean(side: list[_Carrier]) -> tuple[float, float]:
    """Give mean conductivity and mean charge of one sign, by equivalents."""
    total = sum(carrier.equivalents for carrier in side)
    conductivity = sum(c.equivalents * c.conductivity for c in side) / total
    charge = sum(c.equivalents * abs(c.charge) for c in side) / total
    return conductivity, charge


def _mobility_share(plus: tuple[float, float], minus: tuple[float, float]) -> float:
    """Give Onsager's q: ½ for a symmetric salt."""
    (conductivity_plus, z_plus), (conductivity_minus, z_minus) = plus, minus
    share = z_plus * z_minus / (z_plus + z_minus)
    return (
        share
        * (conductivity_plus + conductivity_minus)
        / (z_minus * conductivity_plus + z_plus * conductivity_minus)
    )


def _slowed(
    carrier: _Carrier, opposite_charge: float, q: float, strength_mol_per_l: float
) -> float:
    """Give what is left of an ion's conductivity per unit charge; never below 0."""
    charge = abs(carrier.charge)
    root, root_q = math.sqrt(strength_mol_per_l), math.sqrt(q)
    size = 1 + _SIZE * root
    drag = _DRAG * charge * opposite_charge * q / (1 + root_q)
    dragged = 1 - drag * root / (size * (1 + _SIZE * root_q * root))
    left = carrier.conductivity - _COUNTERFLOW * charge * root / size
    return max(left, 0.0) * max(dragged, 0.0)


def _carriers(ions: Mapping[str, float]) -> tuple[list[_Carrier], float]:
    """Give the free ions and charged pairs, and the ionic strength they make."""
    bound = {pair: log_k for pair, log_k in PAIRS.items() if set(pair) <= set(ions)}
    free, strength = dict(ions), ionic_strength_mol_per_l(ions)
    constants: dict[tuple[str, str], float] = {}
    for _ in range(200):
        constants = {pair: _constant(pair, k, strength) for pair, k in bound.items()}
        new = {ion: _freed(ion, ions, free, constants) for ion in ions}
        moved = max((abs(new[i] - free[i]) / ions[i] for i in ions), default=0.0)
        free = new
        strength = ionic_strength_mol_per_l(free) + 0.5 * sum(
            k * free[a] * free[b] * _pair_charge(a, b) ** 2
            for (a, b), k in constants.items()
        )
        if moved < 1e-12:
            break
    carriers = [_Carrier(free[ion], *IONS[ion]) for ion in ions]
    for (cation, anion), k in constants.items():
        charge = _pair_charge(cation, anion)
        if charge:
            conductivity = _PAIR_SHARE * IONS[anion][1]
            moles = k * free[cation] * free[anion]
            carriers.append(_Carrier(moles, charge, conductivity))
    return carriers, strength


def _freed(
    ion: str,
    ions: Mapping[str, float],
    free: Mapping[str, float],
    constants: Mapping[tuple[str, str], float],
) -> float:
    """Give half a step towards the unpaired part of an ion by mass action."""
    bound = sum(
        k * free[b if ion == a else a]
        for (a, b), k in constants.items()
        if ion in {a, b}
    )
    return 0.5 * (free[ion] + ions[ion] / (1 + bound))


def _pair_charge(cation: str, anion: str) -> int:
    return IONS[cation][0] + IONS[anion][0]


def _constant(pair: tuple[str, str], log_k: float, strength_mol_per_l: float) -> float:
    """Give the association constant in concentrations at this ionic strength."""
    cation, anion = pair
    squares = IONS[cation][0] ** 2 + IONS[anion][0] ** 2 - _pair_charge(*pair) ** 2
    strength = min(strength_mol_per_l, 0.5)  # as far as Davies' form goes
    root = math.sqrt(strength)
    davies = _ACTIVITY * (root / (1 + root) - 0.3 * strength)
    return float(10 ** (log_k - squares * davies))
