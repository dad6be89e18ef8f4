"""The rules of the decision as a window or a terminal shows them, for one house."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import rule_book
from growdesk.domain.rule_book import Part
from growdesk.domain.rule_pages import house_numbers
from growdesk.domain.speech import Phrases, mark, tr
from growdesk.services.house_rules import DECLARED
from growdesk.services.values import SettingKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.facts import House
    from growdesk.domain.rule_book import Entry
    from growdesk.services.values import Setting

PART_TITLES: Mapping[Part, str] = Phrases(
    {
        Part.WHOLE: "The decision",
        Part.GATE: "The rules, the strongest first",
        Part.BESIDE: "Told beside the verdict",
        Part.STRENGTH: "The strength, step by step",
    }
)
HEADINGS = (
    ("asks", mark("What it asks")),
    ("why", mark("Why it matters")),
    ("silent", mark("When it is silent")),
    ("example", mark("Example")),
    ("source", mark("Source")),
)
_BETWEEN = {
    Part.GATE: (mark("Gives way to: {rules}."), mark("Comes before: {rules}.")),
    Part.STRENGTH: (
        mark("Reckoned after: {rules}."),
        mark("Reckoned before: {rules}."),
    ),
}
_ALONE = Phrases(
    {
        Part.WHOLE: "Every rule that can decide stands in this order.",
        Part.BESIDE: "It stands in no order, since it never decides.",
        Part.STRENGTH: "Its steps follow, in the order in which they are reckoned.",
    }
)
_FIRST = mark("Nothing comes before it.")
_LAST = mark("Nothing comes after it.")


class RuleNumber(Struct, frozen=True):
    """A house rule that a page speaks of: its key, its title, its number in force."""

    key: str
    title: str
    value: str


class RuleView(Struct, frozen=True):
    """One page: the five parts, the numbers in force, and where the rule stands.

    ``above`` and ``below`` name rules, those asked or reckoned first in front;
    ``stands`` says the same in words.
    """

    rule: str
    title: str
    part: Part
    asks: str
    why: str
    silent: str
    example: str
    source: str
    numbers: tuple[RuleNumber, ...]
    above: tuple[str, ...]
    below: tuple[str, ...]
    stands: tuple[str, ...]

    def parts(self) -> tuple[tuple[str, str], ...]:
        """Give the five parts, each with its heading."""
        return tuple((tr(heading), getattr(self, part)) for part, heading in HEADINGS)


def rule_views(house: House) -> tuple[RuleView, ...]:
    """Give every page with the numbers of a house, in the order of the decision."""
    entries = rule_book.book(house)
    titles = {entry.page.rule: entry.page.title for entry in entries}
    shown = house_numbers(house)
    return tuple(_view(entry, titles, house, shown) for entry in entries)


def closest(rule: str, views: tuple[RuleView, ...]) -> tuple[str, ...]:
    """Give the rules that were perhaps meant, the likeliest first, three at most."""
    named = {name: view.rule for view in views for name in _names(view)}
    wanted = rule.strip().casefold()
    likely = [named[name] for name in named if wanted and wanted in name]
    likely += (named[name] for name in difflib.get_close_matches(wanted, named, n=3))
    return tuple(dict.fromkeys(likely))[:3]


def find(rule: str, views: tuple[RuleView, ...]) -> RuleView | None:
    """Give the page of a rule, by its key or title or by a step of the strength."""
    wanted = rule_book.rule_of(rule.strip().casefold())
    return next((view for view in views if wanted in _names(view)), None)


def _names(view: RuleView) -> tuple[str, str]:
    return view.rule, view.title.casefold()


def _in_force(setting: Setting, house: House, shown: Mapping[str, str]) -> str:
    """Give a rule as it holds; a switch is on or off, whatever a page says of it."""
    if setting.kind is SettingKind.BOOL:
        return tr("yes") if getattr(house, setting.key) else tr("no")
    return shown[setting.key]


def _view(
    entry: Entry, titles: Mapping[str, str], house: House, shown: Mapping[str, str]
) -> RuleView:
    page = entry.page
    return RuleView(
        rule=page.rule,
        title=page.title,
        part=entry.part,
        asks=page.asks,
        why=page.why,
        silent=page.silent,
        example=page.example,
        source=page.source,
        numbers=tuple(
            RuleNumber(setting.key, tr(setting.title), _in_force(setting, house, shown))
            for setting in DECLARED
            if setting.key in entry.house_rules
        ),
        above=entry.above,
        below=entry.below,
        stands=tuple(_stands(entry, titles)),
    )


def _stands(entry: Entry, titles: Mapping[str, str]) -> Iterator[str]:
    if not entry.above and not entry.below:
        yield _ALONE[entry.part]
        return
    above, below = _BETWEEN[entry.part]
    for rules, text, none in (
        (entry.above, above, _FIRST),
        (entry.below, below, _LAST),
    ):
        named = "; ".join(titles[rule] for rule in rules)
        yield tr(text).format(rules=named) if rules else tr(none)
