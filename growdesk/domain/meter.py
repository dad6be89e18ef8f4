"""A meter's reading of a jug, held against the EC to expect.

Readings are compared at 25 °C. What a reading off the band may come from is given in
the order in which to check it: what the very number points at first, then what costs
least to look at. TDS scales are other faces of the same meter (``tds_ppm``); nothing is
ever kept in them.
"""

from __future__ import annotations

import math
import re
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import units
from growdesk.domain.conductivity import CHANGE_PER_DEGREE, at_25
from growdesk.domain.errors import InputError
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import fixed, plain, tr
from growdesk.domain.typed_numbers import NUMBER, plain_text, read_number, shown

if TYPE_CHECKING:
    from growdesk.domain.expected_ec import ExpectedEc

TDS_SCALES: Final = (500, 640, 700)
"""ppm shown for 1 mS/cm: 500 after sodium chloride, 640 of agronomy, 700 after 442."""

STANDARD_MS_PER_CM: Final = 1.413
"""0.01 mol/L potassium chloride at 25 °C, as meters' fluids are sold."""
COLDEST_C, WARMEST_C = 0.0, 40.0
MOST_MS_PER_CM: Final = 20.0
"""No jug reads more; a bare number above it is ppm or µS/cm."""

_TDS: Final = re.compile(
    rf"({NUMBER})\s*(ppm|ppt|g/L|mg/L)\s*(?:tds)?\s*(?:[@(x×]|on|at)?\s*"
    r"(500|640|700)?\s*(?:scale)?\)?",
    re.IGNORECASE,
)
_NEAR: Final = 1e-9
_TWICE: Final = 0.12
"""How far from none, half or twice of the feed a reading still points at it; ours."""
_COLD_JUG_C, _WARM_JUG_C, _FELT_C = 5.0, 35.0, 2.0
"""A jug is no colder or warmer, and so many degrees off 25 °C are felt; ours."""


class Standing(StrEnum):
    """Where a reading lies."""

    IN_BAND = "in-band"
    BELOW = "below"
    ABOVE = "above"


class Check(StrEnum):
    """One thing that puts a reading off the band."""

    TDS_SCALE = "tds-scale"
    MICROSIEMENS = "microsiemens"
    CORRECTED_TWICE = "corrected-twice"
    FEED_LEFT_OUT = "feed-left-out"
    UNDER_WATER = "under-water"
    TWICE = "twice"
    HALF = "half"
    STIR = "stir"
    CALIBRATION = "calibration"
    TEMPERATURE = "temperature"
    DOSE = "dose"
    LITRES = "litres"
    WATER = "water"
    TIN = "tin"


class Pointed(Struct, frozen=True):
    """A check, and the scale where the number fits one."""

    check: Check
    scale: int | None = None


class Compared(Struct, frozen=True):
    """A reading against its jug; all EC in mS/cm at 25 °C but ``shown_ms_per_cm``.

    ``off_ms_per_cm`` is how far outside the band it lies. ``ppm_n`` is the nitrogen it
    stands for, where one figure of EC is known.
    """

    shown_ms_per_cm: float
    temperature_c: float | None
    ec_ms_per_cm: float
    expected: ExpectedEc
    standing: Standing
    off_ms_per_cm: float = 0.0
    ppm_n: float | None = None
    strength_ppm_n: float | None = None
    checks: tuple[Pointed, ...] = ()


def compare(
    shown_ms_per_cm: float,
    expected: ExpectedEc,
    temperature_c: float | None = None,
    strength_ppm_n: float | None = None,
) -> Compared:
    """Hold what a meter shows against what its jug should read.

    ``temperature_c`` is given for a meter that does not bring readings to 25 °C itself.
    """
    ec = reading_at_25(shown_ms_per_cm, temperature_c)
    standing, off = standing_of(ec, expected)
    compared = Compared(
        shown_ms_per_cm=shown_ms_per_cm,
        temperature_c=temperature_c,
        ec_ms_per_cm=ec,
        expected=expected,
        standing=standing,
        off_ms_per_cm=off,
        ppm_n=_ppm_n(ec, expected, strength_ppm_n),
        strength_ppm_n=strength_ppm_n,
    )
    if standing is Standing.IN_BAND:
        return compared
    return _with_checks(compared)


