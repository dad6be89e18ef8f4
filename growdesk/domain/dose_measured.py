"""What one scale or syringe, told by its step alone, makes of a reckoned dose.

For the calculator, which knows no shelf and no tools.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain import measure_words
from growdesk.domain.dose import TOO_LITTLE_TO_DRAW, TOO_LITTLE_TO_WEIGH
from growdesk.domain.errors import InputError
from growdesk.domain.measuring import Measured, Tool, ToolKind, measured
from growdesk.domain.product import Product
from growdesk.domain.speech import plain, tr
from growdesk.domain.tidy import tidy
from growdesk.domain.typed_numbers import with_unit
from growdesk.domain.units import parse_mass_g, parse_volume_l

if TYPE_CHECKING:
    from growdesk.domain.analysis import Analysis
    from growdesk.domain.dose import Dose

_BY_COMMON_TOOLS = (TOO_LITTLE_TO_WEIGH, TOO_LITTLE_TO_DRAW)


class DoseMeasured(Struct, frozen=True):
    """A dose as the tool gives it; ``gives_mg_per_l`` is of the target's nutrient.

    ``sentence`` says both; ``warnings`` are the dose's with the tool's own.
    """

    dose: Measured
    gives_mg_per_l: float
    sentence: str
    warnings: tuple[str, ...]


def tool_of(step: str, analysis: Analysis, field: str = "scale") -> Tool:
    """Give the scale or syringe of a typed step, "0.1 g" or "0.5 mL".

    A number alone is grams. Raises ``InputError`` where a dry product is to be drawn.
    """
    text = with_unit(step, "g")
    try:
        grams = parse_mass_g(text, field)
    except InputError as no_mass:
        try:
            ml = 1000 * parse_volume_l(text, field)
        except InputError:
            raise no_mass from None
        if analysis.density_g_per_ml is None:
            raise InputError(
                field,
                step.strip(),
                tr("is a volume, and this product is dry"),
                tr('Give the step of a scale, for instance "0.1 g".'),
            ) from None
        return Tool(
            ToolKind.SYRINGE,
            tr("syringe that reads {step} mL").format(step=_step(ml)),
            ml,
        )
    return Tool(
        ToolKind.SCALE, tr("scale that reads {step} g").format(step=_step(grams)), grams
    )


def _step(amount: float) -> str:
    return plain(float(f"{amount:.4g}"))


def as_tool_gives(made: Dose, analysis: Analysis, tool: Tool) -> DoseMeasured:
    """Give a dose as the tool measures it, with the strength that this gives."""
    got = measured(Product(analysis.label(), analysis), made.mass_g, (tool,))
    wanted = made.target.strength_mg_per_l
    gives = wanted * got.given_g / got.mass_g
    what = f"ppm {made.target.nutrient}"
    said = measure_words.gives(gives, wanted, what)
    how = measure_words.how(got)
    trouble = measure_words.trouble(got)
    common = {tr(text) for text in _BY_COMMON_TOOLS}
    kept = tuple(line for line in made.warnings if line not in common)
    return DoseMeasured(
        dose=got,
        gives_mg_per_l=gives,
        sentence=f"{how[:1].upper()}{how[1:]}: {said}.",
        warnings=(*kept, trouble) if trouble else kept,
    )


def with_tool(made: Dose, told: DoseMeasured | None) -> Dose:
    """Give the dose with the warnings that hold for the tool."""
    return made if told is None else replace(made, warnings=told.warnings)


def measured_report(told: DoseMeasured | None) -> dict[str, object] | None:
    """Give the fixed keys of ``measured`` in ``growdesk dose --json``."""
    if told is None or told.dose.tool is None:
        return None
    dose, tool = told.dose, told.dose.tool
    return {
        "tool": tool.kind.value,
        "step": tidy(tool.step),
        "unit": dose.unit,
        "amount": tidy(dose.amount),
        "grams": tidy(dose.given_g),
        "half_step_share": tidy(dose.half_step_share),
        "gives_mg_per_l": tidy(told.gives_mg_per_l),
        "too_small": dose.too_small,
        "sentence": told.sentence,
    }
