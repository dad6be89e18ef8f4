"""A measured dose in words: with what, how much, and what rounding does to the jug."""

from __future__ import annotations

import math
import re
from decimal import ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING, Final

from growdesk.domain import speech
from growdesk.domain.measuring import (
    GRAMS,
    SPOONS,
    ToolKind,
    Trouble,
    fitting_step,
)
from growdesk.domain.phrases import inside
from growdesk.domain.speech import Phrases, fixed, manner, mark, tr, trimmed, trn

if TYPE_CHECKING:
    from growdesk.domain.measuring import Measured, Tool

WEIGH_THE_SPOON: Final = mark(
    "Weigh ten level spoons of it and divide by ten: in print one teaspoon of feed "
    "holds 3 g (Connecticut Rose Society) and 6 g (B. Argo, International Phalaenopsis "
    "Alliance), and teaspoons themselves hold 2.5 to 7.3 mL (Falagas 2010)."
)
"""Why no spoon is taken as known; 3.15 g follows from 1 oz in 3 tablespoons."""

_TOLD_OFF: Final = 0.005
_QUARTERS: Final = {0.25: "¼", 0.5: "½", 0.75: "¾"}
_IS_A_SPOON: Final = re.compile(
    r"(spoon|scoop|measure|löffel|becher|maß)$", re.IGNORECASE
)
_MINUS: Final = "\N{MINUS SIGN}"

_HOW: Final = Phrases(
    {
        ToolKind.SCALE: "Weigh {amount} on the {tool}",
        ToolKind.SPOON: "{amount} ({each} each) = {grams}",
        ToolKind.SYRINGE: "{loads} with the {tool}",
        ToolKind.CYLINDER: "{loads} with the {tool}",
    }
)
_WEIGHED_IN_LOADS: Final = mark("Weigh {loads} on the {tool}")
_TROUBLE: Final = Phrases(
    {
        Trouble.NOTHING: "{wanted} of {product} is less than the {tool} measures: its "
        "least is {step}.",
        Trouble.COARSE: "The {tool} may be off by {off} of {wanted} of {product}.",
        Trouble.MANY: "That is {count} loads of the {tool}; something larger is "
        "quicker.",
    }
)
_LEAST_WELL: Final = Phrases(
    {
        ToolKind.SCALE: "A dose under {least} g may be off by more than {off} on "
        "it; it is made from a stock solution.",
        ToolKind.SPOON: "A dose under {least} level spoons may be off by more "
        "than {off} with it; a scale is better, or a stock "
        "solution.",
        ToolKind.SYRINGE: "A dose under {least} mL may be off by more than {off} "
        "in it; it is made from a stock solution.",
        ToolKind.CYLINDER: "A dose under {least} mL may be off by more than {off} "
        "in it; a syringe is better, or a stock solution.",
    }
)
_NO_TOOL: Final = Phrases(
    {
        True: "None of your tools measures {product}, a liquid: draw it with a syringe "
        "that reads {fine}.",
        False: "None of your tools measures {product}, which is dry: "
        "weigh it on a scale that reads {fine}, or weigh a level "
        "spoon of it once.",
    }
)
_BETTER: Final = Phrases(
    {
        True: "Make a stock solution, draw it with a syringe that reads {fine}, or mix "
        "more.",
        False: "Make a stock solution, weigh it on a scale that reads {fine}, or "
        "mix more.",
    }
)
_BETTER_BOTTLE: Final = mark(
    "Make a weaker bottle, draw it with a syringe that reads {fine}, or mix more."
)
_ONLY_STOCK = mark("Make a stock solution, or mix more.")


def amount_text(dose: Measured) -> str:
    """Give the amount alone: "3.4 g", "2½ level teaspoons", "under 0.1 g"."""
    if dose.tool is None:
        return f"{plain(dose.amount)} {unit_text(dose.unit)}"
    if dose.trouble is Trouble.NOTHING:
        return tr("under {amount}").format(amount=_of_tool(dose.tool.step, dose.tool))
    return _of_tool(dose.amount, dose.tool)


