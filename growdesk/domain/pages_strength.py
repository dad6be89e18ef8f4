"""The pages of the strength: the chain as a whole, and each of its steps in order."""

from __future__ import annotations

from growdesk.domain.kinds import Feeder
from growdesk.domain.pages_season import SEASON
from growdesk.domain.rule_pages import RulePage
from growdesk.domain.rules import growth
from growdesk.domain.speech import mark

_PRACTICE = mark("Common practice, no source; the share is a house rule.")

CHAIN = RulePage(
    rule="strength",
    title=mark("Strength"),
    asks=mark("How strong is the feed of a plant that is fed?"),
    why=mark(
        "Hunger follows kind, light, warmth and condition. Each "
        "is a step of its own and says what it leaves of the "
        "strength, so that you can quarrel with one step and "
        "keep the others."
    ),
    silent=mark(
        "For every verdict but feed. A step that takes nothing off is not told, but "
        "for a controlled place."
    ),
    example=mark(
        "A masdevallia in a controlled place, a light feeder, starts from "
        "{full_strength_ppm_n} and is left with {feeder_light_share}."
    ),
    source=mark(
        "Published ranges for orchids run from 100 to 200 ppm N "
        "(society article on a university grower's talk, "
        "http://hydroponicsplantnutrients.blogspot.com/); the "
        "chain is a house rule."
    ),
)

STEPS = (
    RulePage(
        rule="full-strength",
        title=mark("Full strength"),
        asks=mark("What does a medium feeder take in full growth and full light?"),
        why=mark(
            "It is the measure of which every later step leaves a share. In this house "
            "it is {full_strength_ppm_n}, unless a plant has one of its own."
        ),
        silent=mark("Never; every chain begins with it."),
        example=mark(
            "A cattleya has a full strength of its own of 120 ppm N: its chain "
            "starts there and not at {full_strength_ppm_n}."
        ),
        source=mark(
            "A university grower gives 125 ppm N, in a range of 100 "
            "to 200 (society article, "
            "http://hydroponicsplantnutrients.blogspot.com/); the "
            "number itself is a house rule."
        ),
    ),
    RulePage(
        rule="feeder",
        title=mark("Light and heavy feeders"),
        asks=mark("Is its kind a light, a medium or a heavy feeder?"),
        why=mark(
            "A masdevallia burns in what a vanda takes at every "
            "watering. A light feeder gets {feeder_light_share} of "
            "full strength, a medium one the whole, a heavy one "
            "{feeder_heavy_share}."
        ),
        silent=mark("For a medium feeder, which takes it whole."),
        example=mark("A masdevallia is a light feeder: {feeder_light_share} is left."),
        source=mark(
            "The class of each kind stands with the kind and its source; the shares "
            "are a house rule."
        ),
    ),
    *SEASON,
    RulePage(
        rule="seedling",
        title=mark("Seedling"),
        asks=mark("Is it a seedling?"),
        why=mark("Its few fine roots burn first."),
        silent=mark("From near-blooming size on, and where no size is recorded."),
        example=mark("A cattleya seedling: {seedling_share} is left."),
        source=_PRACTICE,
    ),
    RulePage(
        rule="no-tips-yet",
        title=mark("A growth without roots"),
        asks=mark(
            "Has its only new growth just emerged, with root tips looked for and not "
            "found?"
        ),
        why=mark(
            "Feed goes in through root tips. Until the growth has its own it lives on "
            "the bulb behind it."
        ),
        silent=mark(
            "Once a growth extends or matures, once root tips show, and where they "
            "are hidden or not recorded."
        ),
        example=mark(
            "A cattleya's new growth has just emerged and no root tip was found: "
            "{no_tips_share} is left."
        ),
        source=_PRACTICE,
    ),
    RulePage(
        rule="fresh-repot",
        title=mark("Fresh from repotting"),
        asks=mark(
            "Was it repotted within the last {fresh_repot_most_days}, with no root "
            "tips seen since?"
        ),
        why=mark(
            "Its roots may not have taken hold yet, and what they do not take burns "
            "them."
        ),
        silent=mark(
            "As soon as root tips are seen after the repot, and after "
            "{fresh_repot_most_days}: in an opaque pot they may never be seen."
        ),
        example=mark(
            "A cattleya was repotted 60 days ago, its new growth extends, and no "
            "root tip was seen since: {fresh_repot_share} is left."
        ),
        source=_PRACTICE,
    ),
    RulePage(
        rule="slow-release",
        title=mark("Slow release"),
        asks=mark("Does slow-release feed in the pot still give?"),
        why=mark("The plant is fed twice, once by the grains and once by the can."),
        silent=mark("Without it, and after the day until which it gives."),
        example=mark(
            "A cattleya has slow release in its pot until next month: "
            "{slow_release_share} is left."
        ),
        source=_PRACTICE,
    ),
    RulePage(
        rule="sphagnum",
        title=mark("Sphagnum"),
        asks=mark("Is it potted in sphagnum?"),
        why=mark("Moss holds what it is given, so the same feed comes to more."),
        silent=mark("In every other potting, and where none is recorded."),
        example=mark("A cattleya potted in sphagnum: {sphagnum_share} is left."),
        source=mark(
            '"Fertilize Weakly Weekly", AOS, July 2023, '
            "https://www.aos.org/orchids/articles/fertilize-weakly-weekly (sphagnum "
            "and peat hold salts, so a more dilute feed); the share is a house rule."
        ),
    ),
    RulePage(
        rule="fed-oftener",
        title=mark("Fed oftener"),
        asks=mark("Is it fed oftener than every {least_interval_days}?"),
        why=mark(
            "What counts is what it gets in a week. Fed twice as often, it takes half "
            "as much each time."
        ),
        silent=mark(
            "For a plant that keeps to the house's interval, or feeds more rarely."
        ),
        example=mark(
            "A cattleya with an interval of its own, half as long as the house's "
            "{least_interval_days}: 50 % is left."
        ),
        source=mark("Common practice, no source; the proportion is a house rule."),
    ),
    RulePage(
        rule="floor",
        title=mark("The weakest feed"),
        asks=mark("Has the chain left less than {strength_floor_ppm_n}?"),
        why=mark(
            "A weaker mix is hardly worth the weighing. A ceiling is stronger than "
            "this floor."
        ),
        silent=mark("While the chain leaves as much or more."),
        example=mark(
            "A masdevallia seedling fresh from repotting, at 48° north in "
            "December, is lifted to {strength_floor_ppm_n}."
        ),
        source=mark("House rule."),
    ),
    RulePage(
        rule="ceiling",
        title=mark("The strongest feed"),
        asks=mark(
            "Is the strength above the most that the plant, its kind or this house "
            "bears?"
        ),
        why=mark(
            "Above its ceiling a plant sensitive to salts burns, "
            "whatever the light. The lowest ceiling holds, "
            "{strength_ceiling_ppm_n} in this house; a plant's own "
            "takes the place of its kind's."
        ),
        silent=mark("While the strength stays under every ceiling."),
        example=mark(
            "A cattleya with a ceiling of its own of 20 ppm N gets 20 ppm N and "
            "no more."
        ),
        source=mark(
            "The kind's is published, marked as ours, or yours where you corrected "
            "it, and stands with the kind; the house's is a house rule."
        ),
    ),
    RulePage(
        rule="rounded",
        title=mark("Rounded"),
        asks=mark("What is the strength in steps of {strength_step_ppm_n}?"),
        why=mark(
            "Nobody weighs to the single ppm, and like strengths share a jug. Half a "
            "step is rounded up, but never past a ceiling."
        ),
        silent=mark(
            "When the strength falls on a step already, and where the nearest step "
            "lies below the weakest feed: then the strength stands as it is."
        ),
        example=mark(
            "A strength half a step below one of the steps of "
            "{strength_step_ppm_n} is rounded up to it."
        ),
        source=mark("House rule."),
    ),
)

