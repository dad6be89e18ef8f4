"""What 1:R means: one part in R parts of feed, or one part added to R parts of water.

Both are in use (extension tables mean the first, some bags and siphons the second), so
neither is guessed: at 1:100 they differ by 1 %, at 1:15 by 6.7 %. A per cent always
means parts in a hundred of the finished feed. Products and bottles are not known here.
"""

from __future__ import annotations

import re
from enum import StrEnum

from msgspec import Struct

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, plain, tr
from growdesk.domain.typed_numbers import NUMBER, read_number

_RATIO = rf"(?:1(?:\s+part)?\s*(?::|(?:added\s+)?to|in|\+)\s*)?({NUMBER})(?:\s+parts)?"
_PERCENT = rf"({NUMBER})\s*%"
_HINT = mark('Write it as on the injector, for instance "1:100" or "1 %".')
LEAST_PARTS, MOST_PARTS = 2.0, 2000.0
_CHOOSE = mark("Choose one part in so many, or one part added to so many.")


class Meaning(StrEnum):
    """What the R of 1:R counts."""

    PART_IN = "part-in"
    PART_ADDED = "part-added"


class Ratio(Struct, frozen=True):
    """A dilution of a stock into feed, with what its R counts."""

    parts: float
    meaning: Meaning

    @property
    def times(self) -> float:
        """Give how many times stronger the stock is than the feed."""
        return self.parts + (1 if self.meaning is Meaning.PART_ADDED else 0)

    @property
    def percent(self) -> float:
        """Give the stock in a hundred parts of feed."""
        return 100 / self.times

    @property
    def stock_ml_per_l(self) -> float:
        """Give the millilitres of stock in a litre of finished feed."""
        return 1000 / self.times

    @property
    def water_ml_per_l(self) -> float:
        """Give the millilitres of water that go with them."""
        return 1000 - self.stock_ml_per_l


def meanings(parts: float) -> tuple[Ratio, Ratio]:
    """Give both meanings of 1:R."""
    return Ratio(parts, Meaning.PART_IN), Ratio(parts, Meaning.PART_ADDED)


def apart_percent(parts: float) -> float:
    """Give by how many per cent the two meanings differ in strength."""
    return 100 / parts


def parse_ratio(
    text: str,
    meaning: Meaning | None,
    field: str = "ratio",
    how_to_choose: str = "",
) -> Ratio:
    """Give the ratio typed as ``1:100``, ``1 in 100`` or ``1 %``.

    ``meaning`` is what was chosen; without it 1:R is asked back. A per cent has one
    meaning, and so have ``1 in 100`` and ``1 + 100`` as they are written.
    """
    clean = " ".join(text.split())
    percent = re.fullmatch(_PERCENT, clean)
    if percent is not None:
        share = read_number(percent[1], field, text, asks_groups=True)
        if not 100 / MOST_PARTS <= share <= 100 / LEAST_PARTS:
            raise InputError(
                field, text, tr("is not a share of stock in feed"), tr(_HINT)
            )
        return Ratio(100 / share, Meaning.PART_IN)
    typed = re.fullmatch(_RATIO, clean, re.IGNORECASE)
    if typed is None:
        raise InputError(field, text, tr("is not a ratio that can be read"), tr(_HINT))
    parts = read_number(typed[1], field, text, asks_groups=False)
    if not LEAST_PARTS <= parts <= MOST_PARTS:
        allowed = tr("1:{least_parts} to 1:{most_parts}").format(
            least_parts=plain(LEAST_PARTS), most_parts=plain(MOST_PARTS)
        )
        raise InputError(
            field,
            text,
            tr("is not a ratio from {allowed}").format(allowed=allowed),
            tr(_HINT),
        )
    said = _said(clean) or meaning
    if said is None:
        raise InputError(
            field,
            text,
            tr("can be meant in two ways"),
            how_to_choose or tr(_CHOOSE),
        )
    return Ratio(parts, said)


def _said(clean: str) -> Meaning | None:
    if " in " in clean.lower():
        return Meaning.PART_IN
    is_added = "+" in clean or " added to " in clean.lower()
    return Meaning.PART_ADDED if is_added else None
