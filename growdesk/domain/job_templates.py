"""What is said of each dated job: a short title, and whole sentences.

A sentence says why, and what would settle it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from growdesk.domain.jobs.job import Sort
from growdesk.domain.speech import Phrases, mark

if TYPE_CHECKING:
    from collections.abc import Mapping


class Said(NamedTuple):
    """What is said of a job: a title, and its sentences."""

    title: str
    text: str


SORTS: Mapping[Sort, str] = Phrases(
    {
        Sort.REST: "Rest",
        Sort.REPOT: "Repot",
        Sort.LOOK: "Look",
        Sort.BLOOM: "Bloom",
        Sort.MOVE: "Move",
        Sort.WATER: "Water",
        Sort.TREAT: "Treat",
        Sort.NEWCOMER: "Newcomer",
        Sort.STEM: "Stem",
        Sort.WEATHER: "Weather",
    }
)

TEMPLATES: Mapping[str, Said] = {
    "rest-slow": Said(
        mark("Slows"),
        mark(
            "Its slow months run from {first} to {last}. Water less "
            "while nothing moves; what moves is fed on."
        ),
    ),
    "rest-unfed": Said(
        mark("Rests unfed"),
        mark(
            "Rests cool and dry from {first} to {last}: sparing "
            "clear water and no feed. A new growth or a root tip on "
            "the move ends it sooner."
        ),
    ),
    "rest-no-nitrogen": Said(
        mark("No nitrogen"),
        mark(
            "Gets no nitrogen from {first} to {last}, so that it sets flowers and not "
            "keikis. Clear water, sparingly, until buds show."
        ),
    ),
    "rest-nitrogen-waits": Said(
        mark("Feed waits for growth"),
        mark(
            "Its months without nitrogen are over since {first}. "
            "Feed waits until a look shows this year's growth with "
            "roots."
        ),
    ),
    "rest-bare-expected": Said(
        mark("Rests bare about now"),
        mark(
            "As a rule it stands bare and dry from {first} to "
            "{last}. Its leaves say when: no feed from the first "
            "yellow leaf, no water once they are down."
        ),
    ),
    "rest-bare": Said(
        mark("Bare, kept dry"),
        mark(
            "Bare and kept dry since {first}. A look that shows a new growth or root "
            "brings a little water back."
        ),
    ),
    "rest-bare-measured": Said(
        mark("Bare, kept dry"),
        mark("Kept dry since {first}, until its new roots are {resume_mm} long."),
    ),
    "rest-bare-short": Said(
        mark("Bare, kept dry"),
        mark(
            "Kept dry since {first}, until its new roots are "
            "{resume_mm} long; {root_mm} was measured last."
        ),
    ),
    "rest-waking": Said(
        mark("Waking"),
        mark(
            "Waking since {first}: a little clear water until its "
            "roots are long enough to drink, or a leaf is out."
        ),
    ),
    "rest-going-down": Said(
        mark("Going down"),
        mark(
            "Its leaves have been going since {first}: sparing clear "
            "water and no feed. Once it is bare it is kept dry."
        ),
    ),
    "rest-still-green": Said(
        mark("Stop its water"),
        mark(
            "If it is still in leaf on {first} with no new growth, its water stops, so "
            "that it rests before it starts again in the dark months."
        ),
    ),
    "leach-before-rest": Said(
        mark("Flush before the rest"),
        mark(
            "Its rest begins on {start}. Flush the pot once before "
            "it, or the feed left in it stays there as salts all "
            "through the rest."
        ),
    ),
    "leach-waits": Said(
        mark("Flush before the rest waits"),
        mark(
            "Its rest begins on {start} with feed still in its pot, but its verdict of "
            "today is no flush, and says why. Flush it before the rest if that changes."
        ),
    ),
    "first-water": Said(
        mark("First full water"),
        mark(
            "Its rest months end with {last}. Water it through once "
            "the pot is dry; feed waits for a growth or root tip on "
            "the move."
        ),
    ),
    "first-water-no-nitrogen": Said(
        mark("Nitrogen may come back"),
        mark(
            "Its months without nitrogen end with {last}. Look for "
            "its new growth: full water comes back with it, and feed "
            "once it has roots."
        ),
    ),
    "first-water-measured": Said(
        mark("Measure its new roots"),
        mark(
            "Its months of rest are over. Measure the longest new "
            "root: the first water comes at {resume_mm}, whatever "
            "the date."
        ),
    ),
    "first-water-bare": Said(
        mark("Look for its new growth"),
        mark(
            "Its months of rest are over. The first water comes with "
            "a new growth or root, whatever the date."
        ),
    ),
    "repot-due": Said(
        mark("Repot due"),
        mark(
            "Repotted on {since}; its {medium} is due after {years}. "
            "Repot it at its own moment: {moment}."
        ),
    ),
    "repot-due-plain": Said(
        mark("Repot due"),
        mark("Repotted on {since}; its {medium} is due after {years}."),
    ),
    "repot-now": Said(
        mark("Repot now"),
        mark(
            "Its {medium} has been due since {due}, and the moment "
            "is here: {moment}. It was repotted last on {since}."
        ),
    ),
    "repot-now-plain": Said(
        mark("Repot now"),
        mark("Its {medium} has been due since {due}. It was repotted last on {since}."),
    ),
    "repot-waits": Said(
        mark("Repot waits"),
        mark(
            "Its {medium} has been due since {due}. It waits for its "
            "moment, which is not here or not seen of late: {moment}."
        ),
    ),
    "repot-in-flower": Said(
        mark("Repot waits for the flowers"),
        mark(
            "Its {medium} has been due since {due}, but on {seen} it was in flower or "
            "about to be. Repot it when the flowers are over."
        ),
    ),
    "look-due": Said(
        mark("Look again"),
        mark("The look of {seen} holds for {days}. A new one keeps its verdict firm."),
    ),
    "look-never": Said(
        mark("First look"),
        mark(
            "No look is on record. What grows, flowers and ails decides what it gets."
        ),
    ),
    "treat-again": Said(
        mark("Treat again"),
        mark(
            "Treated with {product} on {treated}; you asked to "
            "repeat it. Its label says how much and how often."
        ),
    ),
    "treat-again-several": Said(
        mark("Treat again"),
        mark(
            "Treated with {product}, last on {treated}; you asked to repeat it. Their "
            "labels say how much and how often."
        ),
    ),
    "treat-again-unnamed": Said(
        mark("Treat again"),
        mark(
            "Treated on {treated}; you asked to repeat it. The label "
            "of what you used says how much and how often."
        ),
    ),
    "quarantine-ends": Said(
        mark("Quarantine ends"),
        mark(
            "Its quarantine ends, and its look of {seen} found no "
            "pest or rot. Look under its leaves once more, then it "
            "may join the others."
        ),
    ),
    "quarantine-unseen": Said(
        mark("Quarantine ends"),
        mark(
            "Its quarantine ends, but no look of late says how it "
            "is. Look for pests and rot before it joins the others."
        ),
    ),
    "quarantine-trouble": Said(
        mark("Quarantine ends in trouble"),
        mark(
            "Its quarantine would end, but the look of {seen} found "
            "trouble. Keep it apart until a look finds none."
        ),
    ),
    "keiki-to-pot": Said(
        mark("Pot the keiki"),
        mark(
            "It has {keikis}, with roots of {root_mm}; from {least_mm} on a keiki can "
            "stand on its own. A look without it settles this."
        ),
    ),
    "pods": Said(
        mark("Carries pods"),
        mark("It carries {pods}, seen {ago}. Pods draw on a plant."),
    ),
    "pods-ripening": Said(
        mark("Carries pods"),
        mark(
            "It carries {pods}, seen {ago}. Pods of its kind take "
            "{ripe} from pollination; they draw on the plant."
        ),
    ),
    "stake-spike": Said(
        mark("Stake the spike"),
        mark(
            "Its spike was seen on {seen}. Stake it while it is soft and bends without "
            "breaking."
        ),
    ),
    "do-not-turn": Said(
        mark("Do not turn it"),
        mark(
            "Spike or buds since {seen}. Leave its side to the light "
            "as it is until they open, or the flowers face every way."
        ),
    ),
    "opens-from-spike": Said(
        mark("First flower about now"),
        mark(
            "Its spike was seen on {seen}; those of its kind take about {weeks} to the "
            "first flower."
        ),
    ),
    "bloom-expected-two": Said(
        mark("Likely to open"),
        mark(
            "By its own last two years, {apart}, it opens about {day}; two years are "
            "little to go by."
        ),
    ),
    "bloom-expected": Said(
        mark("Likely to open"),
        mark(
            "By its own last {bloom_years} it opens about {day}, give or take {spread}."
        ),
    ),
    "move-in": Said(
        mark("Bring in"),
        mark(
            "{nights} nights in a row were below {limit_c} at "
            "{place}. Bring in {plants}; look for pests first."
        ),
    ),
    "move-in-expected": Said(
        mark("In about now"),
        mark(
            "Last time nights fell below {limit_c} at {place} on "
            "{last}. {plants_stand} out there."
        ),
    ),
    "move-out": Said(
        mark("May go out"),
        mark(
            "{nights} nights in a row held {limit_c} or more at "
            "{place}. {plants_may} go out again, to deep shade first."
        ),
    ),
    "move-out-expected": Said(
        mark("Out about now"),
        mark(
            "Last time nights began to hold {limit_c} at {place} on "
            "{last}. {plants_stood} out there within the year."
        ),
    ),
    "under-cover": Said(
        mark("Under cover"),
        mark(
            "Is to have little or no water from {first}, but stands "
            "in the open at {place}, where rain waters it. Bring it "
            "under a cover and say so in its form, or move it."
        ),
    ),
    "cold-from-glass": Said(
        mark("Cold night, off the glass"),
        mark(
            "{expected_c} is expected at {place} in the night, and "
            "less at the glass. Take {named} off it. Do not water "
            "late: wet plants chill first."
        ),
    ),
    "cold-elsewhere": Said(
        mark("Cold night, somewhere warmer"),
        mark(
            "{expected_c} is expected at {place} in the night. Take {named} somewhere "
            "warmer. Do not water late: wet plants chill first."
        ),
    ),
    "heat-from-glass": Said(
        mark("Hot day, off the glass"),
        mark(
            "{expected_c} is expected at {place} by day, and more at the glass. Take "
            "{named} off it, into the shade."
        ),
    ),
    "heat-elsewhere": Said(
        mark("Hot day, somewhere cooler"),
        mark(
            "{expected_c} is expected at {place} by day. Take "
            "{named} somewhere cooler, or shade and air the place."
        ),
    ),
}
