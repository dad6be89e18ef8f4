"""What a dose is measured with, and what the tool then really gives.

A dose is never shown finer than the grower's own tool measures it. Which jug it goes
into is not known here, nor how a stock solution is made of what is too small.
"""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from growdesk.domain.product import Product

OFF_LIMIT: Final = 0.05
"""Half a step may be this share of a dose, where the house says nothing else."""
MOST_LOADS: Final = 10
"""More fills of one tool than this are a case for a larger one; ours."""
ALIKE_SHARE: Final = 0.01
"""Errors under this share of the dose count as alike; ours: no plant tells them."""
STEPS_MADE: Final = (1.0, 0.1, 0.01, 0.001)
"""The steps that scales and syringes are sold with, in g and mL, from memory."""
GRAMS, MILLILITRES, SPOONS = "g", "mL", "level spoons"
_BOTTLE_WORDS: Final = ("stock", "bottle", "stamm", "flasche")
_DUST = 1e-9


class ToolKind(StrEnum):
    """What sort of tool a dose is measured with."""

    SCALE = "scale"
    SPOON = "spoon"
    SYRINGE = "syringe"
    CYLINDER = "cylinder"


SIMPLEST_FIRST: Final = (
    ToolKind.SCALE,
    ToolKind.SYRINGE,
    ToolKind.CYLINDER,
    ToolKind.SPOON,
)


class Trouble(StrEnum):
    """Why a dose cannot be measured well with what there is.

    ``NOTHING``: it rounds to none at all. ``COARSE``: half a step is too large a share
    of it. ``MANY``: it takes more than ``MOST_LOADS``. ``NO_TOOL``: no tool suits it.
    """

    NOTHING = "nothing"
    COARSE = "coarse"
    MANY = "many"
    NO_TOOL = "no-tool"


class Tool(Struct, frozen=True):
    """A scale (g), spoon (level spoons), syringe or cylinder (mL).

    ``step`` is the least it shows, ``most`` what it holds; None where it does not
    matter. ``g_per_level`` gives the grams of a product in one level spoon, by the
    product's key, as the grower weighed them.
    """

    kind: ToolKind
    name: str
    step: float
    most: float | None = None
    g_per_level: tuple[tuple[int, float], ...] = ()
    key: int | None = None

    @property
    def holds(self) -> float:
        """Give what one load of it measures at most, in whole steps."""
        if self.most is None or self.kind is ToolKind.SPOON:
            return math.inf
        return math.floor(self.most / self.step + _DUST) * self.step


def bottle_name(name: str) -> str:
    """Give what a bottle of stock is called where a tin may have the same name."""
    is_told = any(word in name.casefold() for word in _BOTTLE_WORDS)
    return name if is_told else tr("{name} stock").format(name=name)


class Measured(Struct, frozen=True):
    """A dose as it is really measured.

    ``mass_g`` is what was wanted and ``given_g`` what the tool gives; ``amount`` is in
    ``unit`` (g, mL or level spoons), the same dose as ``given_g``. ``tool`` is None
    where no tool of the grower's is known. ``half_step_share`` is half a step of the
    tool, once for each of its ``loads``, as a share of the dose: how far it may be off.
    ``g_per_unit`` are the grams in one unit. ``off_limit`` is the share by which half a
    step may be off. Taken from a bottle of stock solution ``bottle`` is its name,
    ``bottle_key`` its number, and ``amount`` the mL of it.
    """

    product: Product
    mass_g: float
    given_g: float
    amount: float
    unit: str
    tool: Tool | None = None
    half_step_share: float = 0.0
    loads: int = 1
    g_per_unit: float = 1.0
    trouble: Trouble | None = None
    off_limit: float = OFF_LIMIT
    bottle: str = ""
    bottle_key: int | None = None

    @property
    def taken_from(self) -> str:
        """Give the name on what it is taken from: the bottle, else the product."""
        return bottle_name(self.bottle) if self.bottle else self.product.name

    @property
    def too_small(self) -> bool:
        """Tell whether a stock solution measures this dose better than the tool."""
        return self.trouble in (Trouble.NOTHING, Trouble.COARSE)

    @property
    def wanted_amount(self) -> float:
        """Give what was wanted, in ``unit``."""
        return self.mass_g / self.g_per_unit

    @property
    def worst_g(self) -> float:
        """Give the grams that the dose may be off at worst: rounding and reading."""
        return abs(self.given_g - self.mass_g) + self.half_step_share * self.mass_g


