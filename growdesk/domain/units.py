"""Read the amounts that people type, through pint, as floats in one unit each.

This is the only module that talks to pint, and it loads it on first use. Everything
behind it works with floats whose names carry their unit.

What is decided here, and said on the screens:

* "ppm" means milligrams per litre (``PPM_MEANS``).
* A gallon is the US gallon of 3.785411784 L and a teaspoon the US one of 4.92892 mL;
  the imperial gallon of 4.54609 L is written "imp gal" or "imperial gallon".
* A number without a unit is asked back, and so is one that could be read in two ways a
  thousand apart, such as "1,500 L".
"""

from __future__ import annotations

import re
from enum import StrEnum
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.chemistry import canonical_nutrient, molar_mass_g_per_mol
from growdesk.domain.errors import InputError
from growdesk.domain.speech import Phrases, mark, plain, tr
from growdesk.domain.typed_numbers import NUMBER, plain_text, read_number, shown

if TYPE_CHECKING:
    from pint import UnitRegistry

_READ_KEPT: Final = 256
"""So many amounts are not read again through pint: of a form one field has changed."""

PPM_MEANS: Final = mark("Here ppm means milligrams per litre of solution.")

_UNIT: Final = r"[A-Za-zµμ°%][A-Za-zµμ°_. ]*?(?:\^?[23])?"
_QUANTITY: Final = re.compile(
    rf"({NUMBER})\s*({_UNIT}(?:\s*(?:/|\bper\b)\s*{_UNIT})?)\.?"
)
_TARGETS: Final = (
    re.compile(rf"(?P<amount>{NUMBER}\s*\S+)\s+(?P<name>[A-Za-z]\w{{0,10}})"),
    re.compile(rf"(?P<name>[A-Za-z]\w{{0,10}})\s*[:=]?\s+(?P<amount>{NUMBER}\s*\S+)"),
)

_REGISTRY: Final = """
milli- = 1e-3 = m-
micro- = 1e-6 = µ- = μ- = u-
centi- = 1e-2 = c-
deci- = 1e-1 = d-
hecto- = 1e2 = h-
kilo- = 1e3 = k-
meter = [length] = m = metre
gram = [mass] = g
second = [time] = s
mole = [substance] = mol
siemens = [conductance] = S
kelvin = [temperature]; offset: 0 = K
degree_Celsius = kelvin; offset: 273.15 = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = degF
inch = 0.0254 * meter = in
foot = 0.3048 * meter = ft
liter = 1e-3 * meter ** 3 = L = l = litre
cubic_centimeter = 1e-6 * meter ** 3 = cc
gallon = 231 * inch ** 3 = gal
quart = gallon / 4 = qt
pint = gallon / 8 = pt
cup = gallon / 16
fluid_ounce = gallon / 128 = floz
tablespoon = gallon / 256 = tbsp
teaspoon = gallon / 768 = tsp
metric_teaspoon = 5 * milliliter
imperial_gallon = 4.54609 * liter
imperial_pint = imperial_gallon / 8
imperial_fluid_ounce = imperial_gallon / 160
pound = 453.59237 * gram = lb = lbs
ounce = pound / 16 = oz
ppm = 1e-3 * gram / liter
molar = mole / liter = M
equivalent = [charge] = eq = val
grain = pound / 7000 = gr
"""
_CARBONATES: Final = f"""
german_degree = 20 / {molar_mass_g_per_mol("CaO")} * milliequivalent / liter
french_degree = 20 / {molar_mass_g_per_mol("CaCO3")} * milliequivalent / liter
carbonate_grain = 2 * 64.79891 / {molar_mass_g_per_mol("CaCO3")} * milliequivalent
clark_degree = carbonate_grain / imperial_gallon
grain_per_gallon = carbonate_grain / gallon
"""
"""Degrees of hardness, as the charge they stand for: 10 mg/L CaO, 10 mg/L CaCO3, and a
grain of CaCO3 in an imperial and a US gallon."""

