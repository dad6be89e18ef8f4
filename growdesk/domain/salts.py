"""Which ions a salt gives to water, and the amounts a person asks about.

A salt is a row of data. Urea and boric acid are in the table because feeds hold them;
they give no ions. Borax gives half its boron as boric acid. Gypsum and the like are
taken as dissolved: whether they do is not asked here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import speech
from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Shown
from growdesk.domain.speech import mark, tr
from growdesk.domain.water_analysis import CONSERVED, WaterAnalysis

SALTS: Final[Mapping[str, Mapping[str, int]]] = {
    "KNO3": {"K": 1, "NO3": 1},
    "Ca(NO3)2.4H2O": {"Ca": 1, "NO3": 2},
    "Ca(NO3)2": {"Ca": 1, "NO3": 2},
    "5Ca(NO3)2.NH4NO3.10H2O": {"Ca": 5, "NH4": 1, "NO3": 11},
    "NH4NO3": {"NH4": 1, "NO3": 1},
    "(NH4)2SO4": {"NH4": 2, "SO4": 1},
    "NH4H2PO4": {"NH4": 1, "H2PO4": 1},
    "(NH4)2HPO4": {"NH4": 2, "HPO4": 1},
    "NH4Cl": {"NH4": 1, "Cl": 1},
    "KH2PO4": {"K": 1, "H2PO4": 1},
    "K2HPO4": {"K": 2, "HPO4": 1},
    "K2SO4": {"K": 2, "SO4": 1},
    "KCl": {"K": 1, "Cl": 1},
    "K2SO4.2MgSO4": {"K": 2, "Mg": 2, "SO4": 3},
    "K2SO4.MgSO4.6H2O": {"K": 2, "Mg": 1, "SO4": 2},
    "KHCO3": {"K": 1, "HCO3": 1},
    "K2CO3": {"K": 2, "CO3": 1},
    "MgSO4.7H2O": {"Mg": 1, "SO4": 1},
    "MgSO4.H2O": {"Mg": 1, "SO4": 1},
    "MgSO4": {"Mg": 1, "SO4": 1},
    "Mg(NO3)2.6H2O": {"Mg": 1, "NO3": 2},
    "Mg(NO3)2": {"Mg": 1, "NO3": 2},
    "MgCl2.6H2O": {"Mg": 1, "Cl": 2},
    "MgCl2": {"Mg": 1, "Cl": 2},
    "CaCl2.2H2O": {"Ca": 1, "Cl": 2},
    "CaCl2": {"Ca": 1, "Cl": 2},
    "CaSO4.2H2O": {"Ca": 1, "SO4": 1},
    "Ca(H2PO4)2.H2O": {"Ca": 1, "H2PO4": 2},
    "Ca(H2PO4)2": {"Ca": 1, "H2PO4": 2},
    "NaCl": {"Na": 1, "Cl": 1},
    "NaNO3": {"Na": 1, "NO3": 1},
    "NaHCO3": {"Na": 1, "HCO3": 1},
    "Na2SO4": {"Na": 2, "SO4": 1},
    "FeSO4.7H2O": {"Fe": 1, "SO4": 1},
    "MnSO4.H2O": {"Mn": 1, "SO4": 1},
    "MnSO4.4H2O": {"Mn": 1, "SO4": 1},
    "ZnSO4.7H2O": {"Zn": 1, "SO4": 1},
    "ZnSO4.H2O": {"Zn": 1, "SO4": 1},
    "CuSO4.5H2O": {"Cu": 1, "SO4": 1},
    "Na2MoO4.2H2O": {"Na": 2, "MoO4": 1},
    "Na2B4O7.10H2O": {"Na": 2, "BH4O4": 2},
    "H3BO3": {},
    "CO(NH2)2.H3PO4": {"H": 1, "H2PO4": 1},
    "CO(NH2)2": {},
}
"""Formula to ions per formula unit."""

_BY_TYPED: Final = {formula.lower(): formula for formula in SALTS}
_KEYS: Final = ("water_ec_ms_per_cm", "temperature_c", "salts_g_per_l", "water")
_MOST_IN_WATER_MG_PER_L: Final = 5000
_WATER_EXAMPLE: Final = mark('Write {"ca_mg_per_l": 40, "alkalinity_mg_per_l": 120}.')
SALTS_EXAMPLE: Final = '{"temperature_c": 25, "salts_g_per_l": {"KNO3": 0.5}}'


class SaltsInWater(Struct, frozen=True):
    """Grams of each salt in a litre of solution, with the water's own EC at 25 °C.

    ``water`` is there where any of its ions are told; it holds that EC then.
    """

    salts_g_per_l: tuple[tuple[str, float], ...]
    water_ec_ms_per_cm: float = 0.0
    temperature_c: float = 25.0
    water: WaterAnalysis | None = None

    def ions_mol_per_l(self) -> dict[str, float]:
        """Give the moles of each ion the salts bring to a litre; not the water's."""
        found: dict[str, float] = {}
        for formula, grams in self.salts_g_per_l:
            moles = grams / molar_mass_g_per_mol(formula)
            for ion, count in SALTS[formula].items():
                found[ion] = found.get(ion, 0.0) + count * moles
        return found


