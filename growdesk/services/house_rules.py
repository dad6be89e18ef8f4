"""The house rules as a settings page shows them, declared once: title, unit, range."""

from __future__ import annotations

from growdesk.domain.facts_house import NUMBERS, WHOLE_NUMBERS
from growdesk.services.values import Setting, SettingKind


def _number(
    key: str, title: str, unit: str, text: str, *, optional: bool = False
) -> Setting:
    allowed, kind = NUMBERS.get(key), SettingKind.FLOAT
    if allowed is None:
        allowed, kind = WHOLE_NUMBERS[key], SettingKind.INT
    return Setting(key, title, unit, kind, allowed.low, allowed.high, text, optional)


def _share(key: str, title: str, unit: str, text: str) -> Setting:
    allowed = NUMBERS[key]
    return Setting(key, title, unit, SettingKind.SHARE, allowed.low, allowed.high, text)


def _other(key: str, title: str, kind: SettingKind, text: str) -> Setting:
    return Setting(key, title, "", kind, None, None, text)


DECLARED: tuple[Setting, ...] = (
    _number(
        "latitude",
        "Latitude",
        "°",
        "Where the plants stand; south of the equator it is negative. Light and rests"
        " follow it.",
    ),
    _other(
        "watering_weekdays",
        "Watering days",
        SettingKind.WEEKDAYS,
        "The days of the week on which you water.",
    ),
    _number(
        "full_strength_ppm_n",
        "Full strength",
        "ppm N",
        "What a medium feeder in full growth and full light is given.",
    ),
    _number(
        "strength_floor_ppm_n",
        "Weakest feed",
        "ppm N",
        "A feed is not mixed weaker than this, unless a plant's ceiling is lower.",
    ),
    _number(
        "strength_ceiling_ppm_n",
        "Strongest feed",
        "ppm N",
        "No feed is mixed stronger than this.",
    ),
    _number(
        "strength_step_ppm_n",
        "Rounded to",
        "ppm N",
        "A plant's strength is rounded to this step.",
    ),
    _number("jugs", "Jugs", "", "How many jugs of feed you own for one round."),
    _share(
        "band_low",
        "A jug may be weaker by",
        "%",
        "How far below its own strength a plant may be fed.",
    ),
    _share(
        "band_high",
        "A jug may be stronger by",
        "%",
        "How far above its own strength a plant may be fed.",
    ),
    _share(
        "pot_share",
        "Water for a round",
        "% of the pot",
        "What a plant takes a round where its volume is not given.",
    ),
    _number(
        "look_limit_days",
        "A look holds for",
        "days",
        "After so many days a plant is looked at again before it is fed.",
    ),
    _number(
        "least_interval_days",
        "Between two feeds",
        "days",
        "The fewest days from one feed to the next.",
    ),
    _number(
        "feeds_before_flush",
        "Feeds before a flush",
        "",
        "After so many feeds the next one is a flush.",
    ),
    _number(
        "feeds_before_flush_sphagnum",
        "Feeds before a flush in sphagnum",
        "",
        "Sphagnum holds salts, so it is flushed sooner.",
    ),
    _number(
        "flush_before_rest_days",
        "Flush before a rest",
        "days",
        "A fed plant is flushed once in so many days before its unfed rest.",
    ),
    _number(
        "settle_days",
        "Settling after a repot",
        "days",
        "So long a repotted plant without new root tips is not fed.",
    ),
    _number(
        "idle_interval_days",
        "Feeds of an idle plant",
        "days",
        "How often a plant that never rests is fed while nothing shows.",
    ),
    _number(
        "resume_root_mm",
        "Roots that end a leafless rest",
        "mm",
        "Leave it empty to go by the kind (80 mm for catasetums).",
        optional=True,
    ),
    _number(
        "rooted_mm",
        "Rooted at",
        "mm",
        "Other deciduous kinds are fed from roots of this length on.",
    ),
    _other(
        "no_nitrogen_from",
        "No nitrogen from",
        SettingKind.DAY,
        "Soft-cane dendrobiums get no nitrogen from this day on; growers differ between"
        " 1 September and 1 October. South of the equator it is half a year later.",
    ),
    _other(
        "still_green_after",
        "Still green after",
        SettingKind.DAY,
        "A catasetum still in leaf after this day is kept dry. South of the equator it"
        " is half a year later.",
    ),
    _number(
        "runoff_ratio",
        "Runoff over the last feed",
        "times",
        "Runoff EC above so many times the last poured EC asks for a flush.",
    ),
    _number(
        "runoff_margin_ms_per_cm",
        "Runoff above the last feed",
        "mS/cm",
        "And at least so far above it.",
    ),
    _number(
        "ec_per_100_ppm_n_ms_per_cm",
        "EC of 100 ppm N",
        "mS/cm",
        "What a feed of 100 ppm N measures, where the label says it.",
    ),
    _number(
        "water_ec_ms_per_cm",
        "EC of the water",
        "mS/cm",
        "Used where the water in use has no EC of its own.",
    ),
    _other(
        "spike_draws_feed_always",
        "Feed for every spike",
        SettingKind.BOOL,
        "Feed any plant with a spike or buds on the way, not only the kinds known to"
        " draw on it.",
    ),
)