_SPOKEN: Final = {
    "fl oz": "fluid_ounce",
    "fl. oz": "fluid_ounce",
    "us gal": "gallon",
    "us gallon": "gallon",
    "us gallons": "gallon",
    "imp gal": "imperial_gallon",
    "imp. gal": "imperial_gallon",
    "imperial gal": "imperial_gallon",
    "uk gal": "imperial_gallon",
    "uk gallon": "imperial_gallon",
    "uk gallons": "imperial_gallon",
    "imp pint": "imperial_pint",
    "uk pint": "imperial_pint",
    "imp fl oz": "imperial_fluid_ounce",
    "metric tsp": "metric_teaspoon",
    "us tsp": "teaspoon",
    "feet": "foot",
    "inches": "inch",
    "°c": "degC",
    "c": "degC",
    "°f": "degF",
    "f": "degF",
}


class Target(Struct, frozen=True):
    """A strength wanted of one nutrient, told as element or as oxide."""

    nutrient: str
    strength_mg_per_l: float


class _Kind(Struct, frozen=True):
    """What is asked for: its unit, the range that is taken, and an example."""

    noun: str
    unit: str
    symbol: str
    least: float
    most: float
    example: str
    asks_groups: bool = True

    @property
    def hint(self) -> str:
        """Say how such an amount is written."""
        return tr("Write for instance {example}.").format(example=tr(self.example))


_IS_NONE: Final = Phrases(
    {
        "volume": "is not a volume",
        "mass": "is not a mass",
        "strength": "is not a strength",
        "density": "is not a density",
        "conductivity": "is not a conductivity",
        "temperature": "is not a temperature",
    }
)
_IS_EMPTY: Final = Phrases(
    {
        "volume": "is empty; a volume is asked for",
        "mass": "is empty; a mass is asked for",
        "strength": "is empty; a strength is asked for",
        "density": "is empty; a density is asked for",
        "conductivity": "is empty; a conductivity is asked for",
        "temperature": "is empty; a temperature is asked for",
    }
)


_VOLUME: Final = _Kind("volume", "liter", "L", 1e-6, 10_000, mark('"5 L" or "1.5 gal"'))
_MASS: Final = _Kind("mass", "gram", "g", 1e-6, 1_000_000, mark('"12 g" or "0.5 oz"'))
_STRENGTH: Final = _Kind(
    "strength", "milligram / liter", "mg/L", 1e-3, 1_000_000, mark('"150 ppm N"')
)
_MOLAR: Final = _Kind(
    "strength", "mole / liter", "mol/L", 1e-9, 100, mark('"10 mmol/L N"')
)
_CHARGE: Final = _Kind(
    "strength", "milliequivalent / liter", "meq/L", 0, 1e5, mark('"2 meq/L"')
)
_DENSITY: Final = _Kind(
    "density",
    "gram / milliliter",
    "g/mL",
    0.5,
    3,
    mark('"1.2 g/mL"'),
    asks_groups=False,
)
_METER_EC: Final = re.compile(rf"{NUMBER} ?[muµμ]S")
_EC: Final = _Kind(
    "conductivity",
    "millisiemens / centimeter",
    "mS/cm",
    0,
    200,
    mark('"1.2 mS/cm"'),
    asks_groups=False,
)
_TEMPERATURE: Final = _Kind(
    "temperature", "degC", "°C", -40, 60, mark('"21 °C" or "70 °F"'), asks_groups=False
)


def parse_volume_l(text: str, field: str = "volume") -> float:
    """Give a typed volume in litres; more than 0 and at most 10 000 L."""
    return _parse(text, field, _VOLUME)


def parse_mass_g(text: str, field: str = "mass") -> float:
    """Give a typed mass in grams; more than 0 and at most a tonne."""
    return _parse(text, field, _MASS)


def parse_density_g_per_ml(text: str, field: str = "density") -> float:
    """Give a typed density in grams per millilitre; between 0.5 and 3."""
    return _parse(text, field, _DENSITY)


def parse_ec_ms_per_cm(text: str, field: str = "conductivity") -> float:
    """Give a typed conductivity in mS/cm; a TDS reading in ppm is asked back.

    Meters show "620 uS" and mean uS/cm.
    """
    shown_by_meter = _METER_EC.fullmatch(plain_text(text, field))
    return _parse(f"{shown_by_meter[0]}/cm" if shown_by_meter else text, field, _EC)


