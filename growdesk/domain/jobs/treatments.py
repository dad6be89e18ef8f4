"""Treatments to be done again on the day that the grower wrote down."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from growdesk.domain.jobs.job import Job, Sort

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date


@dataclass(frozen=True, slots=True)
class Treatment:
    """One treatment on record, with the product's own name and its repeat day."""

    on: date
    product: str = ""
    repeat_on: date | None = None


def jobs(tag: str, treatments: Iterable[Treatment], until: date) -> Iterator[Job]:
    """Give the repeats that no later treatment with the same product has answered."""
    newest: dict[str, Treatment] = {}
    for each in sorted(treatments, key=lambda one: one.on):
        newest[each.product.casefold()] = each
    for each in newest.values():
        if each.repeat_on is None or each.repeat_on > until:
            continue
        yield Job(
            "treat-again" if each.product else "treat-again-unnamed",
            Sort.TREAT,
            each.repeat_on,
            tag,
            values={"treated": each.on, "product": each.product},
        )
