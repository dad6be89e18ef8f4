"""A reading held against its jug, in plain sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.meter import (
    STANDARD_MS_PER_CM,
    Check,
    Standing,
    tds_ppm,
    uncorrected_c,
)
from growdesk.domain.quantity_words import temperature_text
from growdesk.domain.speech import Phrases, fixed, mark, plain, tr

if TYPE_CHECKING:
    from growdesk.domain.meter import Compared, Pointed

_STANDINGS: Final = Phrases(
    {
        Standing.IN_BAND: "{read} mS/cm is right: this jug should read {band} mS/cm.",
        Standing.BELOW: "{read} mS/cm is {off} mS/cm too low: this jug should "
        "read {band} mS/cm.",
        Standing.ABOVE: "{read} mS/cm is {off} mS/cm too high: this jug should "
        "read {band} mS/cm.",
    }
)
_UNEXPECTED: Final = mark(
    "{read} mS/cm at 25 °C; nothing is known of this jug to hold it against."
)
_BROUGHT: Final = mark(
    "The meter shows {shown} mS/cm at {warm}; at 25 °C that is {read}."
)
_NITROGEN: Final = mark(
    "By this reading it holds about {found} ppm N instead of {meant}."
)
_NITROGEN_RIGHT: Final = mark("By this reading it holds about {found} ppm N.")
_CHECKS: Final = Phrases(
    {
        Check.TDS_SCALE: "The number fits a meter that tells salt instead of EC: "
        "{as_ppm} ppm on its {scale} scale is {ec} mS/cm. Set "
        "the meter to mS/cm.",
        Check.MICROSIEMENS: "The number fits µS/cm, which are thousandths of mS/cm: "
        "type it with its unit.",
        Check.CORRECTED_TWICE: "Without the correction for {warm} it fits: the "
        "meter seems to correct by itself, so leave the "
        "temperature empty.",
        Check.FEED_LEFT_OUT: "It reads as the water alone does: see whether the feed "
        "went in.",
        Check.UNDER_WATER: "It reads less than the water alone should: see that the "
        "probe is wholly in, and which water went in.",
        Check.TWICE: "It reads as twice the feed would: see whether it was "
        "weighed twice, or half the water filled in.",
        Check.HALF: "It reads as half the feed would: see whether a part was "
        "left out, or twice the water filled in.",
        Check.CALIBRATION: "Check the meter in fresh {standard} mS/cm standard, at the "
        "temperature on its label.",
        Check.TEMPERATURE: "See that the meter corrects to 25 °C; if it does not, "
        "type the feed's temperature with the reading.",
        Check.DOSE: "Look at the scale's zero, the level spoon and the jug's "
        "letter, and weigh the dose again.",
        Check.TIN: "See that the right tin was taken; another feed gives another EC.",
    }
)
_UNCORRECTED: Final = mark(
    "A meter that does not correct to 25 °C would read this at about {warm}: take "
    "the feed's temperature and type it with the reading."
)
_BY_STANDING: Final = Phrases(
    {
        (
            Check.STIR,
            Standing.BELOW,
        ): "Stir the jug well and read again: feed that lies on "
        "the bottom is not read.",
        (
            Check.STIR,
            Standing.ABOVE,
        ): "Stir the jug well, rinse the probe and read again.",
        (Check.LITRES, Standing.BELOW): "See whether more water went in than the jug's "
        "litres.",
        (Check.LITRES, Standing.ABOVE): "See whether less water went in than the jug's "
        "litres.",
    }
)
_WATER_KNOWN: Final = mark(
    "Read the water alone: {own} mS/cm of this figure is taken to be its own."
)
_WATER_UNKNOWN: Final = mark(
    "Read the water alone: its own EC is not known and is missing from this band."
)


def unexpected_text(ec_ms_per_cm: float) -> str:
    """Say a reading of a jug of which nobody knows what it should read."""
    return tr(_UNEXPECTED).format(read=f"{fixed(ec_ms_per_cm, 2)}")


def standing_text(compared: Compared) -> str:
    """Say whether a reading is right, and by how much it is not."""
    low, high = compared.expected.low_ms_per_cm, compared.expected.high_ms_per_cm
    return _STANDINGS[compared.standing].format(
        read=f"{fixed(compared.ec_ms_per_cm, 2)}",
        off=f"{fixed(compared.off_ms_per_cm, 2)}",
        band=tr("{low} to {high}").format(low=fixed(low, 2), high=fixed(high, 2)),
    )


def lines(compared: Compared) -> tuple[str, ...]:
    """Give all that is said of a reading, what to check first being first."""
    return (*reading_texts(compared), *check_texts(compared))


def reading_texts(compared: Compared) -> tuple[str, ...]:
    """Say what a reading is and where it lies, without what to check."""
    said: list[str] = []
    if compared.temperature_c is not None:
        said.append(
            tr(_BROUGHT).format(
                shown=f"{fixed(compared.shown_ms_per_cm, 2)}",
                warm=temperature_text(compared.temperature_c),
                read=f"{fixed(compared.ec_ms_per_cm, 2)}",
            )
        )
    return (*said, standing_text(compared), *_nitrogen(compared))


def check_texts(compared: Compared) -> tuple[str, ...]:
    """Give what to check, in order."""
    return tuple(_check_text(pointed, compared) for pointed in compared.checks)


def tds_text(ec_ms_per_cm: float, scales: tuple[int, ...]) -> str:
    """Give a reading as meters show it that tell salt instead of EC."""
    each = [
        f"{fixed(tds_ppm(ec_ms_per_cm, scale), 0)} ppm ({scale})" for scale in scales
    ]
    return ", ".join(each)


def _nitrogen(compared: Compared) -> list[str]:
    if compared.ppm_n is None or compared.strength_ppm_n is None:
        return []
    found = f"{fixed(compared.ppm_n, 0)}"
    if compared.standing is Standing.IN_BAND:
        return [tr(_NITROGEN_RIGHT).format(found=found)]
    return [
        tr(_NITROGEN).format(found=found, meant=f"{fixed(compared.strength_ppm_n, 0)}")
    ]


def _check_text(pointed: Pointed, compared: Compared) -> str:
    check = pointed.check
    if check is Check.WATER:
        own = compared.expected.water_ms_per_cm
        if own is None:
            return tr(_WATER_UNKNOWN)
        return tr(_WATER_KNOWN).format(own=f"{fixed(own, 2)}")
    uncorrected = uncorrected_c(compared)
    if check is Check.TEMPERATURE and uncorrected is not None:
        return tr(_UNCORRECTED).format(warm=temperature_text(uncorrected, 0))
    template = _BY_STANDING.get((check, compared.standing)) or _CHECKS[check]
    scale = pointed.scale or 1
    return template.format(
        standard=f"{plain(STANDARD_MS_PER_CM)}",
        warm=""
        if compared.temperature_c is None
        else temperature_text(compared.temperature_c),
        scale=scale,
        as_ppm=f"{fixed(1000 * compared.ec_ms_per_cm, 0)}",
        ec=f"{fixed(1000 * compared.ec_ms_per_cm / scale, 2)}",
    )
