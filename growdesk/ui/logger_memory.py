"""Remember how a logger's columns were read, so that its next file asks nothing.

A logger is known by the names of its columns. Only the way of reading is kept, in the
preferences of this machine; readings go into the collection.
"""

from __future__ import annotations

from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.services.logger_columns import Role
from growdesk.services.logger_values import Choices
from growdesk.ui.preferences import kept_folder, preferences

if TYPE_CHECKING:
    from growdesk.services.logger_times import DayOrder
    from growdesk.services.logger_values import Survey


class Remembered(Struct, frozen=True):
    """How a logger's last file was read, and the name of its place."""

    choices: Choices
    place: str


def keep(survey: Survey, choices: Choices, place: str) -> None:
    """Keep how a file was read."""
    kept, key = preferences(), _key(survey)
    kept.setValue(f"{key}/columns", ",".join(role.value for role in choices.roles))
    order = choices.day_order
    kept.setValue(f"{key}/order", "" if order is None else order.value)
    kept.setValue(f"{key}/place", place)


def recall(survey: Survey) -> Remembered | None:
    """Give how such a file was read last, if it still fits this one."""
    kept, key = preferences(), _key(survey)
    try:
        texts = str(kept.value(f"{key}/columns", "")).split(",")
        roles = tuple(Role(text) for text in texts)
    except ValueError:
        return None
    if len(roles) != len(survey.columns):
        return None
    orders = {each.order.value: each.order for each in survey.orders}
    order: DayOrder | None = orders.get(str(kept.value(f"{key}/order", "")))
    choices = Choices(roles, order or survey.day_order)
    return Remembered(choices, str(kept.value(f"{key}/place", "")))


def folder() -> str:
    """Give the folder of the file that was chosen last, else the home folder."""
    return kept_folder("logger-folder")


def keep_folder(file: str) -> None:
    """Keep the folder of a file that was chosen."""
    preferences().setValue("logger-folder", str(Path(file).parent))


def _key(survey: Survey) -> str:
    names = "\x1f".join(column.name for column in survey.columns)
    return f"logger-{sha256(names.encode()).hexdigest()[:16]}"
