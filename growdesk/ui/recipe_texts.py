"""Say what a litre of a recipe holds, cell by cell and in lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.analysis import FORM_WORDS
from growdesk.domain.chemistry import LABEL_OXIDE, as_oxide
from growdesk.domain.phrases import listed
from growdesk.domain.speech import fixed, tr
from growdesk.ui.words import number

if TYPE_CHECKING:
    from growdesk.services.recipe_values import ElementRow, RecipeLook

NONE = "–"
_WHOLE_FROM = 9.95
_ONE_DIGIT_FROM = 0.95


def cells(row: ElementRow, *, oxides: bool) -> tuple[str, ...]:
    """Give a row: element or oxide, wanted, got, the water's, off in mg/L and in %."""
    name = LABEL_OXIDE.get(row.element, row.element) if oxides else row.element

    def told(mg_per_l: float | None) -> float | None:
        if mg_per_l is None or name == row.element:
            return mg_per_l
        return as_oxide(row.element, mg_per_l, name)

    wanted, off = told(row.wanted_mg_per_l), told(row.off_mg_per_l)
    return (
        name,
        NONE if wanted is None else amount(wanted),
        amount(told(row.got_mg_per_l) or 0.0),
        amount(told(row.from_water_mg_per_l) or 0.0),
        NONE if off is None else _signed(off, amount(abs(off))),
        NONE if off is None or not wanted else _percent(off / wanted),
    )


def amount(mg_per_l: float) -> str:
    """Give mg/L with as many digits as matter."""
    size = abs(mg_per_l)
    if size >= _WHOLE_FROM:
        return f"{fixed(mg_per_l, 0)}"
    return number(mg_per_l, 1 if size >= _ONE_DIGIT_FROM else 2)


def doses_line(look: RecipeLook) -> str:
    """Say what is weighed into a litre."""
    taken = [
        tr("{grams:.3g} g of {name}").format(grams=grams, name=name)
        for name, grams in look.doses
        if grams > 0
    ]
    if not taken:
        return tr("Nothing goes into this water.")
    return tr("Into a litre: {list}.").format(list="; ".join(taken))


def forms_line(look: RecipeLook) -> str:
    """Say in what form the nitrogen is, as far as labels and formulas tell it."""
    told = [
        f"{amount(mg)} mg/L {FORM_WORDS[form]}" for form, mg in look.forms if mg > 0
    ]
    if not told:
        return tr("The labels do not tell in what form the nitrogen is.")
    known = sum(mg for _, mg in look.forms)
    rest = look.strength_ppm_n - known
    if rest > 0.05 * look.strength_ppm_n:
        told.append(tr("{amount} mg/L in a form not told").format(amount=amount(rest)))
    return tr("Nitrogen: {list}.").format(list=listed(told))


def _percent(share: float) -> str:
    return _signed(share, f"{fixed(abs(100 * share), 0)}")


def _signed(value: float, text: str) -> str:
    if text == "0":
        return text
    return f"{'+' if value > 0 else '−'}{text}"