def how(dose: Measured) -> str:
    """Say in one phrase, without its point, how the dose is measured."""
    tool = dose.tool
    if dose.bottle:
        return _from_bottle(dose)
    if tool is None:
        return _how_without(dose)
    if dose.trouble is Trouble.NOTHING:
        return tr("{amount}, which the {tool} does not measure").format(
            amount=amount_text(dose), tool=named(tool.name)
        )
    form = _HOW[tool.kind]
    if tool.kind is ToolKind.SCALE and dose.loads > 1:
        form = tr(_WEIGHED_IN_LOADS)
    return form.format(
        amount=_of_tool(dose.amount, tool),
        tool=named(tool.name),
        loads=_loads(dose, tool),
        each=f"{plain(dose.g_per_unit)} g",
        grams=f"{plain(dose.given_g)} g",
    )


def trouble(dose: Measured) -> str:
    """Say what is wrong with measuring the dose, and the way out; else nothing."""
    return f"{what_is_wrong(dose)} {_way_out(dose)}".rstrip()


def what_is_wrong(dose: Measured) -> str:
    """Say what is wrong with measuring the dose, alone; else nothing."""
    if dose.trouble is None:
        return ""
    if dose.tool is None:
        form = _NO_TOOL[dose.product.is_liquid]
        fine = _fine(dose) or "0.001 g"
        return form.format(product=dose.product.name, fine=fine)
    return _TROUBLE[dose.trouble].format(
        wanted=_wanted(dose),
        product=dose.taken_from,
        tool=named(dose.tool.name),
        step=_of_tool(dose.tool.step, dose.tool),
        off=percent(dose.half_step_share),
        count=dose.loads,
    )


def least_well(tool: Tool, off_limit: float) -> str:
    """Say under which amount the tool is too coarse by the house's share."""
    least = tool.step / 2 / off_limit
    return _LEAST_WELL[tool.kind].format(least=plain(least), off=percent(off_limit))


def gives(gives_ppm: float, wanted_ppm: float, what: str = "ppm N") -> str:
    """Say what rounding makes of a strength: "gives 118 of 120 ppm N (−2 %)"."""
    off = gives_ppm / wanted_ppm - 1 if wanted_ppm > 0 else 0.0
    given, wanted = _whole(gives_ppm), _whole(wanted_ppm)
    if given == wanted and abs(off) >= _TOLD_OFF:
        digits = max(1, 2 - math.floor(math.log10(wanted_ppm)))
        given = _trimmed(_half_up(gives_ppm, digits))
        wanted = _trimmed(_half_up(wanted_ppm, digits))
    if given == wanted:
        return tr("gives {given} {what}").format(given=given, what=what)
    return tr("gives {given} of {wanted} {what} ({off})").format(
        given=given, wanted=wanted, what=what, off=_signed(off)
    )


def percent(share: float) -> str:
    """Give a share in whole per cent, under one per cent to a tenth."""
    shown = 100 * share
    text = _whole(shown) if abs(shown) >= 1 else trimmed(shown, 1)
    return f"{text} %"


def plain(amount: float) -> str:
    """Give an amount to three figures, half up, never as a power of ten."""
    if amount <= 0:
        return "0"
    digits = max(0, 2 - math.floor(math.log10(amount)))
    return _trimmed(_half_up(amount, digits))


def named(name: str) -> str:
    """Give a tool's name as it stands inside a sentence."""
    return inside(name[:1]) + name[1:] if name[1:2].islower() else name


def unit_text(unit: str) -> str:
    """Give a dose's unit as it is said: g and mL as they are, spoons as a word."""
    return tr("level spoons") if unit == SPOONS else unit


