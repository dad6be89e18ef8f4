"""Remember how a table's columns were matched, so that the next one asks nothing.

A table is known by the names of its columns. Only the matching is kept, in the
preferences of this machine.
"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.services.intake_fields import FIELDS, Sort
from growdesk.services.intake_values import Choices
from growdesk.services.logger_times import DayOrder
from growdesk.ui.preferences import kept_folder, preferences

if TYPE_CHECKING:
    from growdesk.services.intake_values import Survey


def keep(survey: Survey, choices: Choices) -> None:
    """Keep how a table was read."""
    kept, key = preferences(), _key(survey)
    kept.setValue(f"{key}/sort", choices.sort.value)
    kept.setValue(f"{key}/columns", "|".join(choices.keys))
    kept.setValue(f"{key}/order", choices.day_order.value if choices.day_order else "")
    kept.setValue(f"{key}/decimal", choices.decimal)


def recall(survey: Survey) -> Choices | None:
    """Give how such a table was read last, if that still fits this one."""
    kept, key = preferences(), _key(survey)
    try:
        sort = Sort(str(kept.value(f"{key}/sort", "")))
    except ValueError:
        return None
    keys = tuple(str(kept.value(f"{key}/columns", "")).split("|"))
    fits = len(keys) == len(survey.columns) and {*keys} <= {"", *FIELDS[sort]}
    if not fits:
        return None
    order = str(kept.value(f"{key}/order", ""))
    known = DayOrder(order) if order in set(DayOrder) else None
    decimal = str(kept.value(f"{key}/decimal", ""))
    return Choices(sort, keys, known, decimal if decimal in {".", ","} else "")


def folder() -> str:
    """Give the folder of the table that was chosen last, else the home folder."""
    return kept_folder("table-folder")


def keep_folder(file: str) -> None:
    """Keep the folder of a table that was chosen."""
    preferences().setValue("table-folder", str(Path(file).parent))


def _key(survey: Survey) -> str:
    names = "\x1f".join(column.name for column in survey.columns)
    return f"table-{sha256(names.encode()).hexdigest()[:16]}"
