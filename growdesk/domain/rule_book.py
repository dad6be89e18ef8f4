"""All rules as they can be read, in the order in which they are asked.

The order of the gates is taken from ``judging``, never written again; what a page says
stands beside its rule.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import judging
from growdesk.domain.pages_beside import BESIDE, ORDER_PAGE
from growdesk.domain.pages_strength import CHAIN, OF_STEP, STEPS
from growdesk.domain.rules import (
    growth,
    harm,
    in_leaf_late,
    leafless_rest,
    look_age,
    overruled,
    potting,
    temperature,
    unfed_rest,
)
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.rule_pages import Pages, RulePage


class Part(StrEnum):
    """Where in the decision a page belongs."""

    WHOLE = "the whole"
    GATE = "gate"
    BESIDE = "beside"
    STRENGTH = "strength"


class Entry(Struct, frozen=True):
    """A page with its neighbours by rule: stronger gates, or earlier steps, first.

    ``house_rules`` are the fields of ``House`` that the page speaks of.
    """

    page: RulePage
    part: Part
    above: tuple[str, ...]
    below: tuple[str, ...]
    house_rules: tuple[str, ...]


PAGE_OF_GATE: Pages = {
    **overruled.PAGES,
    **leafless_rest.PAGES,
    **look_age.PAGES,
    **harm.PAGES,
    **in_leaf_late.PAGES,
    **temperature.PAGES,
    **unfed_rest.PAGES,
    **potting.PAGES,
    **growth.PAGES,
}


def gate_pages() -> tuple[RulePage, ...]:
    """Give the pages of the gates, the strongest first."""
    return tuple(PAGE_OF_GATE[gate] for gate in judging.GATES)


def book(house: House) -> tuple[Entry, ...]:
    """Give every page with the numbers of a house, in the order of the decision."""
    return (
        _entry(ORDER_PAGE, Part.WHOLE, house),
        *_in_order(gate_pages(), Part.GATE, house),
        *(_entry(page, Part.BESIDE, house) for page in BESIDE),
        _entry(CHAIN, Part.STRENGTH, house),
        *_in_order(STEPS, Part.STRENGTH, house),
    )


def title_of(rule: str) -> str:
    """Give the title of a rule's page."""
    return tr(_TITLES[rule])


def rule_of(key: str) -> str:
    """Give the rule whose page tells of a rule or of a step of the strength."""
    return OF_STEP.get(key, key)


_TITLES = {
    page.rule: page.title
    for page in (ORDER_PAGE, *gate_pages(), *BESIDE, CHAIN, *STEPS)
}


def _in_order(pages: Sequence[RulePage], part: Part, house: House) -> tuple[Entry, ...]:
    rules = tuple(page.rule for page in pages)
    return tuple(
        _entry(page, part, house, rules[:place], rules[place + 1 :])
        for place, page in enumerate(pages)
    )


def _entry(
    page: RulePage,
    part: Part,
    house: House,
    above: tuple[str, ...] = (),
    below: tuple[str, ...] = (),
) -> Entry:
    return Entry(page.filled(house), part, above, below, page.house_rules())
