"""What a mean temperature stands on, as the ending of a key and its values.

One reading is told as one, some days as some: only a whole window is an average of it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.case import Case


def told(case: Case, days: int) -> tuple[str, Mapping[str, object]]:
    """Give the ending of the key, and the values, of a mean over some days, in °C."""
    mean_c = case.mean_c(days)
    read = case.days_read(days)
    if not read:
        return "-undated", {"mean_c": mean_c}
    if len(read) == 1:
        return "-once", {"mean_c": mean_c, "read_on": read[0]}
    values = {"mean_c": mean_c, "days": days}
    if len(read) < days:
        return "-some", {**values, "read": len(read), "of": days}
    return "", values
