"""The handbook of the language spoken, as shipped: a folder of Markdown pages each.

``contents.md`` of a folder gives the order: a heading a part, a link a page. Commands
and keys in a page are links (``command:look``, ``key:look``); who shows a page puts
their words in. Lists made of what the program has go between two comments.
"""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk import assets
from growdesk.domain import cautions
from growdesk.domain.facts import House
from growdesk.domain.rule_book import Part
from growdesk.domain.speech import tr
from growdesk.services.glossary import glossary_page
from growdesk.services.rule_views import PART_TITLES, rule_views

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

ENGLISH: Final = "en"
CONTENTS: Final = "contents.md"
_ENTRY: Final = re.compile(r"^- \[(?P<title>.+)\]\((?P<key>[a-z-]+)\.md\)$")
LISTS: Final = re.compile(r"<!-- (?P<what>[a-z]+) -->\n.*?<!-- end -->", re.DOTALL)
_SPECIAL: Final = re.compile(r"([\\`*_\[\]<>#])")


class HandbookPage(Struct, frozen=True):
    """One page: its key, the part it stands in, its title, its Markdown."""

    key: str
    part: str
    title: str
    text: str


def handbook() -> tuple[HandbookPage, ...]:
    """Give all pages in their order, in English where the language has none.

    A catalogue says the name of its folder in place of "en".
    """
    shipped = _shipped(tr("en", "name of the handbook's folder, as de"))
    return tuple(
        HandbookPage(page.key, page.part, page.title, with_lists(page.text))
        for page in shipped
    )


def with_lists(text: str) -> str:
    """Put what the program has now between the comments that name it."""
    return LISTS.sub(lambda found: MADE[found["what"]](), text)


def escaped(text: str) -> str:
    """Give a text as Markdown that shows just that."""
    return _SPECIAL.sub(r"\\\1", text)


@lru_cache(maxsize=4)
def _shipped(language: str) -> tuple[HandbookPage, ...]:
    try:
        contents = assets.read_text(f"handbook/{language}/{CONTENTS}")
    except FileNotFoundError:
        language = ENGLISH
        contents = assets.read_text(f"handbook/{language}/{CONTENTS}")
    return tuple(_pages(contents, language))


def _pages(contents: str, language: str) -> Iterator[HandbookPage]:
    part = ""
    for line in contents.splitlines():
        if line.startswith("## "):
            part = line.removeprefix("## ")
        elif entry := _ENTRY.match(line):
            key = entry["key"]
            text = assets.read_text(f"handbook/{language}/{key}.md")
            yield HandbookPage(key, part, entry["title"], text)


def _cautions() -> str:
    lines = (*cautions.FULL, *cautions.STOCKS, tr(cautions.CLEAN_BLADE))
    papers = tr(cautions.PAPERS)
    return "\n".join(f"- {escaped(line)}" for line in (*lines, papers))


def _words() -> str:
    return "\n\n".join(
        f"**{escaped(entry.word)}**: {escaped(entry.text)}" for entry in glossary_page()
    )


def _rules() -> str:
    lines: list[str] = []
    part = None
    for view in rule_views(House()):
        if view.part is not part:
            part = view.part
            lines += ["", f"## {escaped(PART_TITLES[part])}", ""]
        mark = "1." if part is Part.GATE else "-"
        lines.append(f"{mark} [{escaped(view.title)}](rule:{view.rule})")
    return "\n".join(lines[1:])


MADE: Final[Mapping[str, Callable[[], str]]] = {
    "cautions": _cautions,
    "words": _words,
    "rules": _rules,
}
"""What is put between ``<!-- cautions -->`` and ``<!-- end -->``, and so on."""
