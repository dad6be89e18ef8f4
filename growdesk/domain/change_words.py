"""The sentences of what would change a verdict: each whole, and joined by nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.day_words import day_text
from growdesk.domain.facts import Verdict
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, mark

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from datetime import date

    from growdesk.domain.sights import Alteration

AT_ONCE: Mapping[str, str] = Phrases(
    {
        "feed": "If {clauses}, it would be fed.",
        "flush": "If {clauses}, it would be flushed.",
        "flush-then-feed": "If {clauses}, it would be flushed; feed follows.",
        "keep-dry": "If {clauses}, it would be kept dry.",
        "sparing": "If {clauses}, it would get a little clear water.",
        "if-dry": "If {clauses}, it would get clear water, if the pot is light.",
        "through": "If {clauses}, it would get clear water, right through the pot.",
    }
)
FROM_A_DAY: Mapping[str, str] = Phrases(
    {
        "feed": "From {day} on, if {clauses}, it would be fed.",
        "flush": "From {day} on, if {clauses}, it would be flushed.",
        "flush-then-feed": "From {day} on, if {clauses}, it would be flushed; feed "
        "follows.",
        "keep-dry": "From {day} on, if {clauses}, it would be kept dry.",
        "sparing": "From {day} on, if {clauses}, it would get a little clear water.",
        "if-dry": "From {day} on, if {clauses}, it would get clear water, "
        "if the pot is light.",
        "through": "From {day} on, if {clauses}, it would get clear water, "
        "right through the pot.",
    }
)
BY_THE_DAY: Mapping[str, str] = Phrases(
    {
        "feed": "From {day} on it could be fed, if it then looks as it did last time.",
        "flush": "From {day} on it would be flushed, if it then looks as it did "
        "last time.",
        "flush-then-feed": "From {day} on it would be flushed, if it then looks as "
        "it did last time; feed follows.",
        "keep-dry": "From {day} on it would be kept dry, if it then looks as "
        "it did last time.",
        "sparing": "From {day} on it would get a little clear water, if it "
        "then looks as it did last time.",
        "if-dry": "From {day} on it would get clear water when the pot is light, if it "
        "then looks as it did last time.",
        "through": "From {day} on it would get clear water right through "
        "the pot, if it then looks as it did last time.",
    }
)
OWN_WORD_ENDS = mark("Your overrule holds until {day}; after that it is judged anew.")
STOPS = Phrases(
    {
        Verdict.CLEAR_WATER: "If {clauses}, it would get clear water instead.",
        Verdict.KEEP_DRY: "If {clauses}, it would be kept dry instead.",
        Verdict.FLUSH: "If {clauses}, it would be flushed instead.",
    }
)
STOPS_FROM = Phrases(
    {
        Verdict.CLEAR_WATER: "From {day} on it would get clear water, even if it "
        "looks as it does now.",
        Verdict.KEEP_DRY: "From {day} on it would be kept dry, even if it looks as "
        "it does now.",
        Verdict.FLUSH: "From {day} on it would be flushed before it is fed again.",
    }
)


def told(
    outcome: str, some: Sequence[Alteration], day: date | None, on: date
) -> str | None:
    """Say what some alterations, from a day on or at once, would bring."""
    forms = AT_ONCE if day is None else FROM_A_DAY if some else BY_THE_DAY
    if outcome not in forms:
        return None
    shown = "" if day is None else day_text(day, on)
    return forms[outcome].format(clauses=joined(some), day=shown)


def joined(some: Sequence[Alteration]) -> str:
    """Give conditions as a list: one, two, or three of them."""
    return listed([one.clause() for one in some])