def reading_at_25(shown_ms_per_cm: float, temperature_c: float | None) -> float:
    """Give a reading at 25 °C, by 2 % a degree where the meter did not."""
    if not math.isfinite(shown_ms_per_cm) or not 0 <= shown_ms_per_cm <= MOST_MS_PER_CM:
        raise InputError(
            "reading",
            f"{plain(shown_ms_per_cm)} mS/cm",
            tr("is not what a jug can read"),
            tr("Give 0 to {most_ms_per_cm} mS/cm.").format(
                most_ms_per_cm=plain(MOST_MS_PER_CM)
            ),
        )
    if temperature_c is None:
        return shown_ms_per_cm
    if not math.isfinite(temperature_c) or not COLDEST_C <= temperature_c <= WARMEST_C:
        raise InputError(
            "temperature",
            temperature_text(temperature_c),
            tr("is not the temperature of a jug"),
            tr(
                "Give {coldest} to {warmest}, or nothing where the "
                "meter corrects by itself."
            ).format(
                coldest=temperature_text(COLDEST_C), warmest=temperature_text(WARMEST_C)
            ),
        )
    return at_25(shown_ms_per_cm, temperature_c)


def ppm_n_of(
    ec_ms_per_cm: float, water_ms_per_cm: float, ec_per_100_ppm_n_ms_per_cm: float
) -> float:
    """Give the ppm N that a reading stands for, by the fertilizer's line.

    100 x (EC of the feed - EC of the water) / (EC at 100 ppm N): K. Nemali, Purdue
    University, HO-286-W.
    """
    gained = max(ec_ms_per_cm - water_ms_per_cm, 0.0)
    return 100 * gained / ec_per_100_ppm_n_ms_per_cm


def uncorrected_c(compared: Compared) -> float | None:
    """Give the °C at which a meter that does not correct would show this reading.

    None where the feed of a watering day is hardly that cold or warm, where it is near
    25 °C anyway, where a temperature was told, or no single figure is known.
    """
    wanted = compared.expected.ec_ms_per_cm
    if compared.temperature_c is not None or not wanted:
        return None
    warm = 25 + (compared.ec_ms_per_cm / wanted - 1) / CHANGE_PER_DEGREE
    is_likely = _COLD_JUG_C <= warm <= _WARM_JUG_C and abs(warm - 25) >= _FELT_C
    return warm if is_likely else None


def tds_ppm(ec_ms_per_cm: float, scale: int) -> float:
    """Give what a meter shows that tells ppm on one of the ``TDS_SCALES``."""
    return ec_ms_per_cm * scale


def parse_reading_ms_per_cm(text: str, field: str = "reading") -> float:
    """Give a typed reading in mS/cm; "840 ppm 700" names the scale that it is on.

    A bare number is mS/cm as far as a jug can read so much.
    """
    clean = plain_text(text, field)
    tds = _TDS.fullmatch(clean)
    if tds:
        return _of_tds(tds, text, field)
    if re.fullmatch(NUMBER, clean):
        number = read_number(clean, field, text, asks_groups=False)
        if number > MOST_MS_PER_CM:
            raise InputError(
                field,
                shown(text),
                tr("is no jug in mS/cm, and its unit is not told"),
                tr(
                    'Write "{number} uS/cm", or with its scale "{number} ppm 500".'
                ).format(number=plain(number)),
            )
        clean = f"{clean} mS/cm"
    return units.parse_ec_ms_per_cm(clean, field)


def _of_tds(matched: re.Match[str], text: str, field: str) -> float:
    number = read_number(matched[1], field, text, asks_groups=False)
    ppm = number * (1000 if matched[2].lower() in {"ppt", "g/l"} else 1)
    if matched[3] is None:
        each = ", ".join(
            tr("{ec} mS/cm on the {scale} scale").format(
                ec=fixed(ppm / scale, 2), scale=scale
            )
            for scale in TDS_SCALES
        )
        raise InputError(
            field,
            shown(text),
            tr("does not say on which scale"),
            tr('It is {each}. Write for instance "{number} {unit} 500".').format(
                each=each, number=matched[1], unit=matched[2]
            ),
        )
    if not 0 <= ppm <= MOST_MS_PER_CM * int(matched[3]):
        raise InputError(
            field,
            shown(text),
            tr("is not what a jug can read"),
            tr("Read the meter again."),
        )
    return ppm / int(matched[3])


