"""Say the day in words, what to do first, and what is left when it is done.

Plain sentences from a ``DayView``; no widget and no service.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind, Verdict
from growdesk.domain.speech import tr
from growdesk.domain.volume_words import volume_text
from growdesk.domain.week_wording import day_name
from growdesk.services.values import DoneKind
from growdesk.ui import jug_words, words
from growdesk.ui.models.day_model import can_tick

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.values import DayView, Line


def day_title(view: DayView, today: date) -> str:
    """Give the day as a title, with how near it is."""
    title = words.long_day(view.on)
    if view.is_today:
        return tr("Today, {title}").format(title=title)
    days = (view.on - today).days
    if days == 1:
        return tr("Tomorrow, {title}").format(title=title)
    near = (
        tr("in {days} days").format(days=days)
        if days > 0
        else f"{words.counted(-days, 'day', 'days')} ago"
    )
    return f"{title} ({near})"


def what_first(view: DayView, today: date) -> str:
    """Say what to do first, what is to come, or what came of the day."""
    if not view.lines:
        return tr("No plants yet. Begin with the steps on the left.")
    if view.on > today:
        return _ahead(view, today)
    to_do = [line for line in view.lines if can_tick(line) and line.done is None]
    if not to_do:
        return _summary(view)
    parts = _first_steps(view)
    left = tr("{plants} to do").format(plants=words.plants(len(to_do)))
    done = sum(line.done is not None for line in view.lines)
    left += tr(", {done} done.").format(done=done) if done else "."
    return f"{_sentence(parts)} {left}" if parts else left


def for_day(view: DayView, today: date) -> str:
    """Say the same with the day it is for, to stand over a week of days."""
    said = what_first(view, today)
    if not view.lines:
        return said
    on = "today" if view.is_today else words.near_day(view.on)
    mark = "," if said.startswith(("If ", "As things stand")) else ":"
    return tr("For {on}{mark} {said}{said_2}").format(
        on=on, mark=mark, said=said[0].lower(), said_2=said[1:]
    )


def _ahead(view: DayView, today: date) -> str:
    """Say what a day to come asks for; nothing of it can be done yet."""
    waits = tr("Ticks open on the day itself.")
    goes_by = _goes_by(view, today)
    parts = _first_steps(view)
    if not parts:
        return tr("Nothing to pour, {goes_by}. {waits}").format(
            goes_by=goes_by, waits=waits
        )
    return f"{goes_by[0].upper()}{goes_by[1:]}: {_joined(parts)}. {waits}"


def _goes_by(view: DayView, today: date) -> str:
    """Say which rounds before a day to come are taken as done."""
    days = [day_name(on, today, view.on) for on in view.taken_as_done]
    if not days:
        return tr("as things stand")
    if len(days) == 1:
        return tr("if {days}'s round is done as planned").format(days=days[0])
    if len(days) == 2:
        return tr("if the rounds of {days} and {days_2} are done as planned").format(
            days=days[0], days_2=days[1]
        )
    return tr("if the {count} rounds before it are done as planned").format(
        count=len(days)
    )


def _first_steps(view: DayView) -> list[str]:
    looks = _looks(view)
    parts = []
    if looks == 1:
        parts.append(tr("1 plant wants a look first"))
    elif looks:
        parts.append(tr("{looks} plants want a look first").format(looks=looks))
    pending = any(
        line.verdict is Verdict.FEED and line.done is None for line in view.lines
    )
    if view.mix.jugs and pending:
        mixed_l = sum(jug_words.mixed_l(jug) for jug in view.mix.jugs)
        jugs = words.counted(len(view.mix.jugs), "jug", "jugs")
        parts.append(
            tr("mix {jugs} of feed, {mixed_l}").format(
                jugs=jugs, mixed_l=volume_text(mixed_l)
            )
        )
    water_l = jug_words.clear_total_l(view.mix)
    if water_l:
        ready = tr("{water_l} of clear water").format(water_l=volume_text(water_l))
        parts.append(
            tr("have {ready} ready, {clear_spare}").format(
                ready=ready, clear_spare=tr(jug_words.CLEAR_SPARE)
            )
        )
    return parts


def _joined(parts: list[str]) -> str:
    first, *rest = parts
    return (
        tr("{first}; then {list}").format(first=first, list="; ".join(rest))
        if rest
        else first
    )


def _sentence(parts: list[str]) -> str:
    joined = _joined(parts)
    return joined[0].upper() + joined[1:] + "."


def _summary(view: DayView) -> str:
    """Say what is left, the water used, and the next day."""
    done = [line for line in view.lines if line.done is not None]
    following = tr("Next watering day: {near_day}.").format(
        near_day=words.near_day(view.next_day)
    )
    looks = _looks(view)
    left = (
        tr("{plants} still to look at. ").format(plants=words.plants(looks))
        if looks
        else ""
    )
    if not done:
        return tr("Nothing to pour on this day. {left}{following}").format(
            left=left, following=following
        )
    used_l = sum(line.done.volume_l or 0.0 for line in done if line.done is not None)
    given = _given_words(done)
    used = tr(" {used_l} used.").format(used_l=words.volume(used_l)) if used_l else ""
    return tr("All done: {given}.{used} {left}{following}").format(
        given=given, used=used, left=left, following=following
    )


def _given_words(done: list[Line]) -> str:
    counts: dict[str, int] = {}
    names = {
        CareKind.FEED: "fed",
        CareKind.CLEAR_WATER: tr("on clear water"),
        CareKind.FLUSH: "flushed",
    }
    for line in done:
        if line.done is None:
            continue
        what = line.done.what
        if line.done.kind is DoneKind.PASSED_BY or what is None:
            name = tr("passed by")
        else:
            name = names.get(what, tr("cared for"))
        counts[name] = counts.get(name, 0) + 1
    return ", ".join(f"{count} {name}" for name, count in counts.items())


def _looks(view: DayView) -> int:
    """Count the plants that want a look; passing one by is no look."""
    return sum(line.verdict is Verdict.LOOK_FIRST for line in view.lines)
