"""Numbers as a report gives them: without the dust of floating point."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

_DUST: Final = 1e-9


def tidy(value: float) -> float:
    """Give a value to ten digits; what is next to nothing is nothing."""
    return 0.0 if abs(value) < _DUST else float(f"{value:.10g}")


def tidied(values: Mapping[str, float]) -> dict[str, float]:
    """Give values by name, each tidied."""
    return {name: tidy(value) for name, value in values.items()}
