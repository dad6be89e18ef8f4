"""Atoms, formulas and the oxides that labels are printed in.

Labels promise P2O5 and K2O, meters and plants know P and K. This module holds the
arithmetic between them and knows nothing of products, water or plants.

Source of the atomic masses: the abridged standard atomic weights of CIAAW (IUPAC);
written from memory and tested against the ``periodictable`` package.
"""

from __future__ import annotations

import re
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

ATOMIC_MASS_G_PER_MOL: Final[Mapping[str, float]] = {
    "H": 1.008,
    "B": 10.81,
    "C": 12.011,
    "N": 14.007,
    "O": 15.999,
    "Na": 22.990,
    "Mg": 24.305,
    "Al": 26.982,
    "Si": 28.085,
    "P": 30.974,
    "S": 32.06,
    "Cl": 35.45,
    "K": 39.098,
    "Ca": 40.078,
    "Mn": 54.938,
    "Fe": 55.845,
    "Co": 58.933,
    "Ni": 58.693,
    "Cu": 63.546,
    "Zn": 65.38,
    "Mo": 95.95,
}

ELEMENTS: Final = (
    "N P K Ca Mg S Fe Mn Zn Cu B Mo Na Cl Si Co Ni".split()  # noqa: SIM905 -- order
)
"""The elements a label may name, in the order in which they are shown."""

OXIDES: Final[Mapping[str, str]] = {
    "P2O5": "P",
    "PO4": "P",
    "H2PO4": "P",
    "K2O": "K",
    "MgO": "Mg",
    "CaO": "Ca",
    "CaCO3": "Ca",
    "SO3": "S",
    "SO4": "S",
    "NO3": "N",
    "NH4": "N",
    "Na2O": "Na",
    "SiO2": "Si",
    "FeO": "Fe",
    "Fe2O3": "Fe",
    "MnO": "Mn",
    "ZnO": "Zn",
    "CuO": "Cu",
    "B2O3": "B",
}
"""Oxides and ions that stand on labels, and the element each is counted as."""

LABEL_OXIDE: Final[Mapping[str, str]] = {
    "P": "P2O5",
    "K": "K2O",
    "Ca": "CaO",
    "Mg": "MgO",
    "S": "SO3",
}
"""The oxide in which a label usually prints an element."""

_WORDS: Final = {
    "nitrogen": "N",
    "phosphorus": "P",
    "potassium": "K",
    "calcium": "Ca",
    "magnesium": "Mg",
    "sulfur": "S",
    "sulphur": "S",
    "iron": "Fe",
    "manganese": "Mn",
    "zinc": "Zn",
    "copper": "Cu",
    "boron": "B",
    "molybdenum": "Mo",
}
_CANONICAL: Final = {name.lower(): name for name in (*ELEMENTS, *OXIDES)} | _WORDS
_TOKEN: Final = re.compile(r"([A-Z][a-z]?)|(\()|(\))|([0-9]+)")
_PART: Final = re.compile(r"([0-9]{0,3})(.+)")
_LONGEST_FORMULA: Final = 60
_COUNTS_KEPT: Final = 512
"""So many formulas are not taken apart again: all salts, for each jug of a day."""


def canonical_nutrient(name: str) -> str | None:
    """Give the usual spelling of an element or oxide, or None if it is not one.

    Letter case is forgiven ("p2o5", "CA"), nothing else is.
    """
    return _CANONICAL.get(name.lower())


def counts(formula: str, field: str = "formula") -> dict[str, int]:
    """Count the atoms of a formula such as ``Ca(NO3)2.4H2O``.

    A hydrate's dot may be typed as ``.``, ``·``, ``•`` or ``*``.
    """
    return dict(_counted(formula, field))