def parse_temperature_c(text: str, field: str = "temperature") -> float:
    """Give a typed temperature in degrees Celsius; between -40 and 60."""
    return _parse(text, field, _TEMPERATURE)


def parse_strength_mg_per_l(text: str, field: str = "strength") -> float:
    """Give a typed weight in a volume, such as "0.5 g/L", in mg per litre."""
    return _parse(text, field, _STRENGTH)


def parse_target(text: str, field: str = "target") -> Target:
    """Give the nutrient and the mg/L of a target such as "150 ppm N" or "40 mg/L Mg".

    Here ppm means milligrams per litre. An oxide stays an oxide: "100 ppm P2O5" is
    100 mg/L of P2O5, not of P.
    """
    clean = re.sub(r"(?<=[/A-Za-z])\s+(?=/)|(?<=/)\s+", "", plain_text(text, field))
    for pattern in _TARGETS:
        matched = pattern.fullmatch(clean)
        nutrient = canonical_nutrient(matched["name"]) if matched else None
        if matched and nutrient:
            return Target(nutrient, _strength(matched["amount"], nutrient, field))
    raise InputError(
        field,
        shown(text),
        tr("does not say how much of which nutrient"),
        tr('Write for instance "150 ppm N", "40 mg/L Mg" or "100 ppm P2O5".'),
    )


def _strength(amount: str, nutrient: str, field: str) -> float:
    try:
        return _parse(amount, field, _STRENGTH)
    except _WrongUnitError as problem:
        try:
            moles_per_l = _parse(amount, field, _MOLAR)
        except _WrongUnitError:
            raise problem from None
    return 1000 * moles_per_l * molar_mass_g_per_mol(nutrient)


class Measure(StrEnum):
    """What an amount in a litre is told by."""

    MASS = "mg/L"
    MOLES = "mmol/L"
    CHARGE = "meq/L"


def dissolved(
    number: float, unit: str, field: str, text: str
) -> tuple[float, Measure] | None:
    """Give an amount in a litre by mass, moles or charge; None for any other unit.

    Degrees of hardness are charge. ``field`` and ``text`` are of what was typed.
    """
    for kind, measure, scale in (
        (_STRENGTH, Measure.MASS, 1.0),
        (_MOLAR, Measure.MOLES, 1000.0),
        (_CHARGE, Measure.CHARGE, 1.0),
    ):
        try:
            return scale * _convert(number, unit, field, text, kind), measure
        except InputError:
            continue
    return None


class _WrongUnitError(InputError):
    """The unit is known and measures something else."""


def _parse(text: str, field: str, kind: _Kind) -> float:
    clean = plain_text(text, field)
    matched = _QUANTITY.fullmatch(clean)
    if matched is None:
        raise _not_read(clean, text, field, kind)
    number = read_number(matched[1], field, text, asks_groups=kind.asks_groups)
    value = _convert(number, matched[2], field, text, kind)
    return _checked(value, field, text, kind)


def _not_read(clean: str, text: str, field: str, kind: _Kind) -> InputError:
    way_out = tr("Write a number and a unit, for instance {example}.").format(
        example=tr(kind.example)
    )
    if not clean:
        return InputError(field, "", _IS_EMPTY[kind.noun], way_out)
    if re.fullmatch(NUMBER, clean):
        return InputError(field, shown(text), tr("has no unit"), way_out)
    return InputError(field, shown(text), _IS_NONE[kind.noun], way_out)


def _convert(number: float, unit: str, field: str, text: str, kind: _Kind) -> float:
    """Give the number in the unit asked for; no exception of pint's gets out."""
    if unit.upper() == "ML" and unit[0] == "M":
        raise InputError(
            field,
            shown(text),
            tr("could mean millilitres or megalitres"),
            tr('Write "mL" or "L".'),
        )
    for registry in (_own_registry, _whole_registry):
        try:
            return _converted(registry(), number, unit, kind)
        except _ElsewhereError as problem:
            raise _WrongUnitError(
                field,
                shown(text),
                _IS_NONE[kind.noun],
                f"{kind.hint} {_unit_hint(unit, kind)}".rstrip(),
            ) from problem
        except _UnknownError:
            continue
    raise InputError(
        field,
        shown(text),
        tr("has a unit that is not known here ({unit})").format(unit=unit),
        kind.hint,
    )


