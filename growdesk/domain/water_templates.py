"""Every sentence that is said of a water, whole, by key."""

from __future__ import annotations

from typing import Final

from growdesk.domain.speech import Phrases

FLAGS: Final[Phrases[str]] = Phrases(
    {
        "alkalinity-severe": "Alkalinity {amount} mg/L is severe: bark and moss turn "
        "alkaline and iron locks up. Blend it with rain or RO "
        "water, or use that alone.",
        "alkalinity-over": "Alkalinity {amount} mg/L is over {limit}: bark and moss "
        "turn alkaline over the months and new leaves pale. "
        "Blend it with rain or RO water.",
        "alkalinity-high": "Alkalinity {amount} mg/L is over the {limit} to aim "
        "for; repot in time, or blend in some rain or RO water.",
        "alkalinity-small": "Alkalinity {amount} mg/L is fine for grown plants; "
        "seedlings and very small pots do better below {limit}.",
        "acid-exists": "Growers with much to water use acid against alkalinity; "
        "that is no home job, so ask a licensed adviser or your "
        "water supplier.",
        "softened": "This looks like softened water: alkalinity {alkalinity} "
        "mg/L with a hardness of only {hardness} is sodium. Take "
        "water from before the softener.",
        "ec-severe": "EC {ec} mS/cm is over {limit}: too salty to water any orchid "
        "with.",
        "ec-over": "EC {ec} mS/cm is over {limit}: a good part of what roots stand is "
        "used up before any feed. Blend it with rain or RO water.",
        "sodium-over": "Sodium {amount} mg/L is over {limit}; orchids store it "
        "and leaf tips die back. Blend this water, or use rain "
        "or RO.",
        "chloride-over": "Chloride {amount} mg/L is over {limit}; blend it, and "
        "give no feed that holds chloride.",
        "nitrate-drinking": "Nitrate {amount} mg/L is over the {limit} for drinking "
        "water: no water for infants. It also feeds: {nitrogen} "
        "ppm N in clear water.",
        "nitrate-feeds": "It brings {nitrogen} ppm N of its own, which is counted in "
        "each jug; clear water feeds a little too.",
        "hardness-over": "Hardness {amount} mg/L is over {limit} ({class}): it leaves "
        "white crusts on leaves, bark and pots.",
        "no-pure-rain": "EC {ec} mS/cm is much for rain water; look at the barrel, the "
        "gutter and the meter.",
        "no-pure-ro": "EC {ec} mS/cm is much for RO water; the membrane may be worn.",
        "feed-adds-salt": "With this water the feed holds {amount} mg/L {element}, "
        "over {limit}; the water brings {own} of it, the feed "
        "the rest.",
        "water-over-kind": "The water alone reads {ec} mS/cm and the most sensitive "
        "pot it goes to may read {limit}: use rain or RO water "
        "there.",
        "feed-over-kind": "With this water the jug reads {ec} mS/cm or more, over "
        "the {limit} that its most sensitive pot may read; {own} "
        "of it is the water's. Rain or RO water keeps it below.",
        "hardness-differs": "Calcium and magnesium make a hardness of {made} mg/L, not "
        "{hardness}; look at the units.",
        "hardness-too-small": "{ion} alone makes a hardness of {made} mg/L, more than "
        "the {hardness} told; look at the units.",
        "alkalinity-alone": "Alkalinity of {alkalinity} meq/L cannot stand with "
        "{cations} meq/L of Ca, Mg, K and Na; look at the units, "
        "or for softened water.",
        "charges-differ": "The ions do not balance: {cations} meq/L of cations, "
        "{anions} meq/L of anions. One is missing, or a unit is "
        "wrong.",
        "ec-too-small": "These ions would read about {made} mS/cm or more, not "
        "{ec}; look at the units.",
        "ec-too-large": "EC {ec} mS/cm is more than these ions make, about {made}; "
        "something is missing or a unit is wrong.",
    }
)
"""One flag, by its key in ``water_limits`` or ``water_checks``."""

BLENDS: Final[Phrases[str]] = Phrases(
    {
        "litres": "For {volume}: {first_l} of {first} and {second_l} of {second}.",
        "all-of": "For {volume}: all of it {alone}.",
        "holds": "It then holds {holds}.",
        "unreached-alkalinity": "{wanted} mg/L cannot be had from these two: they hold "
        "{low} to {high}. All {nearest} comes nearest.",
        "unreached-ec": "{wanted} mS/cm cannot be had from these two: they read "
        "{low} to {high}. All {nearest} comes nearest.",
        "straight": "The EC is a straight line between the two; the meter "
        "will read up to a tenth more. Give the ions of both for "
        "a better figure.",
    }
)


READY: Final[Phrases[str]] = Phrases(
    {
        "plain": "{volume} of {water} for {days}.",
        "lasts": "{volume} of {water} for {days}; {there} in the {vessel}.",
        "fill": "{volume} of {water} for {days}; {there} in the {vessel}: {fill} "
        "first.",
        "fill-or-take": "{volume} of {water} for {days}; {there} in the "
        "{vessel}: {fill}, or take {short} of {instead}.",
        "too-big": "{volume} of {water} for {days}, more than the "
        "{capacity} its {vessel} holds: fill it between the "
        "rounds.",
        "have": "Have {volume} of {water} ready.",
        "for": "It is {parts}.",
    }
)
"""What to have ready of one water, by how it stands."""

USES: Final[Phrases[str]] = Phrases(
    {
        "jugs_l": "{volume} in the jugs",
        "clear_l": "{volume} for clear water",
        "flush_l": "{volume} for flushing",
        "spare_l": "{volume} to spare",
    }
)
"""What the litres of one water are for."""

ANY_WATER: Final = "*"
"""Stands for each kind that has no row of its own."""

VESSELS: Final[Phrases[str]] = Phrases(
    {"rain": "barrel", "ro": "can", ANY_WATER: "can"}, "vessel of water"
)
"""What a kind of water stands in; both stand in the same way in a sentence."""

FILLS: Final[Phrases[str]] = Phrases(
    {"rain": "fill it", "ro": "make more", ANY_WATER: "fill it"}, "vessel of water"
)
"""What is done where a water runs short."""

SPOKEN: Final[Phrases[str]] = Phrases(
    {
        "rain": "rain water",
        "tap": "tap water",
        "ro": "RO water",
    }
)
"""A water as it is spoken of that has no name of its own."""
