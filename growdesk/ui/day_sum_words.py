"""A watering day in sum, in words: parts under headings, a line an idea."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr, trn
from growdesk.domain.stocktaking_words import amount_text
from growdesk.domain.volume_words import volume_text
from growdesk.ui import jug_words, words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from growdesk.services.day_sum import DaySum, Given, NextDay, Used

GIVEN = mark("Given")
LEFT = mark("Left")
USED = mark("Used")
NEXT = mark("Next")
NO_PLANTS = mark(
    "No plant grows here yet. What was given, what is left and what it used stand here "
    "once there is one."
)
NOTHING_GIVEN = mark("Nothing was given yet.")
NOTHING_EVER = mark("Nothing is on record as given on that day.")
NOTHING_LEFT = mark("Nothing. The day is done.")
TO_COME = mark("This day is still to come. Ticks open on the day itself.")
_DAYS_NAMED = 2


class Part(Struct, frozen=True):
    """Lines under a heading."""

    title: str
    lines: tuple[str, ...]


def title(summed: DaySum) -> str:
    """Give what stands over all of it."""
    day = words.near_day(summed.on)
    if summed.on == summed.today:
        return tr("Today, {day}, summed up").format(day=day)
    return tr("{day}, summed up").format(day=day)


def parts(summed: DaySum) -> tuple[Part, ...]:
    """Give all of it in parts."""
    if not summed.plants:
        return (Part("", (tr(NO_PLANTS),)),)
    following = Part(tr(NEXT), tuple(_following(summed.following, summed)))
    if summed.is_to_come:
        return (Part("", (tr(TO_COME),)), following)
    found = [
        Part(tr(GIVEN), tuple(_all_given(summed))),
        Part(tr(LEFT), tuple(_left(summed))),
    ]
    if summed.used:
        found.append(Part(tr(USED), tuple(_used(each) for each in summed.used)))
    return (*found, following)


def as_text(summed: DaySum) -> str:
    """Give all of it as plain text, to be pasted anywhere."""
    found = [title(summed)]
    for part in parts(summed):
        found += ["", part.title] if part.title else [""]
        found += part.lines
    return "\n".join(found) + "\n"


def _all_given(summed: DaySum) -> Iterator[str]:
    for each in summed.given:
        yield _given(each)
    if not summed.given:
        yield tr(NOTHING_GIVEN if summed.on == summed.today else NOTHING_EVER)
    if summed.dry:
        yield trn(
            "{count} plant is kept dry: {tags}.",
            "{count} plants are kept dry: {tags}.",
            len(summed.dry),
        ).format(count=len(summed.dry), tags=listed(summed.dry))


def _given(each: Given) -> str:
    count = len(each.tags)
    said = _counted(each.what, count).format(count=count, tags=listed(each.tags))
    if not each.volume_l:
        return said
    volume = volume_text(each.volume_l)
    return tr("{line} {volume} poured.").format(line=said, volume=volume)


def _counted(what: CareKind | None, count: int) -> str:
    if what is None:
        return trn(
            "{count} plant was passed by, still damp: {tags}.",
            "{count} plants were passed by, still damp: {tags}.",
            count,
        )
    if what is CareKind.FEED:
        return trn(
            "{count} plant was fed: {tags}.",
            "{count} plants were fed: {tags}.",
            count,
        )
    if what is CareKind.CLEAR_WATER:
        return trn(
            "{count} plant got clear water: {tags}.",
            "{count} plants got clear water: {tags}.",
            count,
        )
    if what is CareKind.FLUSH:
        return trn(
            "{count} plant was flushed: {tags}.",
            "{count} plants were flushed: {tags}.",
            count,
        )
    if what is CareKind.RAIN:
        return trn(
            "{count} plant was rained on: {tags}.",
            "{count} plants were rained on: {tags}.",
            count,
        )
    return trn(
        "{count} plant was cared for: {tags}.",
        "{count} plants were cared for: {tags}.",
        count,
    )


def _left(summed: DaySum) -> Iterator[str]:
    if summed.open:
        yield trn(
            "{count} plant is still to do: {tags}.",
            "{count} plants are still to do: {tags}.",
            len(summed.open),
        ).format(count=len(summed.open), tags=listed(summed.open))
    if summed.looks:
        yield trn(
            "{count} plant wants a look first: {tags}.",
            "{count} plants want a look first: {tags}.",
            len(summed.looks),
        ).format(count=len(summed.looks), tags=listed(summed.looks))
    if not (summed.open or summed.looks):
        yield tr(NOTHING_LEFT)


def _used(each: Used) -> str:
    name = each.name or tr("Something that was put away since")
    amount = amount_text(each.amount, each.unit)
    if each.left is None:
        return tr("{name}: {amount}.").format(name=name, amount=amount)
    left = amount_text(each.left, each.unit)
    said = tr("{name}: {amount}; {left} is left by the record.")
    return said.format(name=name, amount=amount, left=left)


def _following(following: NextDay, summed: DaySum) -> Iterator[str]:
    days = (following.on - summed.today).days
    day = words.near_day(following.on)
    if days == 1:
        yield tr("Tomorrow, {day}.").format(day=day)
    elif days >= _DAYS_NAMED:
        yield tr("{day}, in {days} days.").format(day=day, days=days)
    else:
        yield tr("{day}.").format(day=day)
    counts = [_brings(verdict, count) for verdict, count in following.verdicts]
    if counts:
        yield tr("As things stand: {counts}.").format(counts=listed(counts))
    if following.jugs:
        yield trn(
            "{count} jug of feed, {volume}.",
            "{count} jugs of feed, {volume} in all.",
            following.jugs,
        ).format(count=following.jugs, volume=jug_words.litres_text(following.mixed_l))
    if following.clear_l:
        volume = volume_text(following.clear_l)
        yield tr("{volume} of clear water, and a little to spare.").format(
            volume=volume
        )
    yield from following.short


def _brings(verdict: Verdict, count: int) -> str:
    said = {
        Verdict.FEED: tr("{count} to feed"),
        Verdict.CLEAR_WATER: tr("{count} on clear water"),
        Verdict.FLUSH: tr("{count} to flush"),
        Verdict.LOOK_FIRST: tr("{count} to look at first"),
        Verdict.KEEP_DRY: tr("{count} to keep dry"),
    }
    return said[verdict].format(count=count)
