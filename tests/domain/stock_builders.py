"""Products, waters and rooms of the tests of stock solutions."""

from __future__ import annotations

from growdesk import assets
from growdesk.domain.analysis import Analysis, parse_analysis
from growdesk.domain.product import Product
from growdesk.domain.solubility import Room, parse_solubilities

SALTS = parse_solubilities(assets.read_text("solubility.csv"))

_SALT_LABELS = {
    "KNO3": "13.8-0-46.6",
    "Ca(NO3)2.4H2O": "11.8-0-0 + 17 Ca",
    "5Ca(NO3)2.NH4NO3.10H2O": "15.5-0-0 + 19 Ca",
    "(NH4)2SO4": "21.2-0-0 + 24.2 S",
    "NH4H2PO4": "12.2-61.7-0",
    "(NH4)2HPO4": "21.2-53.7-0",
    "KH2PO4": "0-52.2-34.6",
    "K2SO4": "0-0-54 + 18.4 S",
    "KCl": "0-0-63.2",
    "MgSO4.7H2O": "0-0-0 + 9.9 Mg + 13 S",
    "CO(NH2)2": "46.6-0-0",
    "CaCl2.2H2O": "0-0-0 + 27.3 Ca + 48.2 Cl",
    "CaSO4.2H2O": "0-0-0 + 23.3 Ca + 18.6 S",
    "FeSO4.7H2O": "0-0-0 + 20.1 Fe + 11.5 S",
}


def salt(formula: str, name: str = "", key: int | None = None) -> Product:
    """Give a pure salt as a product."""
    analysis = parse_analysis(_SALT_LABELS[formula])
    return Product(name or formula, analysis, formula=formula, key=key)


def label(name: str, analysis: str, key: int | None = None) -> Product:
    """Give a product known by its label alone."""
    return Product(name, parse_analysis(analysis), key=key)


def nitrogen(percent: float) -> Product:
    """Give a feed of which only its nitrogen matters."""
    return Product(f"{percent:g} % N", Analysis(percent, 0.0, 0.0))


def room(coolest_c: float = 15.0, share: float = 0.8) -> Room:
    """Give a room in which stocks stand."""
    return Room(SALTS, coolest_c, share)