def measured(
    product: Product,
    mass_g: float,
    tools: Sequence[Tool] = (),
    *,
    never_over: bool = False,
    off_limit: float = OFF_LIMIT,
) -> Measured:
    """Give a dose as the best fitting tool measures it.

    The tool with the least worst error is taken; where errors are alike, fewer loads,
    then the simpler tool. With ``never_over`` it rounds down only, so that no jug comes
    out above a plant's ceiling.
    """
    unmeasured = _unmeasured(product, mass_g, off_limit)
    if mass_g <= 0:
        return unmeasured
    found = [
        _with_tool(unmeasured, tool, g_per_unit, never_over=never_over)
        for tool, g_per_unit in _suiting(product, tools)
    ]
    if found:
        return min(found, key=_how_good)
    if not tools:
        return unmeasured
    return Measured(
        product,
        mass_g,
        mass_g,
        unmeasured.amount,
        unmeasured.unit,
        g_per_unit=unmeasured.g_per_unit,
        trouble=Trouble.NO_TOOL,
        off_limit=off_limit,
    )


def read_on(tool: Tool, amount: float, *, never_over: bool) -> tuple[float, int]:
    """Give an amount as the tool shows it, in its unit, and the loads that takes."""
    steps = amount / tool.step
    whole = math.floor(steps + (0.0 if never_over else 0.5) + _DUST)
    shown = round(whole * tool.step, 10)
    return shown, max(1, math.ceil(shown / tool.holds - _DUST))


def fitting_step(amount: float, off_limit: float = OFF_LIMIT) -> float | None:
    """Give the coarsest step that measures an amount well; None where none does."""
    most = 2 * off_limit * amount * (1 + _DUST)
    return next((step for step in STEPS_MADE if step <= most), None)


def _unmeasured(product: Product, mass_g: float, off_limit: float) -> Measured:
    """Give a dose as reckoned, where no tool is known to measure it."""
    density = product.analysis.density_g_per_ml
    if density is None:
        return Measured(
            product, mass_g, mass_g, mass_g, GRAMS, g_per_unit=1.0, off_limit=off_limit
        )
    return Measured(
        product,
        mass_g,
        mass_g,
        mass_g / density,
        MILLILITRES,
        g_per_unit=density,
        off_limit=off_limit,
    )


def _suiting(product: Product, tools: Sequence[Tool]) -> Iterator[tuple[Tool, float]]:
    """Give each tool that measures the product, with the grams in its unit.

    A dry product has no volume that can be trusted: it goes by weight, or by a spoon
    weighed with it.
    """
    density = product.analysis.density_g_per_ml
    for tool in tools:
        if tool.step <= 0 or tool.holds <= 0:
            continue
        if tool.kind is ToolKind.SCALE:
            yield tool, 1.0
        elif tool.kind is ToolKind.SPOON:
            weighed = dict(tool.g_per_level).get(product.key or 0)
            if weighed is not None and weighed > 0:
                yield tool, weighed
        elif density is not None:
            yield tool, density


def _with_tool(
    wanted: Measured, tool: Tool, g_per_unit: float, *, never_over: bool
) -> Measured:
    amount, loads = read_on(tool, wanted.mass_g / g_per_unit, never_over=never_over)
    half_step_share = loads * tool.step / 2 * g_per_unit / wanted.mass_g
    return Measured(
        product=wanted.product,
        mass_g=wanted.mass_g,
        given_g=amount * g_per_unit,
        amount=amount,
        unit=_unit(tool),
        tool=tool,
        half_step_share=half_step_share,
        loads=loads,
        g_per_unit=g_per_unit,
        trouble=_trouble(amount, half_step_share, loads, wanted.off_limit),
        off_limit=wanted.off_limit,
    )


def _unit(tool: Tool) -> str:
    if tool.kind is ToolKind.SCALE:
        return GRAMS
    return SPOONS if tool.kind is ToolKind.SPOON else MILLILITRES


def _trouble(
    amount: float, half_step_share: float, loads: int, off_limit: float
) -> Trouble | None:
    if amount <= 0:
        return Trouble.NOTHING
    if half_step_share > off_limit + _DUST:
        return Trouble.COARSE
    return Trouble.MANY if loads > MOST_LOADS else None


def _how_good(dose: Measured) -> tuple[float, ...]:
    """Give the order of choice, best first."""
    tool = dose.tool
    simple = len(SIMPLEST_FIRST) if tool is None else SIMPLEST_FIRST.index(tool.kind)
    off = dose.worst_g / dose.mass_g
    return (
        dose.amount <= 0,
        max(dose.loads, MOST_LOADS),
        round(max(off, ALIKE_SHARE), 9),
        dose.loads,
        simple,
        off,
    )
