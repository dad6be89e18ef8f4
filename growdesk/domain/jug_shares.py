"""Jugs shared out among recipes, so that all plants together deviate least.

A jug holds one recipe. What each recipe loses with one jug, with two and so on is known
(``jug_search.best_by_count``); which recipe gets how many is dynamic programming over
the recipes, and so exact. Nothing is known here of plants or of what a recipe holds.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from growdesk.domain.jug_search import NOTHING, clearly_less

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.domain.jug_search import Choice, Cost

Shared: TypeAlias = "tuple[Cost, tuple[tuple[int, ...], ...]]"


def shared_out(
    by_recipe: Sequence[Sequence[Choice]], jugs: int
) -> tuple[tuple[int, ...], ...]:
    """Give each recipe's strengths for the least deviation of all with these jugs.

    ``by_recipe`` has each recipe's best choice for at most 1, 2, … jugs. Every recipe
    gets one jug, even where there are fewer jugs than recipes.
    """
    best: dict[int, Shared] = {0: (NOTHING, ())}
    most = max(jugs, len(by_recipe))
    for choices in by_recipe:
        best = _with(best, choices, most)
    least: Shared | None = None
    for used in sorted(best):
        if least is None or clearly_less(best[used][0], least[0]):
            least = best[used]
    return () if least is None else least[1]


def _with(
    best: dict[int, Shared], choices: Sequence[Choice], most: int
) -> dict[int, Shared]:
    """Add one recipe: the least deviation for each number of jugs used so far."""
    found: dict[int, Shared] = {}
    for used, (cost, chosen) in best.items():
        for count, (more, strengths) in enumerate(choices, 1):
            if used + count > most or not strengths:
                continue
            total = cost[0] + more[0], cost[1] + more[1]
            known = found.get(used + count)
            if known is None or clearly_less(total, known[0]):
                found[used + count] = total, (*chosen, strengths)
    return found