def standing_of(ec: float, expected: ExpectedEc) -> tuple[Standing, float]:
    """Give where a reading at 25 °C lies, and how far off, to 0.01 as meters show."""
    low, high = round(expected.low_ms_per_cm, 2), round(expected.high_ms_per_cm, 2)
    read = round(ec, 2)
    if read < low - _NEAR:
        return Standing.BELOW, low - read
    if read > high + _NEAR:
        return Standing.ABOVE, read - high
    return Standing.IN_BAND, 0.0


def _ppm_n(
    ec: float, expected: ExpectedEc, strength_ppm_n: float | None
) -> float | None:
    whole, own = expected.ec_ms_per_cm, expected.water_ms_per_cm
    if whole is None or own is None or not strength_ppm_n or whole - own < 0.02:
        return None
    return ppm_n_of(ec, own, 100 * (whole - own) / strength_ppm_n)


def _with_checks(compared: Compared) -> Compared:
    checks = (*_pointed(compared), *_usual(compared))
    return replace(compared, checks=checks)


def _pointed(compared: Compared) -> list[Pointed]:
    """Give what the number itself points at."""
    found: list[Pointed] = []
    expected, ec = compared.expected, compared.ec_ms_per_cm
    if compared.temperature_c is not None and _fits(compared.shown_ms_per_cm, expected):
        found.append(Pointed(Check.CORRECTED_TWICE))
    if _fits(1000 * ec, expected):
        found.append(Pointed(Check.MICROSIEMENS))
    fitting = [scale for scale in TDS_SCALES if _fits(1000 * ec / scale, expected)]
    if compared.standing is Standing.BELOW and fitting:
        found.append(Pointed(Check.TDS_SCALE, _nearest(ec, fitting, expected)))
    found += _by_share(ec, expected)
    return found


def _nearest(ec: float, scales: list[int], expected: ExpectedEc) -> int:
    """Give the scale on which the reading comes nearest to the middle of the band."""
    middle = expected.ec_ms_per_cm
    if middle is None:
        middle = (expected.low_ms_per_cm + expected.high_ms_per_cm) / 2
    wanted = middle
    return min(scales, key=lambda scale: abs(1000 * ec / scale - wanted))


def _by_share(ec: float, expected: ExpectedEc) -> list[Pointed]:
    """Give what the share of the feed's own EC points at, where it is known."""
    whole, own = expected.ec_ms_per_cm, expected.water_ms_per_cm
    if whole is None or own is None or whole - own < 0.1:
        return []
    share = (ec - own) / (whole - own)
    if share < -_TWICE:
        return [Pointed(Check.UNDER_WATER)]
    if share < _TWICE:
        return [Pointed(Check.FEED_LEFT_OUT)]
    if abs(share - 2) < 2 * _TWICE:
        return [Pointed(Check.TWICE)]
    if abs(share - 0.5) < 0.5 * _TWICE:
        return [Pointed(Check.HALF)]
    return []


def _usual(compared: Compared) -> list[Pointed]:
    """Give what to check in its order, the water first where nobody knows it."""
    order = [Check.STIR]
    if compared.temperature_c is None:
        order.append(Check.TEMPERATURE)
    order += [Check.CALIBRATION, Check.DOSE, Check.LITRES, Check.WATER, Check.TIN]
    if (
        compared.expected.water_ms_per_cm is None
        and compared.standing is Standing.ABOVE
    ):
        order.remove(Check.WATER)
        order.insert(0, Check.WATER)
    return [Pointed(check) for check in order]


def _fits(ec: float, expected: ExpectedEc) -> bool:
    return expected.low_ms_per_cm <= ec <= expected.high_ms_per_cm
