"""Every sentence that the week of one plant can say, whole, by key.

``{when}`` opens the sentence with its days; ``{plan}`` is one of ``PLANS``, and what
varies in tense has a key of its own.
"""

from __future__ import annotations

from growdesk.domain.speech import Phrases, mark

PLANS: Phrases[tuple[str, str]] = Phrases(
    {
        ("feed", "through"): "{when} it is fed at {strength}",
        ("feed", "if-dry"): "{when} it is fed at {strength}, if the pot is light",
        ("feed", "sparing"): "{when} it is fed at {strength}, sparingly",
        ("feed", "none"): "{when} it is due for feed with the next water it gets",
        ("flush", "through"): "{when} it is flushed with clear water in quantity",
        (
            "flush",
            "if-dry",
        ): "{when} it is flushed with clear water, if the pot is light",
        ("flush", "sparing"): "{when} it is flushed with a little clear water",
        ("flush", "none"): "{when} it is due for a flush with the next water it gets",
        ("clear-water", "through"): "{when} it gets clear water, right through the pot",
        ("clear-water", "if-dry"): "{when} it gets clear water, if the pot is light",
        ("clear-water", "sparing"): "{when} it gets clear water, sparingly",
        ("clear-water", "none"): "{when} it gets no water",
        ("keep-dry", "none"): "{when} it is kept dry",
        (
            "keep-dry",
            "sparing",
        ): "{when} it is kept dry but for a mouthful of clear water",
        (
            "keep-dry",
            "if-dry",
        ): "{when} it is kept dry, with a little clear water only if the pot is light",
        ("keep-dry", "through"): "{when} it is kept dry after one more watering",
        ("look-first", "none"): "{when} it wants a look first",
        ("look-first", "sparing"): "{when} it wants a look first",
        ("look-first", "if-dry"): "{when} it wants a look first",
        ("look-first", "through"): "{when} it wants a look first",
    }
)

BECAUSE: Phrases[str] = Phrases(
    {
        "feed-done": "{plan}, because it was fed {on_day}.",
        "feed-planned": "{plan}, because {day} feeds it.",
        "washed-done": "{plan}, because {day}'s was the {ordinal} feed since it was "
        "washed.",
        "washed-planned": "{plan}, because {day}'s is the {ordinal} feed since it was "
        "washed.",
        "repotted-done": "{plan}, because {day}'s was the {ordinal} feed since it was "
        "repotted.",
        "repotted-planned": "{plan}, because {day}'s is the {ordinal} feed since it "
        "was repotted.",
        "ever-done": "{plan}, because {day}'s was the {ordinal} feed and no "
        "flush is on record.",
        "ever-planned": "{plan}, because {day}'s is the {ordinal} feed and no "
        "flush is on record.",
        "flush-done": "{plan}, because it was flushed {on_day}.",
        "flush-planned": "{plan}, because {day} flushes it.",
        "clear-water-done": "{plan}, because it was watered {on_day}.",
        "clear-water-planned": "{plan}, because {day} waters it.",
        "rain-done": "{plan}, because rain fell on it {on_day}.",
        "again-done": "{plan}; the strength allows for the feed it had {on_day}.",
        "again-planned": "{plan}; the strength allows for the feed it has {on_day}.",
        "feed-missed": "{plan}, because no feed is on record for {day}.",
        "flush-missed": "{plan}, because no flush is on record for {day}.",
        "clear-water-missed": "{plan}, because no water is on record for {day}.",
        "feed-instead": "{plan}, because it was not fed {on_day}.",
        "flush-instead": "{plan}, because it was not flushed {on_day}.",
        "clear-water-instead": "{plan}, because it got no clear water {on_day}.",
        "passed-by": "{plan}, because it was passed by {on_day}.",
    }
)

RECORDED: Phrases[str] = Phrases(
    {
        "feed": "{when} it was fed at {strength}.",
        "feed-unmeasured": "{when} it was fed.",
        "clear-water": "{when} it got clear water.",
        "flush": "{when} it was flushed.",
        "rain": "{when} rain watered it.",
        "passed-by": "{when} it was passed by, still damp.",
    }
)

UNRECORDED: Phrases[str] = Phrases(
    {
        "feed": "{when} it was to be fed, and nothing is on record.",
        "clear-water": "{when} it was to get clear water, and nothing is on record.",
        "flush": "{when} it was to be flushed, and nothing is on record.",
    }
)

GONE_BY: Phrases[str] = Phrases(
    {
        "feed": "{when} it would have been fed.",
        "clear-water": "{when} it would have had clear water.",
        "flush": "{when} it would have been flushed.",
        "keep-dry": "{when} it was to be kept dry.",
        "look-first": "{when} it wanted a look first.",
    }
)
"""A past day of which no record was due."""

MISSED_TODAY = mark("{day}'s round has nothing recorded; today is judged by that.")
"""Said of the last watering day when it went by without a tick."""
