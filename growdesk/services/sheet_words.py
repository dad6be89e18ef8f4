"""The sheet's own sentences: what a round assumes, how to work, what to re-decide.

Whole sentences in the present tense; the reasons come from the domain's wording.
"""

from __future__ import annotations

from datetime import date
from functools import reduce
from typing import TYPE_CHECKING

from growdesk.domain.day_words import month_day_text, on_weekday, weekday
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.phrases import listed
from growdesk.domain.quantity_words import length_text
from growdesk.domain.rules import potting
from growdesk.domain.speech import Phrases, fixed, tr, trn
from growdesk.domain.wording import short

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

    from growdesk.domain.explain import Judgement
    from growdesk.domain.recheck import Recheck
    from growdesk.services.values import Jug

_MANY_TAGS = 24

CLEAR: Mapping[Water, str] = Phrases(
    {
        Water.NONE: "no water",
        Water.SPARING: "clear, sparing",
        Water.IF_DRY: "clear, if light",
        Water.THROUGH: "clear, through",
    }
)
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
        parts.append(
            trn(
                "Holds if {list} was done.",
                "Holds if {list} were done.",
                len(taken_as_done),
            ).format(list=listed([day(on) for on in taken_as_done]))
        )
    if by_record:
        parts.append(
            tr("Goes by what was ticked on {list}.").format(
                list=listed([day(d) for d in by_record])
            )
        )
    if missed:
        parts.append(
            tr("Nothing is on record for {list}.").format(
                list=listed([day(d) for d in missed])
            )
        )
    return " ".join(parts) or None


def reason(judgement: Judgement) -> str:
    """Give the deciding reason in six words at most, with the day of the last feed."""
    fed = judgement.reasons[0].values.get("fed")
    if judgement.rule == potting.TOO_SOON and isinstance(fed, date):
        return tr("fed {day}").format(day=day(fed))
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
    new = tr("new leaf") if seen.by_leaf else tr("new growth")
    if tip == growth == nothing:
        rooted = nothing if seen.rooted is None else gets(seen.rooted)
        return _only_more(seen, nothing, both, rooted, new)
    if tip == growth:
        return tr("Root tip or {new} seen → {tip}; nothing → {nothing}.").format(
            new=new, tip=tip, nothing=nothing
        )
    if growth == nothing:
        return tr("Root tip seen → {tip}; none → {nothing}.").format(
            tip=tip, nothing=nothing
        )
    if tip == nothing:
        form = (
            tr("New leaf seen → {growth}; none → {nothing}.")
            if seen.by_leaf
            else tr("New growth seen → {growth}; none → {nothing}.")
        )
        return form.format(growth=growth, nothing=nothing)
    return tr(
        "Root tip seen → {tip}; only a {new} → {growth}; nothing → {nothing}."
    ).format(tip=tip, new=new, growth=growth, nothing=nothing)


def _only_more(seen: Recheck, nothing: str, both: str, rooted: str, new: str) -> str:
    """Give the line where neither root tips nor a growth alone turns anything."""
    if both != nothing:
        return tr("Root tips and {new} seen → {both}; less → {nothing}.").format(
            new=new, both=both, nothing=nothing
        )
    if rooted != nothing:
        return tr("New roots of {rooted_mm} → {rooted}; less → {nothing}.").format(
            rooted_mm=length_text(seen.rooted_mm), rooted=rooted, nothing=nothing
        )
    return tr("Whatever shows → {nothing}.").format(nothing=nothing)


def _gets(judgement: Judgement, jug: Jug | None) -> str:
    if judgement.verdict is Verdict.FEED:
        if jug is None:
            return tr("feed next time, {strength_ppm_n} ppm N").format(
                strength_ppm_n=fixed(judgement.strength_ppm_n or 0, 0)
            )
        return tr("jug {letter} {strength_ppm_n} ppm N").format(
            letter=jug.letter, strength_ppm_n=jug.strength_ppm_n
        )
    if judgement.verdict is Verdict.FLUSH:
        return tr("flush")
    if judgement.verdict is Verdict.KEEP_DRY:
        return tr("keep dry")
    return CLEAR[judgement.water]


def look_step(tags: Sequence[str]) -> str:
    """Say which plants to look at before anything is mixed."""
    return tr(
        "Look first at {tags}, before mixing: a plant that turns out "
        "to feed adds its litres to its jug."
    ).format(tags=_tags(tags))


def moisten_step(tags: Sequence[str]) -> str:
    """Say that dry pots are moistened before they are fed."""
    said = tr("Moisten dry pots with clear water before they are fed.")
    if not tags:
        return said
    known = tr("Dry when looked at: {tags}.").format(tags=_tags(tags))
    return f"{said} {known}"


def weak_first_step(jugs: Sequence[Jug], shy: Sequence[str]) -> str:
    """Say in which order the jugs go round, weak and salt-shy plants first."""
    order = sorted(jugs, key=lambda jug: jug.strength_ppm_n)
    named = [f"{jug.letter} {jug.strength_ppm_n} ppm N" for jug in order]
    round_ = reduce(
        lambda before, jug: tr("{before}, then {jug}").format(before=before, jug=jug),
        named,
    )
    said = tr("Weak before strong: jug {round}.").format(round=round_)
    if not shy:
        return said
    first = tr("Within a jug the salt-shy first: {tags}.").format(tags=_tags(shy))
    return f"{said} {first}"


def if_light_step() -> str:
    """Say what "if light" asks of the hand."""
    return tr(
        "If light: lift the pot, and water only one that is light; else tick passed by."
    )


def newcomer_step(tags: Sequence[str]) -> str:
    """Say which plants are handled after the others, because they are new."""
    return tr("Newcomers after all the others: {tags}.").format(tags=_tags(tags))


def suspect_step(tags: Sequence[str]) -> str:
    """Say which plants are handled last, and how."""
    return tr(
        "Suspect plants last of all: {tags}. A clean blade for each "
        "plant that is cut; then wash hands and tools."
    ).format(tags=_tags(tags))


def _tags(tags: Sequence[str]) -> str:
    if len(tags) <= _MANY_TAGS:
        return ", ".join(tags)
    return tr("{list} and {count} more").format(
        list=", ".join(tags[:_MANY_TAGS]), count=len(tags) - _MANY_TAGS
    )
