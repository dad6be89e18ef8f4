"""The sheet's own sentences: what a round assumes, how to work, what to re-decide.

Whole sentences in the present tense; the reasons come from the domain's wording.
"""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from growdesk.domain.day_words import month_day_text, on_weekday, weekday
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.phrases import listed
from growdesk.domain.quantity_words import length_text
from growdesk.domain.rules import potting
from growdesk.domain.wording import short

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from growdesk.domain.explain import Judgement
    from growdesk.domain.recheck import Recheck
    from growdesk.services.values import Jug

_MANY_TAGS = 24

CLEAR: Mapping[Water, str] = {
    Water.NONE: "no water",
    Water.SPARING: "clear, sparing",
    Water.IF_DRY: "clear, if light",
    Water.THROUGH: "clear, through",
}
"""How clear water is given, as short as a line on the sheet needs it."""


def day(on: date) -> str:
    """Give a day as ``Wednesday 11 March``."""
    return on_weekday(weekday(on), month_day_text(on.month, on.day))


def assumed(
    taken_as_done: Sequence[date],
    by_record: Sequence[date],
    missed: Sequence[date] = (),
) -> str | None:
    """Say what a later round goes by, or nothing for a round that assumes nothing."""
    parts = []
    if taken_as_done:
        was = "was" if len(taken_as_done) == 1 else "were"
        parts.append(
            f"Holds if {listed([day(on) for on in taken_as_done])} {was} done."
        )
    if by_record:
        parts.append(
            f"Goes by what was ticked on {listed([day(d) for d in by_record])}."
        )
    if missed:
        parts.append(f"Nothing is on record for {listed([day(d) for d in missed])}.")
    return " ".join(parts) or None


def reason(judgement: Judgement) -> str:
    """Give the deciding reason in six words at most, with the day of the last feed."""
    fed = judgement.reasons[0].values.get("fed")
    if judgement.rule == potting.TOO_SOON and isinstance(fed, date):
        return f"fed {day(fed)}"
    return short(judgement)


def until_looked(judgement: Judgement) -> str | None:
    """Say what a plant gets until it is looked at; never feed."""
    if judgement.verdict is not Verdict.LOOK_FIRST:
        return None
    return CLEAR[judgement.water]


def redecide(seen: Recheck, jug_for: Callable[[Judgement], Jug | None]) -> str:
    """Give the line to decide by at the bench, once the plant has been looked at."""

    def gets(judgement: Judgement) -> str:
        return _gets(judgement, jug_for(judgement))

    nothing, tip, growth = gets(seen.nothing), gets(seen.tip), gets(seen.growth)
    both = gets(seen.both)
    new = "new leaf" if seen.by_leaf else "new growth"
    if tip == growth == nothing:
        rooted = nothing if seen.rooted is None else gets(seen.rooted)
        return _only_more(seen, nothing, both, rooted, new)
    if tip == growth:
        return f"Root tip or {new} seen → {tip}; nothing → {nothing}."
    if growth == nothing:
        return f"Root tip seen → {tip}; none → {nothing}."
    if tip == nothing:
        return f"{new.capitalize()} seen → {growth}; none → {nothing}."
    return f"Root tip seen → {tip}; only a {new} → {growth}; nothing → {nothing}."


def _only_more(seen: Recheck, nothing: str, both: str, rooted: str, new: str) -> str:
    """Give the line where neither root tips nor a growth alone turns anything."""
    if both != nothing:
        return f"Root tips and {new} seen → {both}; less → {nothing}."
    if rooted != nothing:
        return (
            f"New roots of {length_text(seen.rooted_mm)} → {rooted}; less → {nothing}."
        )
    return f"Whatever shows → {nothing}."


def _gets(judgement: Judgement, jug: Jug | None) -> str:
    if judgement.verdict is Verdict.FEED:
        if jug is None:
            return f"feed next time, {judgement.strength_ppm_n:.0f} ppm N"
        return f"jug {jug.letter} {jug.strength_ppm_n} ppm N"
    if judgement.verdict is Verdict.FLUSH:
        return "flush"
    if judgement.verdict is Verdict.KEEP_DRY:
        return "keep dry"
    return CLEAR[judgement.water]


def look_step(tags: Sequence[str]) -> str:
    """Say which plants to look at before anything is mixed."""
    return (
        f"Look first at {_tags(tags)}, before mixing: a plant that turns out to feed "
        "adds its litres to its jug."
    )


def moisten_step(tags: Sequence[str]) -> str:
    """Say that dry pots are moistened before they are fed."""
    known = f" Dry when looked at: {_tags(tags)}." if tags else ""
    return f"Moisten dry pots with clear water before they are fed.{known}"


def weak_first_step(jugs: Sequence[Jug], shy: Sequence[str]) -> str:
    """Say in which order the jugs go round, weak and salt-shy plants first."""
    order = sorted(jugs, key=lambda jug: jug.strength_ppm_n)
    round_ = ", then ".join(f"{jug.letter} {jug.strength_ppm_n} ppm N" for jug in order)
    plants = f" Within a jug the salt-shy first: {_tags(shy)}." if shy else ""
    return f"Weak before strong: jug {round_}.{plants}"


def if_light_step() -> str:
    """Say what "if light" asks of the hand."""
    return (
        "If light: lift the pot, and water only one that is light; else tick passed by."
    )


def newcomer_step(tags: Sequence[str]) -> str:
    """Say which plants are handled after the others, because they are new."""
    return f"Newcomers after all the others: {_tags(tags)}."


def suspect_step(tags: Sequence[str]) -> str:
    """Say which plants are handled last, and how."""
    return (
        f"Suspect plants last of all: {_tags(tags)}. A clean blade for each plant that "
        "is cut; then wash hands and tools."
    )


def _tags(tags: Sequence[str]) -> str:
    if len(tags) <= _MANY_TAGS:
        return ", ".join(tags)
    return f"{', '.join(tags[:_MANY_TAGS])} and {len(tags) - _MANY_TAGS} more"
