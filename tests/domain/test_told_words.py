"""All that is said of some ninety plants: what decides, the rest, the strength."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from growdesk.domain import wording
from growdesk.domain.facts import (
    Bulbs,
    CareKind,
    Facing,
    Flowering,
    Health,
    Lamps,
    Leaves,
    Medium,
    NewGrowths,
    NewLeaf,
    Overrule,
    Place,
    Plant,
    RootTips,
    Verdict,
)
from tests.domain.builders import (
    EMERGING,
    EXTENDING,
    MATURING,
    NOTHING,
    day,
    did,
    fed,
    judged,
    look,
    moving,
    plant,
    still,
    warm_place,
)

CASES: list[tuple[Plant, str, tuple[str, ...]]] = [
    (
        plant("catasetum", still("03-03", leaves=Leaves.LEAFLESS)),
        "03-10",
        (
            (
                "decides: Keep dry. It was bare on 3 March and at rest. Water returns "
                "when its new roots reach 8 cm."
            ),
        ),
    ),
    (
        plant("catasetum", look("03-03", leaves=Leaves.LEAFLESS)),
        "03-10",
        (
            (
                "decides: Keep dry. It was bare on 3 March. Its new roots are not on "
                "record. Look for them and measure the longest: water returns at 8 cm."
            ),
        ),
    ),
    (
        plant("catasetum", look("03-03", longest_new_root_mm=20.0)),
        "03-10",
        (
            (
                "decides: Keep dry. Its longest new root was 2 cm on 3 March; it is "
                "watered when the roots reach 8 cm. No leaf is on record as out."
            ),
        ),
    ),
    (
        plant("catasetum", look("03-03", leaves=Leaves.LEAFLESS, new_growths=EMERGING)),
        "03-10",
        (
            (
                "decides: Keep dry. It was bare on 3 March and has begun to move. The "
                "length of its new roots is not on record. Measure the longest: water "
                "returns at 8 cm."
            ),
            "not-a-reason: A new growth had emerged on 3 March, but it has to wait.",
        ),
    ),
    (
        plant("catasetum", look("03-03", new_growths=EMERGING)),
        "03-10",
        (
            (
                "decides: Keep dry. It had begun to move on 3 March. Neither a leaf "
                "nor the length of its new roots is on record. Measure the longest: "
                "water returns at 8 cm."
            ),
            "not-a-reason: A new growth had emerged on 3 March, but it has to wait.",
        ),
    ),
    (
        plant("catasetum", look("03-03", root_tips=RootTips.NONE)),
        "03-10",
        (
            (
                "decides: Keep dry. This kind stays dry until its new roots reach 8 "
                "cm. The look of 3 March does not say whether a leaf is out. Look for "
                "a leaf and measure the longest new root."
            ),
        ),
    ),
    (
        plant("catasetum", look("05-03", leaves=Leaves.FIRM, longest_new_root_mm=30.0)),
        "05-10",
        (
            (
                "decides: Keep dry. A leaf is out, but its longest new root was 3 cm "
                "on 3 May. Until midsummer it waits for 8 cm."
            ),
        ),
    ),
    (
        plant(
            "catasetum",
            look(
                "05-03",
                leaves=Leaves.FIRM,
                new_growths=EXTENDING,
                root_tips=RootTips.STARTING,
            ),
        ),
        "05-10",
        (
            (
                "decides: Keep dry. A leaf is out, but on 3 May no root tips were "
                "running yet. Until midsummer it waits for them to run, or to measure "
                "8 cm."
            ),
            "not-a-reason: A new growth was extending on 3 May, but it has to wait.",
        ),
    ),
    (
        plant(
            "catasetum",
            look(
                "03-03",
                new_growths=EMERGING,
                leaves=Leaves.LEAFLESS,
                longest_new_root_mm=40.0,
            ),
            look("05-03", new_growths=EMERGING, leaves=Leaves.LEAFLESS),
        ),
        "05-10",
        (
            (
                "decides: Keep dry. It was bare on 3 March, with roots of 4 cm. It is "
                "watered when they reach 8 cm."
            ),
            (
                "unknown: That measure is 68 days old, so measure the longest new "
                "root again."
            ),
            "not-a-reason: A new growth had emerged on 3 May, but it has to wait.",
        ),
    ),
    (
        plant(
            "lycaste", look("03-03", leaves=Leaves.LEAFLESS, longest_new_root_mm=10.0)
        ),
        "03-10",
        (
            (
                "decides: Clear water, sparingly. It had begun to move on 3 March, "
                "with roots of 1 cm. It is fed once they reach 2.5 cm or a leaf "
                "unfolds."
            ),
        ),
    ),
    (
        plant("lycaste", look("03-03", leaves=Leaves.LEAFLESS, new_growths=EMERGING)),
        "03-10",
        (
            (
                "decides: Clear water, sparingly. It had begun to move on 3 March. The "
                "length of its new roots is not on record. Measure them: it is fed "
                "from 2.5 cm on, or once a leaf unfolds."
            ),
            "not-a-reason: A new growth had emerged on 3 March, but it has to wait.",
        ),
    ),
    (
        plant("lycaste", look("03-03", leaves=Leaves.LEAFLESS, new_growths=EMERGING)),
        "03-30",
        (
            (
                "decides: Clear water, sparingly. It had begun to move on 3 March. The "
                "length of its new roots is not on record. Measure them: it is fed "
                "from 2.5 cm on, or once a leaf unfolds."
            ),
            (
                "unknown: That look is 27 days old, so look at the roots today. "
                "Until then no more than that."
            ),
            "not-a-reason: A new growth had emerged on 3 March, but it has to wait.",
        ),
    ),
    (
        plant("lycaste", look("03-03", root_tips=RootTips.NONE)),
        "03-10",
        (
            (
                "decides: Keep dry. This kind stays dry until a new growth or new "
                "roots show, and on 3 March none did. That look does not say whether a "
                "leaf is out."
            ),
        ),
    ),
    (
        plant("lycaste", still("03-03", leaves=Leaves.LEAFLESS)),
        "03-10",
        (
            (
                "decides: Keep dry. It was bare on 3 March, and nothing new is on "
                "record. Water returns with a new growth or new roots."
            ),
        ),
    ),
    (
        plant(
            "catasetum",
            look("11-10", new_growths=NewGrowths(0, 0, 0, 1), leaves=Leaves.DROPPING),
        ),
        "11-12",
        (
            (
                "decides: Clear water, sparingly. Its growth is finishing and the "
                "leaves were dropping on 10 November; it is going down to its rest."
            ),
            (
                "not-a-reason: On 10 November no new growth showed. Root tips were not "
                "recorded."
            ),
        ),
    ),
    (
        plant("cattleya"),
        "05-20",
        (
            "decides: Look at it first. No look is on record for it.",
            (
                "supports: Until it is looked at, clear water, and only if the pot "
                "is light."
            ),
        ),
    ),
    (
        plant("catasetum"),
        "05-20",
        (
            "decides: Look at it first. No look is on record for it.",
            "supports: Until it is looked at, no water.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("04-01"),
            care=(
                did("01-01", CareKind.FLUSH),
                fed("01-10"),
                fed("01-20"),
                fed("02-01"),
            ),
        ),
        "05-20",
        (
            (
                "decides: Look at it first. It was last looked at on 1 April, 49 "
                "days ago."
            ),
            "supports: By the look of 1 April it would be flushed.",
            (
                "supports: Until it is looked at, clear water, and only if the pot "
                "is light."
            ),
        ),
    ),
    (
        plant("cattleya", still("04-01")),
        "05-20",
        (
            (
                "decides: Look at it first. It was last looked at on 1 April, 49 "
                "days ago."
            ),
            "supports: By the look of 1 April it would get clear water.",
            (
                "supports: Until it is looked at, clear water, and only if the pot "
                "is light."
            ),
        ),
    ),
    (
        plant("catasetum", still("04-01", leaves=Leaves.LEAFLESS)),
        "05-20",
        (
            (
                "decides: Keep dry. It was bare on 1 April and at rest. Water returns "
                "when its new roots reach 8 cm."
            ),
            (
                "unknown: That look is 49 days old, so look at the roots today. "
                "Until then no water."
            ),
        ),
    ),
    (
        plant("lycaste", look("03-03", leaves=Leaves.FIRM, new_growths=NOTHING)),
        "05-20",
        (
            (
                "decides: Look at it first. It was last looked at on 3 March, 78 "
                "days ago."
            ),
            "supports: By the look of 3 March it would get clear water.",
            (
                "supports: Until it is looked at, clear water, and only if the pot "
                "is light."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18", bulbs=Bulbs.SHRIVELLED)),
        "05-20",
        (
            (
                "decides: Clear water, right through the pot. It was badly shrivelled "
                "on 18 May, though its roots live. It needs water before it needs "
                "feed."
            ),
            "not-a-reason: A new growth was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("cattleya", look("05-18", leaves=Leaves.SHRIVELLED)),
        "05-20",
        (
            (
                "decides: Clear water, sparingly. It was badly shrivelled on 18 May. "
                "Whether its roots live is not known. Look at the roots before it gets "
                "more."
            ),
            (
                "not-a-reason: The look of 18 May records neither new growths nor "
                "root tips."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18"), place=Place(mean_temperature_c=12.0)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its place stands at 12 °C. "
                "At 13 °C or less its roots leave the feed in the pot."
            ),
            "not-a-reason: A new growth was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("cattleya", moving("05-18"), place=Place(mean_temperature_c=33.0)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its place stands at 33 °C. "
                "Above 32 °C this kind is not fed."
            ),
            "not-a-reason: A new growth was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("laelia-rupicolous", still("01-15")),
        "01-18",
        (
            (
                "decides: Clear water, sparingly. It has its dry, unfed rest until 31 "
                "March. On 15 January no new growth and no root tips showed."
            ),
        ),
    ),
    (
        plant(
            "laelia-rupicolous",
            look(
                "01-15", new_growths=NewGrowths(0, 0, 0, 1, 1), root_tips=RootTips.NONE
            ),
        ),
        "01-18",
        (
            (
                "decides: Clear water, sparingly. It has its dry, unfed rest until 31 "
                "March. Its new growth stood still up to 15 January."
            ),
        ),
    ),
    (
        plant("laelia-rupicolous", look("01-15")),
        "01-18",
        (
            (
                "decides: Clear water, sparingly. It has its dry, unfed rest until 31 "
                "March. No look shows a new growth or root tips on the move."
            ),
        ),
    ),
    (
        plant("laelia-rupicolous"),
        "01-18",
        (
            "decides: Look at it first. No look is on record for it.",
            "supports: Until it is looked at, a little clear water at most.",
        ),
    ),
    (
        plant("dendrobium-nobile", moving("11-15")),
        "11-18",
        (
            (
                "decides: Clear water, if the pot is light. This kind gets no nitrogen "
                "from 15 September to 28 February, whatever grows."
            ),
            (
                "not-a-reason: A new growth was extending on 15 November, but it "
                "has to wait."
            ),
        ),
    ),
    (
        plant("dendrobium-nobile", still("05-15")),
        "05-18",
        (
            (
                "decides: Clear water, sparingly. This kind has rested from nitrogen. "
                "Feed waits for a new shoot with roots of its own."
            ),
        ),
    ),
    (
        plant(
            "dendrobium-nobile",
            still("05-10", Flowering.BUDS),
            still("05-15", Flowering.OPEN),
        ),
        "05-18",
        (
            (
                "decides: Clear water, if the pot is light. Its flower buds showed "
                "on 10 May, so normal watering is back; nitrogen is not. Feed waits"
                " for new shoots with roots of their own."
            ),
            ("not-a-reason: Its buds bring the water back, not the feed."),
        ),
    ),
    (
        plant("dendrobium-nobile", moving("05-15")),
        "05-18",
        (
            "decides: Feed. A new growth was extending on 15 May.",
            "supports: Root tips were running on 15 May.",
            (
                "It wants 190 ppm N: the house's full strength is 150 ppm N; a heavy"
                " feeder takes a quarter more, 188 ppm N; the light of the season "
                "leaves 99 %, 186 ppm N; in steps of 10 ppm N that is 190 ppm N."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18", health=[Health.SALT_BURN])),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. Salt burn was first seen on "
                "18 May. It was not washed through between then and today."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant("cattleya", still("05-18", health=[Health.SALT_BURN])),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new growth"
                " and no root tips showed."
            ),
            (
                "not-a-reason: It is due a flush, but no growth was seen. A soaking "
                "now does more harm than the salts."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", health=[Health.SALT_BURN]),
            place=warm_place(12.0, "2026-05-20"),
        ),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its place has averaged 12 "
                "°C over the last 7 days. At 13 °C or less its roots leave the feed in "
                "the pot."
            ),
            "not-a-reason: It is due a flush; that waits until its place is warmer.",
            "not-a-reason: A new growth was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", runoff_ec_ms_per_cm=1.9),
            care=(fed("05-10", 150),),
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. Its runoff read 1.9 mS/cm on "
                "18 May, 2 days ago. With 1.05 mS/cm poured, 1.58 mS/cm is the most "
                "that should come out. It was not washed through between then and "
                "today."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", runoff_ec_ms_per_cm=1.9),
            care=(fed("05-10", 150, 0.8),),
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. Its runoff read 1.9 mS/cm on "
                "18 May, 2 days ago. With 0.8 mS/cm poured, 1.2 mS/cm is the most that "
                "should come out. It was not washed through between then and today."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant("cattleya", moving("05-18", runoff_ec_ms_per_cm=2.5)),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. Its runoff read 2.5 mS/cm on "
                "18 May, 2 days ago. A pot of its kind should hold 1.5 mS/cm at most; "
                "its kind is Cattleya, one-leaved, and hybrids. It was not washed "
                "through between then and today."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", runoff_ec_ms_per_cm=2.5),
            pot_volume_l=1.0,
            medium=Medium.BARK,
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. Its runoff read 2.5 mS/cm on "
                "18 May, 2 days ago. A pot of its kind should hold 1.5 mS/cm at most; "
                "its kind is Cattleya, one-leaved, and hybrids. It was not washed "
                "through between then and today."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            care=(
                did("03-20", CareKind.REPOT),
                fed("04-10"),
                fed("04-20"),
                fed("05-01"),
            ),
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. It has had 3 feeds since it "
                "was repotted on 20 March. Its potting takes 3 before a flush."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant(
            "cattleya", moving("05-18"), care=(fed("04-10"), fed("04-20"), fed("05-01"))
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. It has had 3 feeds, and no "
                "flush is on record. Its potting takes 3 before one."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            care=(fed("04-10"), fed("04-20")),
            medium=Medium.SPHAGNUM,
        ),
        "05-20",
        (
            (
                "decides: Flush: clear water in quantity. It has had 2 feeds, and no "
                "flush is on record. Its potting takes 2 before one."
            ),
            "supports: A new growth was extending on 18 May.",
        ),
    ),
    (
        plant("cattleya", moving("05-18"), care=(fed("05-13"),)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", moving("05-18"), care=(fed("05-19"),)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. It was fed on 19 May, 1 "
                "day ago. Its feeds lie 6 days apart."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18"), care=(fed("05-10"),), feed_interval_days=12),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. It was fed on 10 May, 10 "
                "days ago. Its feeds lie 12 days apart."
            ),
        ),
    ),
    (
        plant("laelia-rupicolous", moving("10-18"), care=(fed("10-05"),)),
        "10-20",
        (
            (
                "decides: Flush: clear water in quantity. Its rest begins on 1 "
                "November. Its pot is washed through once in the 21 days before it."
            ),
            "supports: A new growth was extending on 18 October.",
        ),
    ),
    (
        plant("miltoniopsis", look("01-15", new_growths=NOTHING)),
        "01-18",
        (
            (
                "decides: Feed. This kind never rests: every 30 days it is fed at "
                "half. The look of 15 January shows nothing on the move. Its root tips "
                "are not on record."
            ),
            (
                "It wants 30 ppm N: the house's full strength is 150 ppm N; a light "
                "feeder takes half, 75 ppm N; the light of the season leaves 64 %, "
                "48 ppm N; with no growth in sight it takes half, 24 ppm N; the "
                "house's floor lifts it to 30 ppm N."
            ),
        ),
    ),
    (
        plant(
            "miltoniopsis",
            look("01-15", new_growths=NOTHING, root_tips=RootTips.NONE),
            care=(fed("01-05"),),
        ),
        "01-18",
        (
            (
                "decides: Clear water, if the pot is light. On 15 January no new "
                "growth and no root tips showed."
            ),
        ),
    ),
    (
        plant(
            "cattleya", look("05-18", new_growths=NOTHING, root_tips=RootTips.HIDDEN)
        ),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new growth "
                "showed. Its root tips are hidden."
            ),
        ),
    ),
    (
        plant("cattleya", look("05-18", root_tips=RootTips.NONE)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no root tips "
                "showed. New growths were not recorded."
            ),
        ),
    ),
    (
        plant("cattleya", look("05-18", root_tips=RootTips.HIDDEN)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its root tips are hidden. "
                "The look of 18 May records no new growths."
            ),
        ),
    ),
    (
        plant("cattleya", look("05-18")),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. The look of 18 May "
                "records neither new growths nor root tips."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            look(
                "05-18", new_growths=NewGrowths(0, 0, 0, 1, 1), root_tips=RootTips.NONE
            ),
        ),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its new growth stands "
                "still, and on 18 May no root tips showed."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            look(
                "05-18",
                new_growths=NewGrowths(0, 0, 0, 1, 1),
                root_tips=RootTips.HIDDEN,
            ),
        ),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its new growth stood still "
                "up to 18 May. The root tips are hidden."
            ),
        ),
    ),
    (
        plant("cattleya", look("05-18", new_growths=NewGrowths(0, 0, 0, 1, 1))),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its new growth stood still "
                "up to 18 May. Root tips were not recorded."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.NONE, root_tips=RootTips.NONE)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new leaf "
                "and no root tips were moving."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.FULL, root_tips=RootTips.HIDDEN)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new leaf was "
                "moving. Its root tips are hidden."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.NONE)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new leaf was "
                "moving. Root tips were not recorded."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", root_tips=RootTips.NONE)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no root tips "
                "showed. A new leaf was not recorded."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", root_tips=RootTips.HIDDEN)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. Its root tips are hidden. "
                "The look of 18 May records no new leaf."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18")),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. The look of 18 May "
                "records neither a new leaf nor root tips."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.STARTING)),
        "05-20",
        (
            "decides: Feed. A new leaf was starting on 18 May.",
            (
                "It wants 190 ppm N: the house's full strength is 150 ppm N; a heavy"
                " feeder takes a quarter more, 188 ppm N; in steps of 10 ppm N that"
                " is 190 ppm N."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.EXTENDING, health=[Health.ROT])),
        "05-20",
        (
            "decides: Keep dry. Rot was seen on 18 May.",
            (
                "supports: Cut back to clean tissue; keep it dry, warm and in moving "
                "air. Stand it apart and handle it last."
            ),
            "not-a-reason: A new leaf was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("cattleya", look("05-18", new_growths=EMERGING)),
        "05-20",
        (
            "decides: Feed. A new growth had emerged on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", look("05-18", new_growths=MATURING)),
        "05-20",
        (
            "decides: Feed. A new growth was maturing on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", look("05-18", new_growths=MATURING, health=[Health.ROT])),
        "05-20",
        (
            "decides: Keep dry. Rot was seen on 18 May.",
            (
                "supports: Cut back to clean tissue; keep it dry, warm and in moving "
                "air. Stand it apart and handle it last."
            ),
            "not-a-reason: A new growth was maturing on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("cattleya", look("05-18", root_tips=RootTips.RUNNING)),
        "05-20",
        (
            "decides: Feed. Root tips were running on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", look("05-18", root_tips=RootTips.STARTING)),
        "05-20",
        (
            "decides: Feed. Root tips were just starting on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya", look("05-18", root_tips=RootTips.STARTING, health=[Health.ROT])
        ),
        "05-20",
        (
            "decides: Keep dry. Rot was seen on 18 May.",
            (
                "supports: Cut back to clean tissue; keep it dry, warm and in moving "
                "air. Stand it apart and handle it last."
            ),
            (
                "not-a-reason: Root tips were just starting on 18 May, but it has "
                "to wait."
            ),
        ),
    ),
    (
        plant(
            "cattleya", look("05-18", root_tips=RootTips.RUNNING, health=[Health.ROT])
        ),
        "05-20",
        (
            "decides: Keep dry. Rot was seen on 18 May.",
            (
                "supports: Cut back to clean tissue; keep it dry, warm and in moving "
                "air. Stand it apart and handle it last."
            ),
            "not-a-reason: Root tips were running on 18 May, but it has to wait.",
        ),
    ),
    (
        plant("phalaenopsis", look("05-18", Flowering.SPIKE, new_leaf=NewLeaf.NONE)),
        "05-20",
        (
            (
                "decides: Feed. A spike or buds were on the way on 18 May. In this "
                "kind they draw feed."
            ),
            (
                "It wants 190 ppm N: the house's full strength is 150 ppm N; a heavy"
                " feeder takes a quarter more, 188 ppm N; in steps of 10 ppm N that"
                " is 190 ppm N."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-20", Flowering.BUDS)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 20 May.",
            "supports: Root tips were running on 20 May.",
            "not-a-reason: It is in bud, but that isn't why it is fed.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", still("05-20", Flowering.BUDS)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 20 May no new growth"
                " and no root tips showed."
            ),
            "not-a-reason: It is in bud, but that isn't the reason.",
        ),
    ),
    (
        plant("cattleya", moving("05-20", Flowering.OPEN)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 20 May.",
            "supports: Root tips were running on 20 May.",
            (
                "not-a-reason: It is in flower, which neither asks for feed nor "
                "forbids it."
            ),
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", still("05-20", Flowering.OPEN)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 20 May no new growth"
                " and no root tips showed."
            ),
            "not-a-reason: It is in flower, but that isn't the reason.",
        ),
    ),
    (
        plant("cattleya", moving("05-20", Flowering.FADING)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 20 May.",
            "supports: Root tips were running on 20 May.",
            (
                "not-a-reason: Its flowers are fading, which neither asks for feed "
                "nor forbids it."
            ),
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", still("05-20", Flowering.FADING)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 20 May no new growth"
                " and no root tips showed."
            ),
            "not-a-reason: Its flowers are fading, but that isn't the reason.",
        ),
    ),
    (
        plant("cattleya", moving("05-18", Flowering.BUDS)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            "not-a-reason: It was in bud on 18 May, but that isn't why it is fed.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", still("05-18", Flowering.BUDS)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new growth"
                " and no root tips showed."
            ),
            "not-a-reason: It was in bud on 18 May, but that isn't the reason.",
        ),
    ),
    (
        plant("cattleya", moving("05-18", Flowering.FADING)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "not-a-reason: Its flowers were fading on 18 May, which neither "
                "asks for feed nor forbids it."
            ),
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", still("05-18", Flowering.FADING)),
        "05-20",
        (
            (
                "decides: Clear water, if the pot is light. On 18 May no new growth"
                " and no root tips showed."
            ),
            (
                "not-a-reason: Its flowers were fading on 18 May, but that isn't "
                "the reason."
            ),
        ),
    ),
    (
        plant("", moving("05-18")),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "unknown: No kind called Test plant is known. It is judged as a "
                "careful general one."
            ),
            (
                "It wants 70 ppm N: the house's full strength is 150 ppm N; a light "
                "feeder takes half, 75 ppm N; in steps of 10 ppm N that is 70 ppm "
                "N."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18"), care=(fed("05-22"),)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            "unknown: Care dated 22 May lies after this day and was not used.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            overrule=Overrule(Verdict.FEED, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Feed. You overruled this, until 30 May: on trial.",
            "supports: Without the overrule it would get the same.",
            "supports: A new growth was extending on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            overrule=Overrule(Verdict.KEEP_DRY, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Keep dry. You overruled this, until 30 May: on trial.",
            "not-a-reason: Without the overrule it would be fed.",
            "not-a-reason: A new growth was extending on 18 May, but it has to wait.",
        ),
    ),
    (
        plant(
            "catasetum",
            still("05-18", leaves=Leaves.LEAFLESS),
            overrule=Overrule(Verdict.FEED, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Feed. You overruled this, until 30 May: on trial.",
            "not-a-reason: Without the overrule it would be kept dry.",
            (
                "not-a-reason: It was bare on 18 May and at rest. Water returns when "
                "its new roots reach 8 cm."
            ),
            "not-a-reason: On 18 May no new growth and no root tips showed.",
            (
                "It wants 190 ppm N: the house's full strength is 150 ppm N; a heavy"
                " feeder takes a quarter more, 188 ppm N; in steps of 10 ppm N that"
                " is 190 ppm N."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", health=[Health.NO_ROOTS]),
            overrule=Overrule(Verdict.FEED, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Feed. You overruled this, until 30 May: on trial.",
            "not-a-reason: Without the overrule it would get clear water, sparingly.",
            (
                "not-a-reason: It had no live roots on 18 May. Feed cannot help a "
                "plant that cannot drink."
            ),
            "supports: A new growth was extending on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18", health=[Health.SALT_BURN]),
            overrule=Overrule(Verdict.FEED, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Feed. You overruled this, until 30 May: on trial.",
            "not-a-reason: Without the overrule it would be flushed.",
            (
                "not-a-reason: Salt burn was first seen on 18 May. It was not washed "
                "through between then and today."
            ),
            "supports: A new growth was extending on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya",
            still("04-01"),
            overrule=Overrule(Verdict.FEED, "on trial", day("05-30")),
        ),
        "05-20",
        (
            "decides: Feed. You overruled this, until 30 May: on trial.",
            (
                "not-a-reason: Without the overrule it would be looked at first, with "
                "clear water until then, only if the pot is light."
            ),
            "not-a-reason: It was last looked at on 1 April, 49 days ago.",
            "not-a-reason: On 1 April no new growth and no root tips showed.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant("cattleya", moving("05-18"), place=Place(mean_temperature_c=15.0)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "It wants 120 ppm N: the house's full strength is 150 ppm N; a place"
                " at 15 °C leaves 78 %, 116 ppm N; in steps of 10 ppm N that is 120"
                " ppm N."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            place=Place(controlled=True),
            full_strength_ppm_n=500.0,
        ),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "It wants 400 ppm N: its own full strength is 500 ppm N; the place "
                "is controlled, so the season takes nothing off; the house's "
                "ceiling holds it at 400 ppm N."
            ),
        ),
    ),
    (
        plant(
            "paphiopedilum",
            look("05-18", new_growths=EXTENDING),
            place=Place(controlled=True),
            full_strength_ppm_n=500.0,
        ),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            (
                "It wants 100 ppm N: its own full strength is 500 ppm N; a light "
                "feeder takes half, 250 ppm N; the place is controlled, so the "
                "season takes nothing off; our careful ceiling for its kind holds "
                "it at 100 ppm N."
            ),
        ),
    ),
    (
        plant("cattleya", moving("05-18"), place=Place(outdoors=True)),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            "It wants 150 ppm N: the house's full strength is 150 ppm N.",
        ),
    ),
    (
        plant(
            "cattleya", moving("05-18"), place=Place(facing=Facing.SOUTH, outdoors=True)
        ),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "It wants 140 ppm N: the house's full strength is 150 ppm N; open to"
                " the south it gets about 16 mol of light a day of the 22 this kind"
                " wants, which leaves 91 %, 137 ppm N; in steps of 10 ppm N that is"
                " 140 ppm N."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("12-18"),
            place=Place(facing=Facing.SOUTH, lamps=Lamps(6, 100)),
        ),
        "12-20",
        (
            "decides: Feed. A new growth was extending on 18 December.",
            "supports: Root tips were running on 18 December.",
            (
                "It wants 100 ppm N: the house's full strength is 150 ppm N; its "
                "lamps and the daylight give about 8.5 mol of light a day of the 22"
                " this kind wants, which leaves 69 %, 103 ppm N; in steps of 10 ppm"
                " N that is 100 ppm N."
            ),
        ),
    ),
    (
        plant("cattleya", moving("12-18"), place=Place(facing=Facing.OVERHEAD)),
        "12-20",
        (
            "decides: Feed. A new growth was extending on 18 December.",
            "supports: Root tips were running on 18 December.",
            (
                "It wants 70 ppm N: the house's full strength is 150 ppm N; the roof"
                " over it lets in about 4.4 mol of light a day of the 22 this kind "
                "wants, which leaves 47 %, 70 ppm N."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("12-18"),
            place=Place(facing=Facing.OVERHEAD, outdoors=True),
        ),
        "12-20",
        (
            "decides: Feed. A new growth was extending on 18 December.",
            "supports: Root tips were running on 18 December.",
            (
                "It wants 80 ppm N: the house's full strength is 150 ppm N; under "
                "the open sky it gets about 5.9 mol of light a day of the 22 this "
                "kind wants, which leaves 56 %, 84 ppm N; in steps of 10 ppm N that"
                " is 80 ppm N."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.EXTENDING)),
        "05-20",
        (
            "decides: Feed. A new leaf was extending on 18 May.",
            (
                "It wants 190 ppm N: the house's full strength is 150 ppm N; a heavy"
                " feeder takes a quarter more, 188 ppm N; in steps of 10 ppm N that"
                " is 190 ppm N."
            ),
        ),
    ),
    (
        plant("vanda", look("05-18", new_leaf=NewLeaf.STARTING, health=[Health.ROT])),
        "05-20",
        (
            "decides: Keep dry. Rot was seen on 18 May.",
            (
                "supports: Cut back to clean tissue; keep it dry, warm and in moving "
                "air. Stand it apart and handle it last."
            ),
            "not-a-reason: A new leaf was starting on 18 May, but it has to wait.",
        ),
    ),
    (
        replace(plant("", moving("05-18")), name=""),
        "05-20",
        (
            "decides: Feed. A new growth was extending on 18 May.",
            "supports: Root tips were running on 18 May.",
            (
                "unknown: Neither a kind nor a name is given. It is judged as a "
                "careful general one."
            ),
            (
                "It wants 70 ppm N: the house's full strength is 150 ppm N; a light "
                "feeder takes half, 75 ppm N; in steps of 10 ppm N that is 70 ppm "
                "N."
            ),
        ),
    ),
    (
        plant(
            "cattleya",
            moving("05-18"),
            pot_volume_l=1.0,
            medium=Medium.BARK,
            care=(
                did("04-10", CareKind.FLUSH),
                *(fed(on, 400) for on in ("04-12", "04-19")),
            ),
        ),
        "04-20",
        (
            "decides: Look at it first. No look is on record for it.",
            (
                "supports: Until it is looked at, clear water, and only if the pot "
                "is light."
            ),
            (
                "unknown: By what it was given since 10 April, its pot may stand at "
                "1.4 to 3 mS/cm. Its kind's limit is 1.5 mS/cm. Measure the runoff."
            ),
            "unknown: A look dated 18 May lies after this day and was not used.",
        ),
    ),
    (
        plant("miltoniopsis", look("01-15", new_growths=NOTHING), care=(fed("01-05"),)),
        "01-18",
        (
            (
                "decides: Clear water, if the pot is light. On 15 January no new "
                "growth showed. Root tips were not recorded."
            ),
            (
                "supports: This kind never rests, so it is fed at half every 30 days. "
                "The last feed was on 5 January."
            ),
        ),
    ),
    (
        plant("catasetum", moving("2025-08-20", leaves=Leaves.FIRM)),
        "01-15",
        (
            (
                "decides: Look at it first. It was last looked at on 20 August, "
                "148 days ago."
            ),
            "supports: By now it may stand bare, and a bare pot is always light.",
            "supports: Until it is looked at, no water.",
        ),
    ),
    (
        plant(
            "catasetum", still("2025-12-28", leaves=Leaves.FIRM, new_growths=MATURING)
        ),
        "01-05",
        (
            (
                "decides: Keep dry. It is past 20 December and the look of 28 December "
                "shows its growth maturing and no new one. It is time it rested."
            ),
        ),
    ),
    (
        plant(
            "catasetum", moving("2025-12-28", leaves=Leaves.FIRM, new_growths=NOTHING)
        ),
        "01-05",
        (
            (
                "decides: Keep dry. It is past 20 December and the look of 28 December "
                "shows root tips on the move but no new growth. It is time it rested."
            ),
        ),
    ),
    (
        plant(
            "catasetum", moving("2025-12-28", leaves=Leaves.FIRM, new_growths=MATURING)
        ),
        "01-05",
        (
            (
                "decides: Keep dry. It is past 20 December: on 28 December its growth "
                "was maturing, root tips moved and no new growth showed. It is time it "
                "rested."
            ),
        ),
    ),
    (
        plant(
            "dendrobium-nobile",
            look("06-28", new_growths=EXTENDING, root_tips=RootTips.HIDDEN),
        ),
        "07-01",
        (
            (
                "decides: Clear water, if the pot is light. A new shoot was "
                "extending on 28 June, and its root tips are hidden. Feed waits "
                "until it has been on record for 42 days, on 9 August."
            ),
        ),
    ),
    (
        plant("dendrobium-nobile", look("06-28", new_growths=EXTENDING)),
        "07-01",
        (
            (
                "decides: Clear water, if the pot is light. A new shoot was extending "
                "on 28 June. Its root tips are not on record. Look at the roots: feed "
                "waits for tips of its own."
            ),
        ),
    ),
    (
        plant(
            "dendrobium-nobile",
            still("01-10", Flowering.BUDS),
            still("01-28", Flowering.FADING),
        ),
        "01-31",
        (
            (
                "decides: Clear water, if the pot is light. Its flower buds "
                "showed on 10 January, so normal watering is back; nitrogen is "
                "not. Feed waits until 28 February, and then for new shoots with "
                "roots of their own."
            ),
            (
                "not-a-reason: Its buds brought the water back; its flowers say "
                "nothing about feed."
            ),
        ),
    ),
    (
        plant("lycaste", look("03-05", leaves=Leaves.LEAFLESS, new_growths=MATURING)),
        "03-08",
        (
            (
                "decides: Clear water, sparingly. A growth was maturing on 5 March. "
                "Neither an open leaf nor roots of 2.5 cm are on record; with either "
                "it is fed."
            ),
            ("not-a-reason: A new growth was maturing on 5 March, but it has to wait."),
        ),
    ),
    (
        plant("Unheardofia", still("01-05", leaves=Leaves.LEAFLESS)),
        "01-08",
        (
            (
                "decides: Keep dry. It was bare on 5 January, and nothing new is on "
                "record. Water returns with a new growth or new roots."
            ),
            (
                "unknown: No kind called Unheardofia is known; do give its kind. It "
                "stands bare, so until then it is treated as a kind that drops its "
                "leaves."
            ),
        ),
    ),
    (
        plant("general", still("01-05", leaves=Leaves.LEAFLESS)),
        "01-08",
        (
            (
                "decides: Keep dry. It was bare on 5 January, and nothing new is on "
                "record. Water returns with a new growth or new roots."
            ),
            (
                "unknown: Its kind is not known; do give it. It stands bare, so until "
                "then it is treated as a kind that drops its leaves."
            ),
        ),
    ),
]


@pytest.mark.parametrize(("one", "on", "lines"), CASES)
def test_all_that_is_said_of_a_plant(
    one: Plant, on: str, lines: tuple[str, ...]
) -> None:
    judgement = judged(one, on)
    told = [f"{each.role.value}: {each.sentence}" for each in wording.tell(judgement)]
    strength = wording.strength_sentence(judgement)
    assert (*told, *([strength] if strength else [])) == lines