@lru_cache(_COUNTS_KEPT)
def _counted(formula: str, field: str) -> Mapping[str, int]:
    text = "".join(formula[: _LONGEST_FORMULA + 1].split())
    if not text or len(text) > _LONGEST_FORMULA:
        raise _unreadable(formula, field)
    total: dict[str, int] = {}
    for part in re.split(r"[.·•∙*]", text):
        matched = _PART.fullmatch(part)
        if matched is None or matched[1].startswith("0"):
            raise _unreadable(formula, field)
        times = int(matched[1] or 1)
        for symbol, count in _count_part(matched[2], formula, field).items():
            total[symbol] = total.get(symbol, 0) + times * count
    return total


def molar_mass_g_per_mol(formula: str, field: str = "formula") -> float:
    """Give the molar mass of a formula, in grams per mole."""
    atoms = counts(formula, field)
    return sum(ATOMIC_MASS_G_PER_MOL[symbol] * n for symbol, n in atoms.items())


def mass_fraction(formula: str, element: str) -> float:
    """Give the share of an element in a formula by mass, between 0 and 1."""
    atoms = counts(formula)
    mass = ATOMIC_MASS_G_PER_MOL[element] * atoms.get(element, 0)
    return mass / molar_mass_g_per_mol(formula)


@cache
def element_factor(nutrient: str) -> tuple[str, float]:
    """Give the element behind a name and the mass of it in one mass unit of the name.

    ``P2O5`` gives ``("P", 0.4364…)``, ``Ca`` gives ``("Ca", 1.0)``.
    """
    if nutrient in ELEMENTS:
        return nutrient, 1.0
    element = OXIDES[nutrient]
    return element, mass_fraction(nutrient, element)


def as_element(nutrient: str, amount: float) -> tuple[str, float]:
    """Turn an amount of an oxide (any unit of mass or strength) into its element."""
    element, factor = element_factor(nutrient)
    return element, amount * factor


def as_oxide(element: str, amount: float, oxide: str) -> float:
    """Turn an amount of an element into the same amount told as an oxide of it."""
    owner, factor = element_factor(oxide)
    if owner != element:
        raise InputError(
            "oxide", oxide, tr("does not hold {element}").format(element=element)
        )
    return amount / factor


def oxide_view(elements: Mapping[str, float]) -> dict[str, float]:
    """Give the same amounts in the oxides that labels print, where they print one."""
    return {
        oxide: as_oxide(element, elements[element], oxide)
        for element, oxide in LABEL_OXIDE.items()
        if element in elements
    }


def _count_part(part: str, formula: str, field: str) -> dict[str, int]:
    """Count the atoms of one part between dots; brackets may nest."""
    stack: list[dict[str, int]] = [{}]
    pending: dict[str, int] = {}
    at = 0
    while at < len(part):
        token = _TOKEN.match(part, at)
        if token is None:
            raise _unreadable(formula, field)
        symbol, opening, closing, digits = token.groups()
        times = int(digits[:4]) if digits else 1
        if (digits and (not pending or not times)) or (closing and len(stack) < 2):
            raise _unreadable(formula, field)
        _add(stack[-1], pending, times)
        pending = {}
        if symbol:
            pending = {_known_symbol(symbol, formula, field): 1}
        elif opening:
            stack.append({})
        elif closing:
            pending = stack.pop()
        at = token.end()
    _add(stack[-1], pending, 1)
    if len(stack) != 1 or not stack[0]:
        raise _unreadable(formula, field)
    return stack[0]


def _add(into: dict[str, int], atoms: Mapping[str, int], times: int) -> None:
    for symbol, count in atoms.items():
        into[symbol] = into.get(symbol, 0) + times * count


def _known_symbol(symbol: str, formula: str, field: str) -> str:
    if symbol in ATOMIC_MASS_G_PER_MOL:
        return symbol
    raise InputError(
        field,
        formula[:_LONGEST_FORMULA],
        tr("names {symbol}, which is no element known here").format(symbol=symbol),
        tr("Elements are written as in K, Ca, NO3."),
    )


def _unreadable(formula: str, field: str) -> InputError:
    return InputError(
        field,
        formula[:_LONGEST_FORMULA],
        tr("is not a formula that can be read"),
        tr("Write it as in KNO3 or Ca(NO3)2.4H2O."),
    )
