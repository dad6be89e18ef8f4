"""What stands on a stock bottle's label, in words, for paper."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import stock_words
from growdesk.domain.stock_templates import LABEL_CAUTIONS

if TYPE_CHECKING:
    from collections.abc import Iterable

    from growdesk.services.stock_values import StockBench, StockView


class StockLabel(Struct, frozen=True):
    """One label: its name large, then lines of contents, days, use and cautions."""

    name: str
    contents: tuple[str, ...]
    days: tuple[str, ...]
    use: tuple[str, ...]
    cautions: tuple[str, ...]


def label_of(view: StockView) -> StockLabel:
    """Give the label of a bottle."""
    return StockLabel(
        name=view.name,
        contents=stock_words.contents_texts(view.stock),
        days=stock_words.days_texts(view.made_on, view.keep_by),
        use=(*stock_words.label_use_texts(view.stock), stock_words.clear_text()),
        cautions=tuple(LABEL_CAUTIONS),
    )


def labels_of(bench: StockBench, stock_ids: Iterable[int]) -> tuple[StockLabel, ...]:
    """Give the labels of some bottles, in the order of the bench."""
    wanted = frozenset(stock_ids)
    return tuple(label_of(each) for each in bench.bottles if each.stock_id in wanted)
