"""The house rules as a settings page shows them, declared once, in its order.

A rule says what it means, where its default is from, and under which heading it
stands; its range and its default are the domain's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services import (
    house_rules_calendar,
    house_rules_held,
    house_rules_strength,
)
from growdesk.services.rule_declaring import OURS, PRACTICE, YOURS, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_HOUSE = Group("The house")
_JUGS = Group("Jugs and water")

_THE_HOUSE: tuple[Setting, ...] = (
    _HOUSE.number(
        "latitude",
        ("Latitude", "°"),
        "Where the plants stand; south of the equator it is negative. Light and rests"
        " follow it.",
        YOURS,
    ),
    _HOUSE.number(
        "equatorial_band_deg",
        ("Near the equator", "°"),
        "Within so many degrees of the equator months say nothing about a rest.",
    ),
    _HOUSE.weekdays(
        "watering_weekdays",
        "Watering days",
        "The days of the week on which you water.",
        YOURS,
    ),
    _HOUSE.number(
        "look_limit_days",
        ("A look holds for", "days"),
        "After so many days a plant is looked at again before it is fed.",
    ),
)

_JUGS_AND_WATER: tuple[Setting, ...] = (
    _JUGS.number(
        "jugs", ("Jugs", ""), "How many jugs of feed you own for one round.", YOURS
    ),
    _JUGS.share(
        "band_low",
        ("A jug may be weaker by", "%"),
        "How far below its own strength a plant may be fed.",
        OURS,
    ),
    _JUGS.share(
        "band_high",
        ("A jug may be stronger by", "%"),
        "How far above its own strength a plant may be fed.",
        OURS,
    ),
    _JUGS.share(
        "pot_share",
        ("Water for a round", "% of the pot"),
        "What a plant takes a round where its volume is not given.",
        PRACTICE,
    ),
    _JUGS.share(
        "measure_off_share",
        ("A measured dose may be off by", "%"),
        "By half a step of the scale or syringe. A dose that may be off by more is "
        "made from a stock solution.",
        OURS,
    ),
    _JUGS.share(
        "stock_share",
        ("A stock bottle holds at most", "% of what dissolves"),
        "How much of a salt's solubility a stock solution may use, at the coolest of "
        "where it is kept.",
        PRACTICE,
    ),
    _JUGS.number(
        "stock_coolest_c",
        ("Stock bottles are kept at", "°C or more"),
        "The coolest that it gets where the bottles stand; less dissolves in the cool.",
        OURS,
    ),
    _JUGS.number(
        "stock_keep_months",
        ("A stock bottle keeps for", "months"),
        "After so many months a stock solution is made anew; no source tells how long.",
        PRACTICE,
    ),
    _JUGS.number(
        "water_ec_ms_per_cm",
        ("EC of the water", "mS/cm"),
        "Used where the water in use has no EC of its own.",
        YOURS,
    ),
)

DECLARED: tuple[Setting, ...] = (
    *_THE_HOUSE,
    *house_rules_held.DECLARED,
    *house_rules_strength.DECLARED,
    *_JUGS_AND_WATER,
    *house_rules_calendar.DECLARED,
)
