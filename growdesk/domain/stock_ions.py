"""The ions that products bring to a litre of stock, and the water left between them.

A single salt brings the ions of its formula. A product known only by its label brings
its elements as the ions they usually come in: sulphur as sulphate, phosphorus as
dihydrogen phosphate, nitrogen as the label's nitrate and ammonium.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.chemistry import ATOMIC_MASS_G_PER_MOL, molar_mass_g_per_mol
from growdesk.domain.ions import IONS
from growdesk.domain.salts import SALTS
from growdesk.domain.solubility import ROOM_ML_PER_G, dissolved
from growdesk.domain.water_ions import told_meq

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from growdesk.domain.product import Product
    from growdesk.domain.solubility import Salt
    from growdesk.domain.water_analysis import WaterAnalysis

Parts = tuple[tuple["Product", float], ...]
"""Products with their grams in a litre."""

_OF_ELEMENT: Final = {
    "K": "K",
    "Ca": "Ca",
    "Mg": "Mg",
    "Na": "Na",
    "Fe": "Fe",
    "S": "SO4",
    "P": "H2PO4",
    "Cl": "Cl",
}
_OF_FORM: Final = {"nitrate": "NO3", "ammonium": "NH4"}

Ions = dict[str, float]


def known_salts(product: Product, salts: Mapping[str, Salt]) -> tuple[str, ...]:
    """Give the table's salts that a product is made of; none where it is not known."""
    if product.formula is None:
        return ()
    found = tuple(bare for bare, _ in dissolved(product.formula))
    return found if all(bare in salts for bare in found) else ()


def ions_of(product: Product, grams: float, salts: Mapping[str, Salt]) -> Ions:
    """Give the moles of each ion that some grams of a product bring."""
    if product.formula is None:
        return _by_label(product, grams)
    if not known_salts(product, salts):
        return _by_formula(product.formula, grams) or _by_label(product, grams)
    found: Ions = {}
    for bare, share in dissolved(product.formula):
        moles = grams * share / molar_mass_g_per_mol(bare)
        for ion, count in salts[bare].ions:
            found[ion] = found.get(ion, 0.0) + count * moles
    return found


def ions_of_all(parts: Parts, salts: Mapping[str, Salt]) -> Ions:
    """Give the moles of each ion in a litre of several products."""
    return added(ions_of(product, grams, salts) for product, grams in parts)


def ions_of_water(water: WaterAnalysis) -> Ions:
    """Give the moles of each ion known of a water, its alkalinity as bicarbonate.

    A hardness that alone is told counts as calcium and magnesium, as for its EC.
    """
    return {
        ion: meq / abs(IONS[ion][0]) / 1000
        for ion, meq in told_meq(water).items()
        if meq > 0
    }


def added(several: Iterable[Mapping[str, float]]) -> Ions:
    """Add up moles of ions."""
    total: Ions = {}
    for each in several:
        for ion, moles in each.items():
            total[ion] = total.get(ion, 0.0) + moles
    return total


def water_kg_per_l(parts: Parts, salts: Mapping[str, Salt]) -> float:
    """Give the water in a litre filled up to the mark, crystal water counted in.

    0 or less where so much does not go into a litre at all.
    """
    taken_ml = 0.0
    for product, grams in parts:
        if product.formula is None or not known_salts(product, salts):
            taken_ml += grams * ROOM_ML_PER_G
            continue
        for bare, share in dissolved(product.formula):
            taken_ml += grams * share * salts[bare].room_ml_per_g
    return (1000 - taken_ml) / 1000


def _by_formula(formula: str, grams: float) -> Ions:
    """Give the ions of a salt whose solubility is not known, but its ions are."""
    moles = grams / molar_mass_g_per_mol(formula)
    return {ion: count * moles for ion, count in SALTS.get(formula, {}).items()}


def _by_label(product: Product, grams: float) -> Ions:
    percent = product.analysis.elements_percent()
    found = {
        ion: grams * percent[element] / 100 / ATOMIC_MASS_G_PER_MOL[element]
        for element, ion in _OF_ELEMENT.items()
        if percent.get(element)
    }
    for form, share in product.analysis.nitrogen_forms_percent().items():
        if form in _OF_FORM and share:
            moles = grams * share / 100 / ATOMIC_MASS_G_PER_MOL["N"]
            found[_OF_FORM[form]] = moles
    return found