_PERFORMANCE = tuple(
    f"performance-{what}-{whose}{ending}"
    for what in ("lead", "roots")
    for whose in ("own", "kind")
    for ending in ("", "-in-season")
)

OF_STEP = {
    "full-house": "full-strength",
    "full-own": "full-strength",
    **{f"feeder-{feeder.value}": "feeder" for feeder in Feeder},
    "season-controlled": "controlled-place",
    "season-light-read": "light-read",
    "season-lamps": "season-lamps",
    "season-lamps-and-daylight": "season-lamps",
    "season-window": "daylight",
    "season-roof": "daylight",
    "season-open-side": "daylight",
    "season-open-sky": "daylight",
    "season-light": "season-light",
    "season-temperature": "season-temperature",
    "season-temperature-some": "season-temperature",
    "season-temperature-once": "season-temperature",
    "season-temperature-undated": "season-temperature",
    **dict.fromkeys(_PERFORMANCE, "performance"),
    "seedling": "seedling",
    "no-tips-yet": "no-tips-yet",
    "fresh-repot": "fresh-repot",
    "slow-release": "slow-release",
    "sphagnum": "sphagnum",
    "fed-oftener": "fed-oftener",
    "fed-oftener-since": "fed-oftener",
    "idle": growth.IDLE,
    "floor": "floor",
    "ceiling-house": "ceiling",
    "ceiling-own": "ceiling",
    "ceiling-kind": "ceiling",
    "ceiling-kind-ours": "ceiling",
    "ceiling-kind-yours": "ceiling",
    "rounded": "rounded",
}
"""Which page tells of a step of the chain; a test holds every step to one."""
