"""Each rule's page: its docstring, under five headings."""

from __future__ import annotations

import importlib
import pkgutil
import re
from itertools import pairwise

import pytest

from growdesk.domain import rules

HEADINGS = (
    "What it asks:",
    "Why it matters:",
    "When it is silent:",
    "Example:",
    "Source:",
)
MODULES = tuple(found.name for found in pkgutil.iter_modules(rules.__path__))


def page(name: str) -> str:
    return importlib.import_module(f"{rules.__name__}.{name}").__doc__ or ""


def sections(text: str) -> dict[str, str]:
    starts = [re.search(rf"^{re.escape(h)}", text, re.MULTILINE) for h in HEADINGS]
    assert None not in starts, [
        h for h, s in zip(HEADINGS, starts, strict=True) if not s
    ]
    at = [found.start() for found in starts if found is not None]
    ends = [*at[1:], len(text)]
    return {
        heading: text[start + len(heading) : end].strip()
        for heading, start, end in zip(HEADINGS, at, ends, strict=True)
    }


def test_there_are_rules() -> None:
    assert len(MODULES) >= 9


@pytest.mark.parametrize("name", MODULES)
def test_a_rules_page_has_the_five_headings_in_their_order(name: str) -> None:
    text = page(name)
    places = [text.find(f"\n{heading}") for heading in HEADINGS]
    assert all(one < two for one, two in pairwise(places))
    assert all(sections(text).values())


@pytest.mark.parametrize("name", MODULES)
def test_a_source_is_named_or_the_lack_of_one(name: str) -> None:
    source = sections(page(name))["Source:"]
    marks = ("http", "house rule", "House rule", "no source")
    assert any(mark in source for mark in marks)


@pytest.mark.parametrize("name", MODULES)
def test_what_it_asks_is_a_question(name: str) -> None:
    assert sections(page(name))["What it asks:"].endswith("?")