class _UnknownError(Exception):
    """A registry does not know the unit."""


class _ElsewhereError(Exception):
    """The unit measures something else."""


@lru_cache(maxsize=_READ_KEPT)
def _converted(
    registry: UnitRegistry[float], number: float, unit: str, kind: _Kind
) -> float:
    import pint  # noqa: PLC0415 -- loaded on first use

    try:
        quantity = registry.Quantity(number, _spelled(unit, kind))
    except Exception as problem:
        raise _UnknownError from problem
    try:
        return float(quantity.to(kind.unit).magnitude)
    except pint.DimensionalityError as problem:
        raise _ElsewhereError from problem
    except Exception as problem:
        raise _UnknownError from problem


def _spelled(unit: str, kind: _Kind) -> str:
    parts = re.split(r"\s*(?:/|\bper\b)\s*", unit)
    return " / ".join(_spelled_part(part, kind) for part in parts)


def _spelled_part(part: str, kind: _Kind) -> str:
    """Give pint's spelling of a unit as people write it."""
    words = " ".join(part.replace("_", " ").split()).rstrip(".")
    spoken = _SPOKEN.get(words.lower())
    if spoken and (len(words) > 1 or kind is _TEMPERATURE):
        return spoken
    cubic = re.fullmatch(r"cubic\s+(\w+)", words, re.IGNORECASE)
    if cubic:
        return f"({_spelled_part(cubic[1], kind)}) ** 3"
    powered = re.fullmatch(r"([A-Za-zµμ]+)\^?([23])", words)
    if powered:
        return f"{powered[1]} ** {powered[2]}"
    joined = words.replace(" ", "_")
    return joined.lower() if len(joined) >= 3 and kind is not _EC else joined


_VOLUMES: Final = "m?l|cc|fl ?oz|gal|(milli)?lit(er|re)s?|tsp|tbsp|cups?"


def _unit_hint(unit: str, kind: _Kind) -> str:
    if kind is _VOLUME and unit.lower() in {"oz", "ounce", "ounces"}:
        return tr("An ounce is a weight; the volume is written fl oz.")
    if kind is _MASS and re.fullmatch(_VOLUMES, unit, re.IGNORECASE):
        return tr("Only a product whose density is given is measured by volume.")
    if kind is _EC and unit.lower() == "ppm":
        return tr("A ppm reading hides its scale; read the meter in mS/cm.")
    return ""


def _checked(value: float, field: str, text: str, kind: _Kind) -> float:
    if kind.least <= value <= kind.most:
        return value
    if value <= 0 and kind is not _TEMPERATURE:
        problem = tr("must be more than nothing")
    elif value < kind.least:
        problem = tr("is less than {least} {unit}").format(
            least=plain(kind.least), unit=kind.symbol
        )
    else:
        most = f"{kind.most:,.0f}".replace(",", " ")
        problem = tr("is more than {most} {unit}").format(most=most, unit=kind.symbol)
    raise InputError(field, shown(text), problem, kind.hint)


def load() -> None:
    """Load what reads units, which takes longer than a frame the first time."""
    _own_registry()


@cache
def _own_registry() -> UnitRegistry[float]:
    """Build the short registry, once; it loads in a fraction of pint's own."""
    import pint  # noqa: PLC0415 -- loaded on first use

    registry: UnitRegistry[float] = pint.UnitRegistry(None)
    registry.load_definitions((_REGISTRY + _CARBONATES).strip().splitlines())
    return registry


@cache
def _whole_registry() -> UnitRegistry[float]:
    """Build pint's whole registry, once, for units that are seldom typed."""
    import pint  # noqa: PLC0415 -- loaded on first use

    registry: UnitRegistry[float] = pint.UnitRegistry()
    return registry