def _from_bottle(dose: Measured) -> str:
    if dose.tool is None:
        return tr("{amount} of {taken_from}, with a syringe").format(
            amount=amount_text(dose), taken_from=dose.taken_from
        )
    loads = _loads(dose, dose.tool)
    return tr("{loads} of {taken_from} with the {tool}").format(
        loads=loads, taken_from=dose.taken_from, tool=named(dose.tool.name)
    )


def _how_without(dose: Measured) -> str:
    fine = _fine(dose)
    amount = amount_text(dose)
    if fine is None:
        return tr("{amount}, which is best measured from a stock solution").format(
            amount=amount
        )
    if dose.unit == GRAMS:
        return tr("Weigh {amount} on a scale that reads {fine}").format(
            amount=amount, fine=fine
        )
    return tr("{amount} with a syringe that reads {fine}").format(
        amount=amount, fine=fine
    )


def _way_out(dose: Measured) -> str:
    if not dose.too_small:
        return ""
    fine = _fine(dose)
    if fine is None or (dose.trouble is Trouble.NOTHING and not dose.bottle):
        return tr(_ONLY_STOCK)
    better = tr(_BETTER_BOTTLE) if dose.bottle else _BETTER[dose.product.is_liquid]
    return better.format(fine=fine)


def _fine(dose: Measured) -> str | None:
    """Give the step of a tool that measures the dose well, of the right sort."""
    density = dose.g_per_unit if dose.bottle else dose.product.analysis.density_g_per_ml
    unit, g_per_unit = (GRAMS, 1.0) if density is None else ("mL", density)
    step = fitting_step(dose.mass_g / g_per_unit, dose.off_limit)
    return None if step is None else f"{speech.plain(step)} {unit}"


def _wanted(dose: Measured) -> str:
    if dose.unit == SPOONS:
        return f"{plain(dose.mass_g)} {GRAMS}"
    return f"{plain(dose.wanted_amount)} {dose.unit}"


def _loads(dose: Measured, tool: Tool) -> str:
    if dose.loads == 1:
        return _of_tool(dose.amount, tool)
    full = math.floor(dose.amount / tool.holds + 1e-9)
    rest = round(dose.amount - full * tool.holds, 10)
    held = _of_tool(tool.holds, tool)
    whole = held if full == 1 else f"{full} × {held}"
    return (
        tr("{loads} and {rest}").format(loads=whole, rest=_of_tool(rest, tool))
        if rest > 0
        else whole
    )


def _of_tool(amount: float, tool: Tool) -> str:
    """Give an amount as the tool shows it."""
    if tool.kind is ToolKind.SPOON:
        return _spoons(amount, tool.name)
    digits = next((d for d in range(4) if round(tool.step, d) == tool.step), 4)
    text = fixed(amount, digits)
    if tool.kind is ToolKind.SCALE:
        return f"{text} g"
    return f"{_trimmed(text)} mL"


def _spoons(amount: float, name: str) -> str:
    told = 2 if amount > 1 else 1
    if _IS_A_SPOON.search(name):
        form = trn("{count} level {spoon}", "{count} level {spoon}s", told)
        return form.format(count=_count(amount), spoon=named(name))
    form = trn("{count} level spoon ({name})", "{count} level spoons ({name})", told)
    return form.format(count=_count(amount), name=name)


def _count(amount: float) -> str:
    whole, part = divmod(round(amount, 6), 1)
    if not part:
        return str(int(whole))
    quarter = _QUARTERS.get(round(part, 6))
    if quarter is None:
        return plain(amount)
    return f"{int(whole)}{quarter}" if whole else quarter


def _signed(off: float) -> str:
    return f"{_MINUS if off < 0 else '+'}{percent(abs(off))}"


def _whole(value: float) -> str:
    return _half_up(value, 0)


def _half_up(value: float, digits: int) -> str:
    step = Decimal(1).scaleb(-digits)
    exact = Decimal(f"{value:.12g}").quantize(step, ROUND_HALF_UP)
    return fixed(float(exact), digits)


def _trimmed(text: str) -> str:
    sign = manner().decimal
    return text.rstrip("0").rstrip(sign) if sign in text else text
