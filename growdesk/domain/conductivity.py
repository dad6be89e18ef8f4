"""The conductivity at 25 °C of known salts in water.

Each ion has a conductivity at infinite dilution (``ions``); in company it loses some
of it, by the drag of its cloud of counter-ions and by the counter-flow of water. Both
are taken after Debye, Hückel and Onsager in the form for ions of finite size
(Falkenhagen), with the mean of the counter-ions' mobility in a mixture, which for a
single salt is the exact form. What has paired, and how acid the solution is, comes
from ``speciation``; an uncharged pair does not conduct.

The size parameter 1.15 L^½ mol^-½ (3.5 Å) was chosen here. Meant for ionic strengths
up to 0.1 mol/L (``STRONGEST_MOL_PER_L``). Products are not known here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError
from growdesk.domain.ions import IONS
from growdesk.domain.speciation import Carrier, carriers
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

CHANGE_PER_DEGREE: Final = 0.02
STRONGEST_MOL_PER_L: Final = 0.1
_SIZE: Final = 1.15
_DRAG: Final = 0.7852
_COUNTERFLOW: Final = 30.3


def conductivity_ms_per_cm(ions_mol_per_l: Mapping[str, float]) -> float:
    """Give the conductivity at 25 °C of ions told in moles per litre, in mS/cm."""
    found, strength = carriers(ions_mol_per_l)
    positive = [carrier for carrier in found if carrier.charge > 0]
    negative = [carrier for carrier in found if carrier.charge < 0]
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


def _compensation(temperature_c: float) -> float:
    if not math.isfinite(temperature_c) or not 0 <= temperature_c <= 60:
        raise InputError(
            "temperature_c",
            temperature_c,
            tr("is not a temperature of a solution"),
            tr("Write a number from 0 to 60."),
        )
    return 1 + CHANGE_PER_DEGREE * (temperature_c - 25)


def _mean(side: list[Carrier]) -> tuple[float, float]:
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
    carrier: Carrier, opposite_charge: float, q: float, strength_mol_per_l: float
) -> float:
    """Give what is left of an ion's conductivity per unit charge; never below 0."""
    charge = abs(carrier.charge)
    root, root_q = math.sqrt(strength_mol_per_l), math.sqrt(q)
    size = 1 + _SIZE * root
    drag = _DRAG * charge * opposite_charge * q / (1 + root_q)
    dragged = 1 - drag * root / (size * (1 + _SIZE * root_q * root))
    left = carrier.conductivity - _COUNTERFLOW * charge * root / size
    return max(left, 0.0) * max(dragged, 0.0)
