"""The glossary of the language spoken, as shipped: one table a language."""

from __future__ import annotations

import csv
from functools import lru_cache
from typing import TYPE_CHECKING

from growdesk import assets
from growdesk.domain.glossary import Glossary, read_entries
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from growdesk.domain.glossary import Entry

ENGLISH = "en"


def glossary() -> Glossary:
    """Give the words in the language spoken; in English where it has no table.

    A catalogue says the name of its table in place of "en".
    """
    return _shipped(tr("en", "name of the glossary's file, as de"))


def glossary_page() -> tuple[Entry, ...]:
    """Give every word with its meaning in the order of its letters, for a page."""
    return glossary().entries


@lru_cache(maxsize=4)
def _shipped(language: str) -> Glossary:
    try:
        text = assets.read_text(f"glossary/{language}.csv")
    except FileNotFoundError:
        text = assets.read_text(f"glossary/{ENGLISH}.csv")
    return Glossary(read_entries(csv.DictReader(text.splitlines())))
