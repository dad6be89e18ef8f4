"""Prints the rules of the decision, or one of them, as a page to read."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from growdesk.commands import output
from growdesk.domain.errors import InputError
from growdesk.domain.facts import House
from growdesk.domain.rule_book import Part
from growdesk.services.rule_views import PART_TITLES, closest, find, rule_views

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Iterator

    from growdesk.commands.desk import Desk
    from growdesk.services.rule_views import RuleView

WIDTH = 80
INDENT = "    "


def run(arguments: Namespace, desk: Desk) -> None:
    """Print all rules or one, with the numbers of the collection where one is named."""
    views = rule_views(_house(desk))
    wanted: str | None = arguments.rule
    shown = views if wanted is None else (_one(wanted, views),)
    if arguments.json:
        output.say_json([_report(view) for view in shown])
        return
    lines = _book(shown) if wanted is None else _page(shown[0])
    for line in lines:
        output.say(line)


def _house(desk: Desk) -> House:
    if desk.folder_given is None and not desk.demo:
        return House()
    with desk.reading(desk.today) as collection:
        return collection.settings.house()


def _one(rule: str, views: tuple[RuleView, ...]) -> RuleView:
    found = find(rule, views)
    if found is not None:
        return found
    close = " or ".join(closest(rule, views))
    hint = f"Did you mean {close}?" if close else "Leave it out to see all rules."
    raise InputError("RULE", rule, "is not the name of a rule", hint)


def _report(view: RuleView) -> dict[str, object]:
    return {
        "rule": view.rule,
        "title": view.title,
        "part": view.part.value,
        "asks": view.asks,
        "why": view.why,
        "silent": view.silent,
        "example": view.example,
        "source": view.source,
        "numbers": [
            {"setting": number.key, "title": number.title, "value": number.value}
            for number in view.numbers
        ],
        "above": list(view.above),
        "below": list(view.below),
    }


def _book(views: tuple[RuleView, ...]) -> Iterator[str]:
    """Give all pages under their headings; a gate's place is its number."""
    part, gate = None, 0
    for view in views:
        if view.part is not part:
            yield from ("",) if part else ()
            part = view.part
            yield PART_TITLES[part].upper()
        gate += view.part is Part.GATE
        number = f"{gate}. " if view.part is Part.GATE else ""
        yield from ("", *_head(view, number), *_parts(view))


def _page(view: RuleView) -> Iterator[str]:
    yield from _head(view, "")
    yield from _parts(view)
    yield "  Where it stands"
    for sentence in view.stands:
        yield from _wrapped(sentence)


def _head(view: RuleView, number: str) -> tuple[str, ...]:
    head = f"{number}{view.title} ({view.rule})"
    return head, "-" * len(head)


def _parts(view: RuleView) -> Iterator[str]:
    for heading, text in view.parts():
        yield f"  {heading}"
        yield from _wrapped(text)
    if view.numbers:
        yield "  Numbers in force"
        for number in view.numbers:
            yield from _wrapped(f"{number.title}: {number.value}")


def _wrapped(text: str) -> list[str]:
    """Give a text in lines of 80 at most; addresses are left whole."""
    return textwrap.wrap(
        text,
        WIDTH,
        initial_indent=INDENT,
        subsequent_indent=INDENT,
        break_long_words=False,
        break_on_hyphens=False,
    )
