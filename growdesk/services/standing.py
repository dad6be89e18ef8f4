"""Which plants a statement is about: all that have a tag, or those still growing.

A plant in the bin is about to be forgotten and is never meant. One that was given away,
sold or lost keeps its tag, its records and its photos, and takes part in no round.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import and_

from growdesk.domain.holding import Status
from growdesk.store.schema import PlantRow

if TYPE_CHECKING:
    from sqlalchemy import ColumnElement


def here() -> ColumnElement[bool]:
    """Give what holds of every plant on record, in the collection or not any more."""
    return PlantRow.binned_on.is_(None)


def growing() -> ColumnElement[bool]:
    """Give what holds of the plants that are in the collection now."""
    return and_(PlantRow.binned_on.is_(None), PlantRow.status == Status.GROWING)
