"""Names as growers write them: read, shown, doubted, sorted, and offered while typed.

The table of genera is a shipped file, read once; no collection is needed.
"""

from __future__ import annotations

from functools import cache, lru_cache
from typing import TYPE_CHECKING

from growdesk import assets
from growdesk.domain import name_words
from growdesk.domain.genera import parse_genera
from growdesk.domain.name_offers import Offer
from growdesk.domain.name_offers import offered as offered_of
from growdesk.domain.name_runs import Form, Run, runs
from growdesk.domain.name_sort import sort_key
from growdesk.domain.names import parse_name
from growdesk.services.name_values import DoubtView, NameView

if TYPE_CHECKING:
    from growdesk.domain.genera import Genera
    from growdesk.domain.name_sort import SortKey
    from growdesk.domain.plant_name import PlantName

_KEPT = 4096


@cache
def genera() -> Genera:
    """Give the shipped genera and their abbreviations."""
    return parse_genera(
        assets.read_text("genera.csv"),
        assets.read_text("genera_made.csv"),
        assets.read_text("genera_unsure.csv"),
    )


@lru_cache(_KEPT)
def read(text: str) -> PlantName:
    """Give a typed name's parts; never raises."""
    return parse_name(text, genera())


@lru_cache(_KEPT)
def sort_key_of(text: str) -> SortKey:
    """Give the key that growers sort by: genus, species or grex, clone."""
    return sort_key(read(text))


@lru_cache(_KEPT)
def runs_of(text: str, form: Form = Form.TYPED) -> tuple[Run, ...]:
    """Give a typed name as stretches of roman and italic text."""
    return runs(read(text), form)


def told(text: str) -> NameView:
    """Give a typed name as it is shown, with its parts and doubts in words."""
    name = read(text)
    doubts = tuple(
        DoubtView(
            str(doubt.sort),
            name_words.said(doubt),
            name_words.settles(doubt),
            doubt.proposals,
            doubt.is_gentle,
        )
        for doubt in name.doubts
    )
    return NameView(
        text=name.as_typed,
        runs=runs_of(text),
        parts=name_words.parts(name),
        parts_line=name_words.parts_line(name),
        doubts=doubts,
        sort_key=sort_key_of(text),
        name=name,
    )


def offered(text: str, limit: int = 8) -> tuple[Offer, ...]:
    """Give the genera that the word being typed may become."""
    return offered_of(text, genera(), limit)
