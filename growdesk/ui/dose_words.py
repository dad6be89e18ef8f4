"""Give doses and an EC in words, the same on the screen and on the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import measure_words
from growdesk.domain.measuring import GRAMS, SPOONS
from growdesk.domain.mixing_order import in_order, steps
from growdesk.domain.speech import fixed, tr

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.measuring import Measured


def amount(dose: Measured) -> str:
    """Give a dose as its tool shows it: "1.88 g", "3.5 mL", "2 level spoons (6 g)"."""
    told = measure_words.amount_text(dose)
    in_spoons = dose.unit == SPOONS and dose.given_g > 0
    return f"{told} ({measure_words.plain(dose.given_g)} g)" if in_spoons else told


def dose(given: Measured) -> str:
    """Give a dose with its product."""
    return f"{amount(given)} ({given.taken_from})"


def dose_line(given: Measured) -> str:
    """Give a dose as a line of its own: "1.88 g of Green tin"."""
    return tr("{amount} of {taken_from}").format(
        amount=amount(given), taken_from=given.taken_from
    )


def named_doses(doses: Sequence[Measured]) -> tuple[tuple[Measured, str], ...]:
    """Give the doses with their products, calcium marked where it goes in last."""
    first, last = steps(doses)
    late = last if first else ()
    return tuple(
        (
            each,
            tr("{taken_from} (last)").format(taken_from=each.taken_from)
            if each in late
            else each.taken_from,
        )
        for each in in_order(doses)
    )


def weigh_into(doses: Sequence[Measured]) -> str:
    """Give the sentence for measuring these into water: ``doses``, ``into``."""
    units = {each.unit for each in doses}
    if units == {GRAMS}:
        return tr("Weigh {doses} into {into}")
    if GRAMS in units:
        return tr("Take {doses} into {into}")
    return tr("Measure {doses} into {into}")


def ec_text(known: float | None, low: float | None, high: float | None) -> str:
    """Give an EC in mS/cm: a figure, a figure with its range, or a range."""
    if low is None or high is None:
        return "" if known is None else f"{fixed(known, 2)}"
    if f"{low:.2f}" == f"{high:.2f}":
        return f"{fixed(low, 2)}"
    ends = tr("{low} to {high}").format(low=fixed(low, 2), high=fixed(high, 2))
    return ends if known is None else f"{fixed(known, 2)} ({ends})"
