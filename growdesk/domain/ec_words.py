"""The sentences that say from what a predicted EC is known."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, fixed, mark, tr
from growdesk.domain.water_ions import WaterKnown

if TYPE_CHECKING:
    from collections.abc import Sequence

WATER_EC_UNKNOWN: Final = mark(
    "The water's own EC is not known and not in this figure; give it with the water."
)
_DOUBT: Final = mark(
    "The label of {name} is noted with {printed} mS/cm per 100 ppm N; its analysis "
    "makes {made}. See that the figure is the one at 100 ppm N."
)
_FROM_IONS: Final = mark("This EC is reckoned from {parts}.")
_FROM_LABEL: Final = mark("This EC follows {parts}.")
_IONS: Final = mark("the ions of the salts")
_FIGURE: Final = mark("the figure on the label")
_WATER: Final = Phrases(
    {
        WaterKnown.IONS: "the ions of the water",
        WaterKnown.EC: "the water's own EC",
    }
)
_RANGE: Final = Phrases(
    {
        (False, True): "This is a range: the label of {names} does not say which "
        "salts are in it.",
        (True, True): "This is a range: the labels of {names} do not say which salts "
        "are in them.",
        (False, False): "This is a range: the label of {names} does not say which "
        "salts are in it, nor how much of the nitrogen is urea, which adds no EC.",
        (True, False): "This is a range: the labels of {names} do not say which salts "
        "are in them, nor how much of the nitrogen is urea, which adds no EC.",
    }
)
"""By whether several labels leave it open, and whether the forms of N are told."""


def of_figure(*, has_salts: bool, has_labels: bool, water: WaterKnown) -> str:
    """Say from what a single figure is known."""
    parts = [tr(_IONS)] if has_salts else []
    parts += [tr(_FIGURE)] if has_labels else []
    parts += [_WATER[water]] if water in _WATER else []
    sentence = tr(_FROM_IONS) if has_salts else tr(_FROM_LABEL)
    return sentence.format(parts=listed(parts))


def of_doubt(name: str, printed: float, low: float, high: float) -> str:
    """Say that a label's EC per 100 ppm N is far from what its analysis makes."""
    made = fixed(low, 2)
    if fixed(high, 2) != made:
        made = tr("{low} to {high}").format(low=made, high=fixed(high, 2))
    return tr(_DOUBT).format(name=name, printed=fixed(printed, 2), made=made)


def of_range(names: Sequence[str], *, forms_told: bool) -> str:
    """Say why there is a range only; ``names`` are the products that leave it open."""
    return _RANGE[len(names) > 1, forms_told].format(names=listed(names))
