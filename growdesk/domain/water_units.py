"""Read what a water analysis says, in whichever of the usual units it says it.

Alkalinity and hardness come out as mg/L CaCO3, ions as mg/L of the ion. What is decided
here, and said on the screens:

* "mg/L" and "ppm" of alkalinity or hardness mean as CaCO3 (``CARBONATE_MEANS``).
* A mmol/L of hardness is of calcium and magnesium, so two meq/L; a mmol/L of alkalinity
  is of acid taken up (or of HCO3), so one.
* Nitrate is NO3 unless NO3-N is written (``NITRATE_MEANS``), sulphate SO4 unless SO4-S.
* Calcium and magnesium may be told as CaCO3 where that is written behind.
* "gpg" is a grain of CaCO3 in a US gallon, a degree Clark one in an imperial gallon.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain import speech
from growdesk.domain.chemistry import mass_fraction, molar_mass_g_per_mol
from growdesk.domain.errors import InputError
from growdesk.domain.ions import IONS
from growdesk.domain.speech import mark, tr
from growdesk.domain.typed_numbers import NUMBER, plain_text, read_number, shown
from growdesk.domain.units import Measure, dissolved
from growdesk.domain.water_ions import MG_CACO3_PER_MEQ

if TYPE_CHECKING:
    from collections.abc import Mapping

CARBONATE_MEANS: Final = mark("ppm and mg/L of alkalinity or hardness mean as CaCO3.")
NITRATE_MEANS: Final = mark(
    "mg/L of nitrate means NO3; write NO3-N where nitrogen is meant."
)

MG_HCO3_PER_MEQ: Final = molar_mass_g_per_mol("HCO3")

MOST_MG_PER_L: Final[Mapping[str, float]] = {
    "alkalinity": 2000,
    "hardness": 3000,
    "Ca": 1000,
    "Mg": 1000,
    "K": 1000,
    "Na": 5000,
    "Cl": 5000,
    "SO4": 5000,
    "NO3": 1000,
}
"""More than this is no water anybody pours on a plant; a slip of the unit."""

_TYPED: Final = re.compile(rf"({NUMBER})\s*(.*)")
_NAMES: Final = r"CaCO3|HCO3|CaO|NO3-?N|SO4-?S|N-NO3|Ca|Mg|Na|Cl|K|SO4|NO3|N|S"
_SOLUTE: Final = re.compile(
    rf"(?P<unit>.*?)(?:\s+|\s*\()(?:(?:as|als)\s+)?(?P<solute>{_NAMES})\)?",
    re.IGNORECASE,
)
_INSIDE: Final = re.compile(
    rf"(?P<part>[a-zµμ]+)\s+(?P<solute>{_NAMES})\s*(?P<per>(?:/|per\b).*)",
    re.IGNORECASE,
)
_CHARGES: Final = re.compile(r"mmol(?: ?\( ?[-+−] ?\)|_?c\b)", re.IGNORECASE)
"""Moles of charge, as soil laboratories write meq."""
_DEGREES: Final = {
    "german_degree": "dh d dgh gh kh dkh",
    "french_degree": "fh f th tac",
    "clark_degree": "e eh clark englishdegree",
    "grain_per_gallon": "gpg grains/gal grain/gal grains/gallon grains/usgal gr/gal",
}
_UNITS: Final = {
    word: unit for unit, words in _DEGREES.items() for word in words.split()
} | {"grains/impgal": "clark_degree", "grain/impgal": "clark_degree"}
_OF_ALKALINITY: Final = frozenset({"kh", "dkh", "tac"})
_OF_HARDNESS: Final = frozenset({"dgh", "gh", "th"})
_IN_CARBONATE: Final = {
    "caco3": 1.0,
    "cao": molar_mass_g_per_mol("CaCO3") / molar_mass_g_per_mol("CaO"),
}
_HCO3_AS_CACO3: Final = MG_CACO3_PER_MEQ / MG_HCO3_PER_MEQ
_CARBONATE_EXAMPLE: Final = mark('"120 mg/L CaCO3", "2.4 meq/L" or "7 °dH"')
_SPELLED: Final = {ion.lower(): ion for ion in MOST_MG_PER_L}


class _Typed(Struct, frozen=True):
    """A number, its unit in plain letters, and the solute named behind it."""

    number: float
    unit: str
    solute: str
    field: str
    text: str

    def refused(self, problem: str, hint: str) -> InputError:
        return InputError(self.field, shown(self.text), problem, hint)


def parse_alkalinity_mg_per_l(text: str, field: str = "alkalinity") -> float:
    """Give a typed alkalinity in mg/L CaCO3; °KH and mg/L HCO3 are taken too."""
    typed = _read(text, field, tr(_CARBONATE_EXAMPLE))
    if typed.unit in _OF_HARDNESS:
        raise typed.refused(
            tr("is a general hardness and says nothing of alkalinity"),
            tr(
                "Put it under hardness; alkalinity is often printed as °KH "
                "or mg/L HCO3."
            ),
        )
    scale = (
        _HCO3_AS_CACO3
        if typed.solute == "hco3"
        else _IN_CARBONATE.get(typed.solute or "caco3")
    )
    if scale is None:
        raise typed.refused(
            tr("is of {named}, not an alkalinity").format(named=_named(typed.solute)),
            tr("Write for instance {example}.").format(example=tr(_CARBONATE_EXAMPLE)),
        )
    value, measure = _measured(typed, tr(_CARBONATE_EXAMPLE))
    if measure is not Measure.MASS:
        acid = 2.0 if measure is Measure.MOLES and _is_divalent(typed) else 1.0
        value, scale = value * acid * MG_CACO3_PER_MEQ, 1.0
    return _in_range(value * scale, "alkalinity", typed)


def parse_hardness_mg_per_l(text: str, field: str = "hardness") -> float:
    """Give a typed total hardness in mg/L CaCO3."""
    typed = _read(text, field, tr(_CARBONATE_EXAMPLE))
    if typed.unit in _OF_ALKALINITY or typed.solute == "hco3":
        raise typed.refused(
            tr("is an alkalinity (carbonate hardness), not the total hardness"),
            tr("Put it under alkalinity; hardness counts calcium and magnesium."),
        )
    scale = _IN_CARBONATE.get(typed.solute or "caco3")
    if scale is None:
        raise typed.refused(
            tr("is of {named} alone, not the hardness").format(
                named=_named(typed.solute)
            ),
            tr("Put it under its own name; hardness counts calcium and magnesium."),
        )
    value, measure = _measured(typed, tr(_CARBONATE_EXAMPLE))
    if measure is not Measure.MASS:
        per = 2.0 if measure is Measure.MOLES else 1.0
        value, scale = value * per * MG_CACO3_PER_MEQ, 1.0
    return _in_range(value * scale, "hardness", typed)


def parse_ion_mg_per_l(text: str, ion: str, field: str = "") -> float:
    """Give a typed amount of an ion in mg/L of it; a bare number is mg/L.

    ``ion`` is one of Ca, Mg, K, Na, Cl, SO4, NO3.
    """
    example = tr('"12 mg/L" or "0.5 mmol/L" of {ion}').format(ion=ion)
    bare = bool(re.fullmatch(NUMBER, plain_text(text, field or ion)))
    typed = _read(f"{text} mg/L" if bare else text, field or ion, example)
    scale = _ion_scale(typed, ion, example)
    value, measure = _measured(typed, example)
    if measure is Measure.CHARGE:
        if typed.unit in _UNITS:
            raise typed.refused(
                tr("is a hardness, not an amount of an ion"),
                tr("Write {example}.").format(example=example),
            )
        value *= molar_mass_g_per_mol(ion) / abs(IONS[ion][0])
        scale = 1.0
    elif measure is Measure.MOLES:
        value, scale = value * molar_mass_g_per_mol(ion), 1.0
    return _in_range(value * scale, ion, typed)


def _ion_scale(typed: _Typed, ion: str, example: str) -> float:
    """Give what a mg of the solute named is in mg of the ion."""
    solute = typed.solute.replace("-", "")
    if solute in {"", ion.lower()}:
        return 1.0
    if ion in {"Ca", "Mg"} and solute == "caco3":
        return molar_mass_g_per_mol(ion) / molar_mass_g_per_mol("CaCO3")
    if ion == "NO3" and solute in {"no3n", "nno3", "n"}:
        return 1 / mass_fraction("NO3", "N")
    if ion == "SO4" and solute in {"so4s", "s"}:
        return 1 / mass_fraction("SO4", "S")
    raise typed.refused(
        tr("is of {named}, not of {ion}").format(named=_named(typed.solute), ion=ion),
        tr("Write {example}.").format(example=example),
    )


def _read(text: str, field: str, example: str) -> _Typed:
    clean = plain_text(text, field)
    matched = _TYPED.fullmatch(clean)
    hint = tr("Write for instance {example}.").format(example=example)
    if clean[:1] in {"<", "≤"}:
        problem = tr("is the least that was looked for, not an amount")
        away = tr("Write 0 where so little does not matter, or leave it empty.")
        raise InputError(field, shown(text), problem, away)
    if matched is None:
        problem = tr("is not an amount in water") if clean else tr("is empty")
        raise InputError(field, shown(text), problem, hint)
    rest = _CHARGES.sub("meq", matched[2].rstrip(". "))
    if not rest:
        raise InputError(field, shown(text), tr("has no unit"), hint)
    unit, solute = _split(rest)
    # A mark before three digits is asked back where thousands are amounts of anything.
    asks = unit.casefold().startswith(("mg", "ppm"))
    number = read_number(matched[1], field, text, asks_groups=asks)
    return _Typed(number, unit, solute, field, text)


def _split(rest: str) -> tuple[str, str]:
    """Give a unit, and the solute that is named behind it or in the midst of it."""
    unit = _plain_unit(rest)
    if unit in _UNITS:
        return unit, ""
    inside = _INSIDE.fullmatch(rest)
    named = _SOLUTE.fullmatch(rest)
    solute = ""
    if inside is not None:
        rest, solute = f"{inside['part']}{inside['per']}", inside["solute"].lower()
    elif named is not None and named["unit"]:
        rest, solute = named["unit"], named["solute"].lower()
    unit = _plain_unit(rest)
    return (unit if unit in _UNITS else rest.strip()), solute


def _plain_unit(text: str) -> str:
    bare = re.sub(r"\bper\b", "/", text.casefold())
    plain = re.sub(r"[°.\s]|degrees?|grad|german|deutsche?r?|french", "", bare)
    # An ordinal º, typed for a degree sign, comes as an o.
    return plain[1:] if plain[:1] == "o" and plain[1:] in _UNITS else plain


def _measured(typed: _Typed, example: str) -> tuple[float, Measure]:
    unit = _UNITS.get(typed.unit, typed.unit)
    found = dissolved(typed.number, unit, typed.field, typed.text)
    if found is None:
        raise typed.refused(
            tr("is not an amount in a litre of water"),
            tr("Write for instance {example}.").format(example=example),
        )
    return found


def _is_divalent(typed: _Typed) -> bool:
    """Tell whether moles are told of CaCO3, each of which takes up two of acid."""
    return typed.solute in _IN_CARBONATE


def _in_range(value: float, what: str, typed: _Typed) -> float:
    most = MOST_MG_PER_L[what]
    if 0 <= value <= most:
        return value
    problem = (
        tr("is less than nothing")
        if value < 0
        else tr("is more than {most} mg/L").format(most=speech.plain(most))
    )
    raise typed.refused(problem, tr("Check the number and its unit."))


def _named(solute: str) -> str:
    return {"cao": "CaO", "hco3": "HCO3", "no3n": "NO3-N", "no3-n": "NO3-N"}.get(
        solute, _SPELLED.get(solute, solute.upper())
    )
