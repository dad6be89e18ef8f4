"""The ions that a label proves: the ends between which its salts can lie.

A label tells elements, not salts. Potassium, calcium and magnesium are there as ions,
phosphorus as acid phosphate, sulphur as sulphate; nitrogen as nitrate, ammonium or
urea, which does not conduct, in the shares told, or in any that even the charges. Only
what stays uneven is made up with what a label may leave out: hydrogen phosphate,
sulphate, chloride or sodium. No part weighs more than the whole. A feed that
shares out neither its nitrogen nor tells its sulphur and chloride may conduct more than
this; in amounts that matter they stand on labels.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.chemistry import ATOMIC_MASS_G_PER_MOL, molar_mass_g_per_mol
from growdesk.domain.ions import IONS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.analysis import Analysis

_AS_ION: Final = {"K": "K", "Ca": "Ca", "Mg": "Mg", "Na": "Na", "Cl": "Cl", "S": "SO4"}
_TRACES: Final = ("Fe", "Mn", "Zn", "Cu")
_UREA_G_PER_MOL_N: Final = molar_mass_g_per_mol("CO(NH2)2") / 2
_G_PER_MOL: Final = {ion: molar_mass_g_per_mol(ion) for ion in IONS}
_STEPS: Final = 20
_DUST: Final = 1e-6
_ROUNDED: Final = 1.02
"""The ions of a gram may come to so many grams, by what labels round; ours."""


class LabelIons(Struct, frozen=True):
    """Moles of ions in a gram of product, in each way that lies at an end.

    ``forms_told`` says that the label shares out all of its nitrogen.
    """

    ends: tuple[Mapping[str, float], ...]
    forms_told: bool


class _Nitrogen(Struct, frozen=True):
    """Moles in a gram of each form; ``free`` may be any of the forms ``open``."""

    nitrate: float
    ammonium: float
    urea: float
    free: float
    open: frozenset[str]


@lru_cache(maxsize=64)
def label_ions(analysis: Analysis) -> LabelIons:
    """Give what the label of a product proves of its ions."""
    nitrogen = _nitrogen(analysis)
    shared = list(_shared_out(_sure(analysis), nitrogen))
    light = [ions for ions, g in shared if g <= _ROUNDED] or [i for i, _ in shared]
    least = min(abs(_charge(ions)) for ions in light)
    even = [ions for ions in light if abs(_charge(ions)) <= least + _DUST]
    ends = [
        whole
        for ions in (min(even, key=_carries), max(even, key=_carries))
        for whole in _evened(ions)
    ]
    traced = [_with_traces(ions, analysis) for ions in ends]
    return LabelIons(
        ends=tuple(ends + [ions for ions in traced if ions not in ends]),
        forms_told=nitrogen.free <= _DUST,
    )


def _sure(analysis: Analysis) -> dict[str, float]:
    """Give the ions that are there whatever the salts, P as acid phosphate."""
    found: dict[str, float] = {}
    for element, percent in analysis.elements_percent().items():
        ion = "H2PO4" if element == "P" else _AS_ION.get(element)
        if ion:
            found[ion] = percent / 100 / ATOMIC_MASS_G_PER_MOL[element]
    return found


def _nitrogen(analysis: Analysis) -> _Nitrogen:
    per_percent = 1 / 100 / ATOMIC_MASS_G_PER_MOL["N"]
    told = analysis.nitrogen_forms_percent()
    left = analysis.n_percent - sum(told.values())
    untold = frozenset({"nitrate", "ammonium", "urea"} - set(told))
    if left <= 0.15 or not untold:  # labels round each share to a tenth
        left, untold = 0.0, frozenset()
    return _Nitrogen(
        nitrate=told.get("nitrate", 0.0) * per_percent,
        ammonium=told.get("ammonium", 0.0) * per_percent,
        urea=told.get("urea", 0.0) * per_percent,
        free=left * per_percent,
        open=untold,
    )


def _shared_out(
    sure: Mapping[str, float], nitrogen: _Nitrogen
) -> Iterator[tuple[dict[str, float], float]]:
    """Give ions and their mass for each share of the free nitrogen that is urea."""
    base = dict(sure)
    base["NO3"], base["NH4"] = nitrogen.nitrate, nitrogen.ammonium
    over = _charge(base)
    for urea in _ureas(nitrogen, over):
        salt = nitrogen.free - urea
        ammonium = min(max((salt - over) / 2, 0.0), salt)
        if "ammonium" not in nitrogen.open:
            ammonium = 0.0
        elif "nitrate" not in nitrogen.open:
            ammonium = salt
        ions = dict(base)
        ions["NH4"] += ammonium
        ions["NO3"] += salt - ammonium
        mass = sum(n * _G_PER_MOL[ion] for ion, n in ions.items())
        mass += (urea + nitrogen.urea) * _UREA_G_PER_MOL_N
        yield ions, mass


def _ureas(nitrogen: _Nitrogen, over: float) -> list[float]:
    """Give the amounts of urea to try, among them what leaves charges just even."""
    if "urea" not in nitrogen.open:
        return [0.0]
    if nitrogen.open == {"urea"}:
        return [nitrogen.free]
    even = max(nitrogen.free - abs(over), 0.0)
    return [even, *(nitrogen.free * step / _STEPS for step in range(_STEPS + 1))]


def _evened(ions: Mapping[str, float]) -> list[dict[str, float]]:
    """Give the ions with even charges, by each partner that a label may leave out."""
    uneven = _charge(ions)
    if abs(uneven) <= _DUST:
        return [dict(ions)]
    if uneven < 0:
        return [_joined(ions, "Na", -uneven)]
    found = [_joined(ions, "Cl", uneven), _joined(ions, "SO4", uneven)]
    turned = min(uneven, ions.get("H2PO4", 0.0))
    if turned and "Ca" not in ions:  # calcium would not stay dissolved with it
        whole = _joined(ions, "HPO4", 2 * turned)
        whole["H2PO4"] -= turned
        found.append(_joined(whole, "SO4", uneven - turned))
    return found


def _joined(ions: Mapping[str, float], ion: str, charges: float) -> dict[str, float]:
    moles = charges / abs(IONS[ion][0])
    return {**ions, ion: ions.get(ion, 0.0) + moles} if moles > 0 else dict(ions)


def _with_traces(ions: Mapping[str, float], analysis: Analysis) -> dict[str, float]:
    """Give the ions with traces as sulphates, which they are at the most."""
    found = dict(ions)
    held = analysis.elements_percent()
    for element in _TRACES:
        moles = held.get(element, 0.0) / 100 / ATOMIC_MASS_G_PER_MOL[element]
        if moles > 0:
            found[element] = moles
            found["SO4"] = found.get("SO4", 0.0) + moles
    return found


def _charge(ions: Mapping[str, float]) -> float:
    return sum(moles * IONS[ion][0] for ion, moles in ions.items())


def _carries(ions: Mapping[str, float]) -> float:
    """Give what the ions carry at infinite dilution, to tell more from less."""
    return sum(n * abs(IONS[ion][0]) * IONS[ion][1] for ion, n in ions.items())