def parse_salts(data: object) -> SaltsInWater:
    """Give the salts told by a JSON value of ``growdesk ec``; ions are not read."""
    if not isinstance(data, Mapping):
        raise InputError(
            "salts",
            _cut(data),
            tr("is not a table of salts"),
            tr("Write {salts_example}.").format(salts_example=SALTS_EXAMPLE),
        )
    for key in data:
        if key not in _KEYS:
            raise InputError(
                str(key)[:40],
                _cut(data[key]),
                tr("is under a key that is not known here"),
                tr("Known are {list}.").format(list=", ".join(_KEYS)),
            )
    salts = data.get("salts_g_per_l")
    if not isinstance(salts, Mapping):
        raise InputError(
            "salts_g_per_l",
            _cut(salts),
            tr("is not a table of grams per litre"),
            tr("Write {salts_example}.").format(salts_example=SALTS_EXAMPLE),
        )
    ec = _optional(data, "water_ec_ms_per_cm", 20)
    temperature = _optional(data, "temperature_c", 60)
    return SaltsInWater(
        salts_g_per_l=_amounts(salts),
        water_ec_ms_per_cm=ec or 0.0,
        temperature_c=25.0 if temperature is None else temperature,
        water=_water(data.get("water"), ec),
    )


def known_formula(typed: str, field: str = "salts_g_per_l") -> str:
    """Give a known salt's formula as it is spelled here, or say which are known."""
    plain = "".join(typed[:60].split()).translate(str.maketrans("·•∙*", "...."))
    formula = _BY_TYPED.get(plain.lower())
    if formula is None:
        raise InputError(
            field,
            _cut(typed),
            tr("is a salt that is not known here"),
            tr("Known are {list}.").format(list=", ".join(SALTS)),
        )
    return formula


def _amounts(salts: Mapping[object, object]) -> tuple[tuple[str, float], ...]:
    found: dict[str, float] = {}
    for typed, grams in salts.items():
        formula = known_formula(str(typed))
        if formula in found:
            raise InputError(
                "salts_g_per_l", formula, tr("is named twice"), tr("Add the two up.")
            )
        found[formula] = _number(formula, grams, 0, 500)
    return tuple(found.items())


def _water(data: object, ec_ms_per_cm: float | None) -> WaterAnalysis | None:
    """Give the water whose ions are told; None where none is."""
    if data is None:
        return None
    if not isinstance(data, Mapping):
        raise InputError("water", _cut(data), tr("is not a table"), tr(_WATER_EXAMPLE))
    for key in data:
        if key not in CONSERVED:
            raise InputError(
                f"water.{str(key)[:40]}",
                _cut(data[key]),
                tr("is under a key that is not known here"),
                tr("Known are {list}.").format(list=", ".join(CONSERVED)),
            )
    told: dict[str, Any] = {
        key: _number(f"water.{key}", amount, 0, _MOST_IN_WATER_MG_PER_L)
        for key, amount in data.items()
        if amount is not None
    }
    if not told:
        return None
    return replace(WaterAnalysis(ec_ms_per_cm=ec_ms_per_cm), **told)


def _optional(data: Mapping[str, object], key: str, most: float) -> float | None:
    value = data.get(key)
    return None if value is None else _number(key, value, 0, most)


def _number(field: str, value: object, least: float, most: float) -> float:
    hint = tr("Write a number from {least} to {most}.").format(
        least=speech.plain(least), most=speech.plain(most)
    )
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise InputError(field, _cut(value), tr("is not a number"), hint)
    if not (least <= value <= most) or not math.isfinite(value):
        raise InputError(field, _cut(value), tr("is outside what is taken here"), hint)
    return float(value)


def _cut(value: object) -> object:
    """Give the value as an error may repeat it, cut short if it is long."""
    if isinstance(value, float):
        return value
    if isinstance(value, int) and not isinstance(value, bool):
        return value if abs(value) < 10**20 else tr("a huge number")
    if isinstance(value, str):
        return value if len(value) <= 60 else f"{value[:40]}…"
    return Shown(value)
