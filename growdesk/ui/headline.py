"""Say the day in words, what to do first, and what is left when it is done.

Plain sentences from a ``DayView``; no widget and no service. Each thing that is said is
a whole sentence of its own, so that it can be said in any language.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.phrases import listed
from growdesk.domain.speech import tr, trn
from growdesk.domain.volume_words import volume_text
from growdesk.domain.week_wording import day_name
from growdesk.services.values import DoneKind
from growdesk.ui import jug_words, words
from growdesk.ui.day_columns import can_tick

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from growdesk.services.values import DayBegun, DayView, Line


def day_title(view: DayView | DayBegun, today: date) -> str:
    """Give the day as a title, with how near it is."""
    day = words.long_day(view.on)
    days = (view.on - today).days
    if view.is_today:
        return tr("Today, {day}").format(day=day)
    if days == 1:
        return tr("Tomorrow, {day}").format(day=day)
    if days > 0:
        return tr("{day} (in {days} days)").format(day=day, days=days)
    said = trn("{day} ({days} day ago)", "{day} ({days} days ago)", -days)
    return said.format(day=day, days=-days)


def judging(begun: DayBegun) -> str:
    """Say how far the judging of a day is, and how its list stands until then."""
    return tr(
        "Judging {plants} plants, {judged} done. Until then they stand by place, "
        "without jugs; then by verdict."
    ).format(plants=len(begun.lines), judged=begun.judged)


def still_judging(begun: DayBegun) -> str:
    """Say that something has to wait until all plants are judged."""
    return tr(
        "{judged} of {plants} plants are judged so far. Choose it again once all are."
    ).format(plants=len(begun.lines), judged=begun.judged)


def what_first(view: DayView, today: date) -> str:
    """Say what to do first, what is to come, or what came of the day."""
    return " ".join(_said(view, today))


def for_day(view: DayView, today: date) -> str:
    """Say the same with the day it is for, to stand over a week of days."""
    said = what_first(view, today)
    if not view.lines:
        return said
    if view.is_today:
        return tr("For today: {said}").format(said=said)
    return tr("For {day}: {said}").format(day=words.near_day(view.on), said=said)


def _said(view: DayView, today: date) -> Iterator[str]:
    """Give the sentences on a day, by the state that it is in."""
    if not view.lines:
        yield tr("No plants yet. Begin with the steps on the left.")
        return
    if view.on > today:
        yield from _ahead(view, today)
        return
    if is_no_watering_day(view):
        said = tr("No watering day today; the next is {day}.")
        yield said.format(day=words.near_day(view.next_day))
    to_do = [line for line in view.lines if can_tick(line) and line.done is None]
    if not to_do:
        yield from _over(view, today)
        return
    yield from _first_steps(view)
    yield _to_do(len(to_do), sum(line.done is not None for line in view.lines))
    if not view.is_today:
        yield tr("What was really given can still be ticked late.")


def is_no_watering_day(view: DayView) -> bool:
    """Tell whether the house waters on other weekdays than the one that today is."""
    if view.bench is None or not view.is_today:
        return False
    return view.on.weekday() not in view.bench.house.watering_weekdays


def _to_do(left: int, done: int) -> str:
    if done:
        said = trn(
            "{left} plant to do, {done} done.",
            "{left} plants to do, {done} done.",
            left,
        )
        return said.format(left=left, done=done)
    said = trn("{left} plant to do.", "{left} plants to do.", left)
    return said.format(left=left)


def _ahead(view: DayView, today: date) -> Iterator[str]:
    """Say what a day to come asks for; nothing of it can be done yet."""
    steps = tuple(_first_steps(view))
    yield from steps or (tr("Nothing to pour."),)
    yield _goes_by(view, today)
    yield tr("Ticks open on the day itself.")


def _goes_by(view: DayView, today: date) -> str:
    """Say which rounds before a day to come are taken as done."""
    days = [day_name(on, today, view.on) for on in view.taken_as_done]
    if not days:
        return tr("So it stands now.")
    if len(days) == 1:
        said = tr("That takes the round of {day} as done as planned.")
        return said.format(day=days[0])
    if len(days) == 2:
        said = tr("That takes the rounds of {day} and {other} as done as planned.")
        return said.format(day=days[0], other=days[1])
    said = tr("That takes the {count} rounds before it as done as planned.")
    return said.format(count=len(days))


def _first_steps(view: DayView) -> Iterator[str]:
    looks = _looks(view)
    if looks:
        yield trn(
            "{count} plant wants a look first.",
            "{count} plants want a look first.",
            looks,
        ).format(count=looks)
    pending = any(
        line.verdict is Verdict.FEED and line.done is None for line in view.lines
    )
    if view.mix.jugs and pending:
        mixed_l = sum(jug_words.mixed_l(jug) for jug in view.mix.jugs)
        count = len(view.mix.jugs)
        mixed = jug_words.litres_text(mixed_l)
        yield trn(
            "Mix {count} jug of feed, {volume}.",
            "Mix {count} jugs of feed, {volume}.",
            count,
        ).format(count=count, volume=mixed)
    water_l = jug_words.clear_total_l(view.mix)
    if water_l:
        said = tr("Have {volume} of clear water ready, and a little to spare.")
        yield said.format(volume=volume_text(water_l))


def _over(view: DayView, today: date) -> Iterator[str]:
    """Say what came of a day, the water used, what is left, and the next day."""
    done = [line for line in view.lines if line.done is not None]
    if done:
        yield tr("All done: {given}.").format(given=_given(done))
        used_l = sum(each.done.volume_l or 0.0 for each in done if each.done)
        if used_l:
            yield tr("{volume} used.").format(volume=volume_text(used_l))
    elif all(line.verdict is Verdict.KEEP_DRY for line in view.lines):
        yield trn(
            "Nothing to pour: the plant is kept dry, its line says why.",
            "Nothing to pour: all {count} plants are kept dry, each line says why.",
            len(view.lines),
        ).format(count=len(view.lines))
    looks = _looks(view)
    if looks and not done:
        yield trn(
            "{count} plant wants a look first. Nothing else is to be done on this day.",
            "{count} plants want a look first. Nothing else is to be done on this day.",
            looks,
        ).format(count=looks)
    elif looks:
        said = trn(
            "{count} plant still to look at.", "{count} plants still to look at.", looks
        )
        yield said.format(count=looks)
    if view.next_day > today and not is_no_watering_day(view):
        said = tr("Next watering day: {day}.")
        yield said.format(day=words.near_day(view.next_day))


def _given(done: list[Line]) -> str:
    """Count what was given by what it was, in the order of the list."""
    counts: dict[CareKind | None, int] = {}
    for line in done:
        if line.done is not None:
            passed = line.done.kind is DoneKind.PASSED_BY
            what = None if passed else line.done.what
            counts[what] = counts.get(what, 0) + 1
    said = {
        None: tr("{count} passed by"),
        CareKind.FEED: tr("{count} fed"),
        CareKind.CLEAR_WATER: tr("{count} on clear water"),
        CareKind.FLUSH: tr("{count} flushed"),
    }
    other = tr("{count} cared for")
    return listed(
        [said.get(what, other).format(count=count) for what, count in counts.items()]
    )


def _looks(view: DayView) -> int:
    """Count the plants that want a look; passing one by is no look."""
    return sum(line.verdict is Verdict.LOOK_FIRST for line in view.lines)
