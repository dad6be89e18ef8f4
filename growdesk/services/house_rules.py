"""The house rules as a settings page shows them, declared once, in its order.

A rule says what it means, where its default is from, and under which heading it
stands; its range and its default are the domain's.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import mark
from growdesk.services import (
    house_rules_calendar,
    house_rules_held,
    house_rules_strength,
)
from growdesk.services.rule_declaring import OURS, PRACTICE, YOURS, Group

if TYPE_CHECKING:
    from growdesk.services.values import Setting

_HOUSE = Group(mark("The house"))
_JUGS = Group(mark("Jugs and water"))

_THE_HOUSE: tuple[Setting, ...] = (
    _HOUSE.number(
        "latitude",
        (mark("Latitude"), "°"),
        mark(
            "Where the plants stand; south of the equator it is "
            "negative. Light and rests follow it."
        ),
        YOURS,
    ),
    _HOUSE.number(
        "equatorial_band_deg",
        (mark("Near the equator"), "°"),
        mark("Within so many degrees of the equator months say nothing about a rest."),
    ),
    _HOUSE.weekdays(
        "watering_weekdays",
        mark("Watering days"),
        mark("The days of the week on which you water."),
        YOURS,
    ),
    _HOUSE.number(
        "look_limit_days",
        (mark("A look holds for"), mark("days")),
        mark("After so many days a plant is looked at again before it is fed."),
    ),
)

_JUGS_AND_WATER: tuple[Setting, ...] = (
    _JUGS.number(
        "jugs",
        (mark("Jugs"), ""),
        mark("How many jugs of feed you own for one round."),
        YOURS,
    ),
    _JUGS.share(
        "band_low",
        (mark("A jug may be weaker by"), "%"),
        mark("How far below its own strength a plant may be fed."),
        OURS,
    ),
    _JUGS.share(
        "band_high",
        (mark("A jug may be stronger by"), "%"),
        mark("How far above its own strength a plant may be fed."),
        OURS,
    ),
    _JUGS.share(
        "pot_share",
        (mark("Water for a round"), mark("% of the pot")),
        mark("What a plant takes a round where its volume is not given."),
        PRACTICE,
    ),
    _JUGS.share(
        "measure_off_share",
        (mark("A measured dose may be off by"), "%"),
        mark(
            "By half a step of the scale or syringe. A dose that may be off by more is "
            "made from a stock solution."
        ),
        OURS,
    ),
    _JUGS.share(
        "stock_share",
        (mark("A stock bottle holds at most"), mark("% of what dissolves")),
        mark(
            "How much of a salt's solubility a stock solution may "
            "use, at the coolest of where it is kept."
        ),
        PRACTICE,
    ),
    _JUGS.number(
        "stock_coolest_c",
        (mark("Stock bottles are kept at"), mark("°C or more")),
        mark(
            "The coolest that it gets where the bottles stand; less dissolves "
            "in the cool."
        ),
        OURS,
    ),
    _JUGS.number(
        "stock_keep_months",
        (mark("A stock bottle keeps for"), mark("months")),
        mark(
            "After so many months a stock solution is made anew; no source "
            "tells how long."
        ),
        PRACTICE,
    ),
    _JUGS.number(
        "water_ec_ms_per_cm",
        (mark("EC of the water"), "mS/cm"),
        mark("Used where the water in use has no EC of its own."),
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
