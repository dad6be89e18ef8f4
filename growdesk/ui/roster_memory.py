"""Remember on this machine how the grower likes the table: columns, order, widths.

What is found and filtered is not remembered: a table that opens with plants left out
would be taken for all of them.
"""

from __future__ import annotations

import json

from msgspec import Struct, field

from growdesk.domain.json_text import decoded
from growdesk.ui import roster_columns
from growdesk.ui.preferences import preferences

_KEY = "collection-table"
LEAST_PX, MOST_PX = 30, 1200


class Liked(Struct):
    """The usual columns and order, and the widths in pixels by column."""

    columns: tuple[str, ...] = roster_columns.USUAL
    order: str = roster_columns.USUAL_ORDER
    downwards: bool = False
    widths: dict[str, int] = field(default_factory=dict)


def recall() -> Liked:
    """Give what was remembered; what cannot be read is as it is at first."""
    try:
        kept = decoded(str(preferences().value(_KEY, "{}")))
        columns = tuple(
            column.key for column in roster_columns.chosen(kept.get("columns", ()))
        )
        order = str(kept.get("order", ""))
        widths = {
            str(key): int(wide)
            for key, wide in kept.get("widths", {}).items()
            if LEAST_PX <= int(wide) <= MOST_PX
        }
        known = order in roster_columns.BY_KEY
        return Liked(
            columns or roster_columns.USUAL,
            order if known else roster_columns.USUAL_ORDER,
            known and bool(kept.get("downwards")),
            widths,
        )
    except (ValueError, TypeError, AttributeError, OverflowError):
        return Liked()


def keep(liked: Liked) -> None:
    """Remember how the table is liked."""
    preferences().setValue(
        _KEY,
        json.dumps(
            {
                "columns": liked.columns,
                "order": liked.order,
                "downwards": liked.downwards,
                "widths": liked.widths,
            }
        ),
    )
