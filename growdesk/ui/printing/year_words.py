"""The sentences of a year in review: short, by the record, honest where it is empty."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from growdesk.domain import speech
from growdesk.domain.day_words import MONTHS
from growdesk.domain.holding import Descent, Status
from growdesk.domain.phrases import inside, listed
from growdesk.domain.quantity_words import small_text
from growdesk.domain.speech import Phrases, fixed, tr, trn
from growdesk.services.left_words import WORDS as LEFT
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.services.year_values import (
        Came,
        Grown,
        Went,
        YearBloom,
        YearReview,
    )

NO_BLOOMS = speech.mark("No bloom is on record for this year.")
OPEN_BARS = speech.mark("An empty bar is a bloom whose end is not on record.")
NO_CARE = speech.mark("No feed and no watering is on record for this year.")
NO_GROWTH = speech.mark("No lead and no root was measured this year.")
NO_MOVES = speech.mark("No plant came and none left.")
NO_REPOTS = speech.mark("No repot is on record for this year.")
NO_PHOTOS = speech.mark("No photo was taken this year.")
NO_MARKS = speech.mark("No decision was marked with hindsight this year.")
_HOW = Phrases(
    {
        Descent.DIVISION: "a division of {parent}",
        Descent.BACK_BULB: "a back bulb of {parent}",
        Descent.KEIKI: "a keiki of {parent}",
        Descent.SEEDLING: "a seedling of {parent}",
    }
)
_NAMED = 6


def title(review: YearReview) -> str:
    """Name the year: a calendar year by its number, else its last day."""
    first, last = review.begins, review.ends
    if (first.month, first.day) == (1, 1) and first.year == last.year:
        whole = (last.month, last.day) == (12, 31)
        return (
            tr("The year {year}").format(year=first.year)
            if whole
            else tr("The year {year} so far").format(year=first.year)
        )
    return tr("Twelve months to {short_day}").format(short_day=words.short_day(last))


def in_short(review: YearReview) -> Iterator[str]:
    """Give the year in a few sentences."""
    came, left = len(review.came), len(review.went)
    yield trn(
        "{growing} plant grows here at the end of it: {came} came, {left} left.",
        "{growing} plants grow here at the end of it: {came} came, {left} left.",
        review.growing,
    ).format(
        growing=review.growing,
        came=came or tr("none", "plants that came"),
        left=left or tr("none", "plants that came"),
    )
    flowered = len({each.who.plant_id for each in review.blooms})
    if flowered:
        first = sum(each.is_first for each in review.blooms)
        told = (
            tr("{plants} flowered, {first} of them for the first time here.")
            if first
            else tr("{plants} flowered.")
        )
        yield told.format(plants=words.plants(flowered), first=first)
    if review.rounds_of:
        yield trn(
            "Something was given on {rounds} of {days} watering day.",
            "Something was given on {rounds} of {days} watering days.",
            review.rounds_of,
        ).format(rounds=review.rounds, days=review.rounds_of)
    if review.looks:
        yield trn(
            "{looks} look was taken, at {plants}.",
            "{looks} looks were taken, at {plants}.",
            review.looks,
        ).format(looks=review.looks, plants=words.plants(review.looked_at))
    else:
        yield tr("No look was taken.")


def bloom_best(review: YearReview) -> Iterator[str]:
    """Say who flowered longest, with most flowers, for the first time, with award."""
    blooms = review.blooms
    timed = [each for each in blooms if each.days is not None]
    if timed:
        best = max(timed, key=lambda each: each.days or 0)
        yield tr("Longest in flower: {tag}, {days} days.").format(
            tag=best.who.tag, days=best.days
        )
    counted = [each for each in blooms if each.flowers]
    if counted:
        best = max(counted, key=lambda each: each.flowers or 0)
        flowers = words.counted(best.flowers or 0, "flower", "flowers")
        yield tr("Most flowers: {tag}, {flowers}.").format(
            tag=best.who.tag, flowers=flowers
        )
    first = [each.who.tag for each in blooms if each.is_first]
    if first:
        yield tr("For the first time here: {some}.").format(some=some(first))
    awarded = [f"{each.who.tag} ({each.award})" for each in blooms if each.award]
    if awarded:
        yield tr("Awards: {some}.").format(some=some(awarded))


def bloom_line(bloom: YearBloom, year: int) -> str:
    """Tell a flowering in a line; a day of another year than this one says so."""
    if bloom.ends is None:
        parts = [
            tr("from {day}, its end is not on record").format(
                day=_day(bloom.begins, year)
            )
        ]
    else:
        days = tr("{begins} to {ends}").format(
            begins=_day(bloom.begins, year), ends=_day(bloom.ends, year)
        )
        parts = [days, words.counted(bloom.days or 0, "day", "days")]
    if bloom.flowers:
        on = words.counted(bloom.spikes, "spike", "spikes") if bloom.spikes else ""
        flowers = words.counted(bloom.flowers, "flower", "flowers")
        parts.append(
            tr("{flowers} on {on}").format(flowers=flowers, on=on) if on else flowers
        )
    if bloom.award:
        parts.append(bloom.award)
    return ", ".join(parts)


def feeds(review: YearReview) -> Iterator[str]:
    """Say what was given over the year."""
    fed = sum(month.fed for month in review.months)
    clear = sum(month.clear for month in review.months)
    rained = sum(month.rained for month in review.months)
    flushed = sum(month.flushed for month in review.months)
    if not fed + clear + flushed + rained:
        yield tr(NO_CARE)
        return
    given = (
        tr(
            "Plants were fed {fed}, watered clear {clear}, flushed {flushed}, "
            "rain {rain}."
        )
        if rained
        else tr("Plants were fed {fed}, watered clear {clear}, flushed {flushed}.")
    )
    yield given.format(
        fed=words.counted(fed, "time", "times"),
        clear=words.counted(clear, "time", "times"),
        flushed=words.counted(flushed, "time", "times"),
        rain=words.counted(rained, "time", "times"),
    )
    if review.strength_ppm_n is not None:
        yield tr(
            "The feeds with a strength on record had {strength} on average."
        ).format(strength=words.strength(review.strength_ppm_n))
    grams = sum(month.nitrogen_g for month in review.months)
    if grams:
        yield tr("They took {grams} g of nitrogen from the shelf.").format(
            grams=fixed(grams, 1)
        )
    most = max(review.months, key=lambda month: month.fed)
    if most.fed:
        named = MONTHS[most.first.month - 1]
        yield tr("The hungriest month was {named}, with {fed} feeds.").format(
            named=named, fed=most.fed
        )


def growth(review: YearReview) -> Iterator[str]:
    """Say how many were measured, and who beat their own year before."""
    if not review.grown:
        yield tr(NO_GROWTH)
        return
    yield trn(
        "{count} plant was measured; the longest of the year stands for each.",
        "{count} plants were measured; the longest of the year stands for each.",
        len(review.grown),
    ).format(count=len(review.grown))
    better = [each for each in review.grown if each.gain and each.gain > 1]
    compared = [each for each in review.grown if each.gain]
    if not compared:
        yield tr("None has a lead on record from the year before to go by.")
    else:
        yield tr(
            "{longer} of {compared} with a lead of the year before made a longer one."
        ).format(longer=len(better), compared=len(compared))


def _day(on: date, year: int) -> str:
    told = words.short_day(on)
    return told.rsplit(" ", 1)[0] if on.year == year else told


def grown_line(grown: Grown) -> str:
    """Tell the lengths of a plant in a line."""
    parts = []
    for named, now, before in (
        (tr("lead"), grown.lead_mm, grown.lead_before_mm),
        (tr("new root"), grown.root_mm, grown.root_before_mm),
    ):
        if now is None:
            continue
        then = (
            ""
            if before is None
            else tr(" ({before} the year before)").format(before=small_text(before, 0))
        )
        parts.append(f"{named} {small_text(now, 0)}{then}")
    return ", ".join(parts)


def came_line(came: Came) -> str:
    """Tell how a plant came."""
    day = words.short_day(came.on)
    if came.how is not None:
        of = _HOW[came.how].format(
            parent=came.parent or tr("a plant that is not on record")
        )
        return f"{day}, {of}"
    return f"{day}: {came.source}" if came.source else day


def went_line(went: Went) -> str:
    """Tell what became of a plant, and why."""
    told = tr("{left} on {short_day}").format(
        left=LEFT[went.status], short_day=words.short_day(went.on)
    )
    if went.why:
        return f"{told}: {went.why}"
    return (
        tr("{told}, no reason on record").format(told=told)
        if went.status is Status.LOST
        else told
    )


def losses(review: YearReview) -> str:
    """Say how many were lost; empty where nothing left."""
    if not review.went:
        return ""
    counts = Counter(each.status for each in review.went)
    said = [f"{counts[status]} {LEFT[status]}" for status in LEFT if counts[status]]
    lost = counts[Status.LOST]
    return (
        f"{listed(said)}."
        if lost
        else tr("{list}; none was lost.").format(list=listed(said))
    )


def repots(review: YearReview) -> str:
    """Say which plants were repotted."""
    if not review.repotted:
        return tr(NO_REPOTS)
    tags = [who.tag for who, _ in review.repotted]
    count = words.counted(len(tags), "repot", "repots")
    return f"{count}: {some(tags, 40)}."


def hindsight(review: YearReview) -> Iterator[str]:
    """Say which decisions should have been others."""
    if not review.marks:
        yield tr(NO_MARKS)
    for mark in review.marks:
        times = words.counted(mark.times, "time", "times")
        was, better = words.VERDICT[mark.was], words.VERDICT[mark.better]
        if mark.was is mark.better:
            yield tr("{times}, {was} was right.").format(times=times, was=inside(was))
        else:
            yield tr("{times}, {was} should have been {better}.").format(
                times=times, was=inside(was), better=inside(better)
            )


def photos(review: YearReview) -> str:
    """Say how many photos there are, and how many are shown."""
    if not review.photos_of:
        return tr(NO_PHOTOS)
    shown = len(review.photos)
    count = review.photos_of
    if shown == count:
        return trn(
            "{count} photo was taken.", "{count} photos were taken.", count
        ).format(count=count)
    return trn(
        "{count} photo was taken; {shown} of them, spread over the months.",
        "{count} photos were taken; {shown} of them, spread over the months.",
        count,
    ).format(count=count, shown=shown)


def some(tags: list[str], most: int = _NAMED) -> str:
    """Name the first of many, and count the rest."""
    more = len(tags) - most
    if more <= 0:
        return listed(tags)
    return tr("{list} and {more} more").format(list=", ".join(tags[:most]), more=more)
