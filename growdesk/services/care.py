"""Care: what was given and done to plants; written, corrected, deleted with undo."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, select

from growdesk.services import care_writing
from growdesk.services.care_values import CareDraft
from growdesk.store.schema import CareRow

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.ledger import Ledger
    from growdesk.services.values import CareView, Written

__all__ = ["Care", "CareDraft"]

PRODUCTS_OFFERED = 30


class Care:
    """The care of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def add(self, plant_ids: Sequence[int], draft: CareDraft) -> Written:
        """Write care for one plant or many, as one action."""
        return care_writing.add(self._ledger, plant_ids, draft)

    def change(self, care_id: int, draft: CareDraft) -> Written:
        """Correct a piece of care."""
        return care_writing.change(self._ledger, care_id, draft)

    def remove(self, care_ids: Sequence[int]) -> Written:
        """Delete pieces of care; undo brings them back with what they took."""
        return care_writing.remove(self._ledger, care_ids)

    def products(self) -> tuple[str, ...]:
        """Give the labels that treatments were written with, the latest first."""
        newest = func.max(CareRow.day)
        with self._ledger.reading() as session:
            return tuple(
                session.scalars(
                    select(CareRow.product)
                    .where(CareRow.product != "")
                    .group_by(CareRow.product)
                    .order_by(newest.desc(), CareRow.product)
                    .limit(PRODUCTS_OFFERED)
                )
            )


def draft_of(view: CareView) -> CareDraft:
    """Give a piece of care as recorded as the draft that a form begins with."""
    return CareDraft(
        on=view.on,
        what=view.what,
        strength_ppm_n=view.strength_ppm_n,
        volume_l=view.volume_l,
        note=view.note,
        product=view.product,
        repeat_on=view.repeat_on,
        rain_mm=view.rain_mm,
        medium=view.medium,
        pot_volume_l=view.pot_volume_l,
        from_place=view.from_place,
        to_place=view.to_place,
    )
