"""Treatments to be done again on the day that the grower wrote down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.jobs.job import Job, Sort
from growdesk.domain.phrases import listed
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from datetime import date

_UNNAMED = mark("something not named")


class Treatment(Struct, frozen=True):
    """One treatment on record, with the product's own name and its repeat day."""

    on: date
    product: str = ""
    repeat_on: date | None = None


def jobs(tag: str, treatments: Iterable[Treatment], until: date) -> Iterator[Job]:
    """Give the repeats that no later treatment with the same product has answered.

    Those of one day are one job: it is found, and ticked off, by its day.
    """
    newest: dict[str, Treatment] = {}
    for each in sorted(treatments, key=lambda one: one.on):
        newest[each.product.casefold()] = each
    by_day: dict[date, list[Treatment]] = {}
    for each in newest.values():
        if each.repeat_on is not None and each.repeat_on <= until:
            by_day.setdefault(each.repeat_on, []).append(each)
    for day, due in by_day.items():
        named = [one.product for one in due if one.product]
        said = "treat-again" if named else "treat-again-unnamed"
        yield Job(
            said,
            Sort.TREAT,
            day,
            tag,
            values={
                "said": "treat-again-several" if len(due) > 1 else said,
                "treated": max(one.on for one in due),
                "product": listed(
                    [*named, tr(_UNNAMED)] if len(due) > len(named) else named
                ),
            },
        )
