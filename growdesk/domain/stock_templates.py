"""Every sentence about stock bottles, whole, by key."""

from __future__ import annotations

from growdesk.domain.speech import Lines, Phrases, mark

APART: Phrases[str] = Phrases(
    {
        "calcium-sulphate-refuse": "The calcium of {bring} and the sulphate of {meet} "
        "fall out as gypsum in one bottle.",
        "calcium-sulphate-warn": "Even at feed strength the calcium of {bring} and the "
        "sulphate of {meet} fall out as gypsum.",
        "calcium-phosphate-refuse": "The calcium of {bring} and the phosphate of "
        "{meet} fall out in one bottle.",
        "calcium-phosphate-warn": "At pH {ph} the calcium of {bring} and the "
        "phosphate of {meet} can cloud the feed: mix it "
        "with rain or RO water, and use it the same day.",
        "magnesium-phosphate-refuse": "The magnesium of {bring} and the phosphate "
        "of {meet} fall out as concentrates in one bottle.",
        "magnesium-phosphate-warn": "At pH {ph} the magnesium of {bring} and the "
        "phosphate of {meet} can cloud the feed: mix it "
        "with rain or RO water, and use it the same day.",
        "iron-phosphate-refuse": "The iron of {bring} is not chelated and falls out "
        "with the phosphate of {meet}.",
        "iron-phosphate-warn": "The iron of {bring} falls out with the phosphate of "
        "{meet}, unless its label says that it is chelated "
        "(EDTA, DTPA, EDDHA): read it first.",
        "over-refuse": "{bring} at {grams} is too strong: kept at {coolest}, a litre "
        "holds {most} with {share} of its solubility used.",
        "crystals-refuse": "Together {bring} bring the ions of more {salt} than stays "
        "dissolved at {coolest}: it crystallizes.",
        "crystals-refuse-alone": "{bring} brings the ions of more {salt} than stays "
        "dissolved beside the rest at {coolest}: it crystallizes.",
        "crystals-warn": "Together {bring} come near the limit of {salt}: crystals may "
        "show when it is cool.",
        "scale-warn": "The water is hard and alkaline ({hco3} hydrogen carbonate, {ca} "
        "calcium with {bring}): chalk may settle. Rain or RO water stays clear.",
        "own-label-warn": "{bring} holds {metal} beside phosphate or sulphate by "
        "itself: its label says how strong a stock may be, and a "
        "bottle that turns milky is not used.",
        "unknown-warn": "How much of {bring} dissolves is not known here: go by its "
        "label, and make no more than is clear the next day.",
    }
)

WAY_OUT: Phrases[str] = Phrases(
    {
        "bottles": "Make {count} bottles: {bottles}.",
        "bottle": "{products} in {which}",
        "litres": "Or take more water: from {litres} on all of it stays clear.",
        "litres-only": "Take more water: from {litres} on it stays clear.",
        "none": "Leave one of them out; no bottle holds them together.",
    }
)

ORDER: Phrases[str] = Phrases(
    {
        "water": "Fill in most of the water.",
        "first": "Stir in {product} until it is clear.",
        "stir-in": "Then stir in {product} until it is clear.",
        "calcium-last": "Last, when all is clear, stir in {product}: it holds calcium.",
        "fill-up": "Fill up to the mark.",
    }
)

RATIO: Phrases[str] = Phrases(
    {
        "part-in": "1 part in {parts}: {stock} of stock in a litre of feed, "
        "filled up with {water} of water; {percent} %.",
        "part-added": "1 part added to {parts}: {stock} of stock in a litre of "
        "feed, with {water} of water; {percent} %.",
        "apart": "1:{parts} is said of both; here they are {percent} % apart in "
        "strength.",
    }
)

MADE: Phrases[str] = Phrases(
    {
        "weigh": "Weigh {amount} of {product}.",
        "measure": "Measure {amount} of {product}.",
        "measure-real": "Measure {amount} of {product}: {share} % of the strength "
        "meant.",
        "weigh-real": "Weigh {amount} of {product}: {share} % of the strength meant.",
        "coarse": "The {tool} may be off by {off} % of it: a larger bottle is weighed "
        "better.",
        "fill": "Fill up with water to {volume}.",
        "use": "{ml} in a litre of feed.",
        "use-gives": "{ml} in a litre of feed give {strength} ppm N.",
        "gram": "{ml} hold 1 g of {product}.",
        "lasts": "At {litres} of feed a week it lasts {weeks}.",
    }
)

PAST_ITS_DAY = mark("{name} was to be used by {day}: make the bottle anew.")

PROPOSED: Phrases[str] = Phrases(
    {
        "proposed": "Make a bottle of {product} once: {grams} in {volume}, "
        "{strength}. Of it this dose is {ml}.",
    }
)

LABEL: Phrases[str] = Phrases(
    {
        "contents": "{grams} of {product} in {volume} ({strength})",
        "made": "Made on {day}.",
        "keep": "Use by {day}.",
        "keep-none": "Use while it is clear.",
        "use": "10 mL hold {grams} of {product}.",
        "use-nitrogen": "10 mL made up to a litre give {strength} ppm N.",
        "clear": "Shake well. Not used if cloudy or with crystals.",
    }
)

LABEL_CAUTIONS: Lines = Lines(
    "Plant feed concentrate. Not for drinking.",
    "Keep from children, pets and food. Never in a bottle that held food or drink.",
    (
        "Wear gloves and eye protection. Swallowed or in the eyes: call your poison "
        "centre, and have this label at hand."
    ),
    "The label of each product goes before this one.",
)
