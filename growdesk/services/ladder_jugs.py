"""What the jugs of a ladder come to: their strength as measured, and the EC to expect.

The first jug is off by its doses; what is thinned of it is off with it, and by the
volumes as they are told.
"""

from __future__ import annotations

import math
from itertools import zip_longest
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.expected_ec import expected_ec
from growdesk.services.jug_values import LadderJug, LadderShare
from growdesk.services.jugs import reckoned

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from growdesk.domain.facts import House
    from growdesk.domain.ladder import LadderStep
    from growdesk.domain.recipe import Mixture
    from growdesk.services.jugs import Filled
    from growdesk.services.shelf import Shelf


def ladder_jugs(
    steps: Sequence[LadderStep], water_ppm_n: float, fresh: Mapping[str, Filled]
) -> Iterator[LadderJug]:
    """Give each jug of one chain; none where what a fresh one holds is not known."""
    gives = 0.0
    for step in steps:
        if step.is_fresh:
            mixture = fresh[step.letter].mixture
            if mixture is None:
                return
            gives = mixture.strength_ppm_n
        else:
            kept = step.told_kept_l / step.told_mix_l
            gives = water_ppm_n + (gives - water_ppm_n) * kept
        yield LadderJug(step.letter, step.strength_ppm_n, gives)


def ladder_shares(
    steps: Sequence[LadderStep],
    litres: Mapping[str, float],
    water_ppm_n: float,
    fresh: Mapping[str, Filled],
) -> Iterator[tuple[str, LadderShare]]:
    """Give each jug's share of its fresh one: by its litres and what it adds to water.

    What is kept for the next jug is not this one's.
    """
    run: list[LadderStep] = []
    for step, below in zip_longest(steps, steps[1:]):
        run.append(step)
        if below is not None and not below.is_fresh:
            continue
        feed = [(s.strength_ppm_n - water_ppm_n) * litres[s.letter] for s in run]
        whole, doses = math.fsum(feed), fresh[run[0].letter].doses
        for each, part in zip(run, feed, strict=True):
            yield each.letter, LadderShare(part / whole if whole > 0 else 0.0, doses)
        run = []


def with_ecs(
    jugs: Sequence[LadderJug],
    recipe: int | None,
    fresh: Mapping[str, Filled],
    house: House,
    shelf: Shelf,
) -> tuple[LadderJug, ...]:
    """Give the jugs of one chain with their EC, which takes the longest of all."""
    found = []
    for jug in jugs:
        mixture = fresh[jug.letter].mixture if jug.letter in fresh else None
        made = mixture or _thinned(jug.gives_ppm_n, house, shelf, recipe)
        ec = None if made is None else expected_ec(made)
        found.append(replace(jug, ec=ec))
    return tuple(found)


def _thinned(
    ppm_n: float, house: House, shelf: Shelf, recipe: int | None
) -> Mixture | None:
    try:
        return reckoned(ppm_n, house, shelf, recipe)
    except InputError:
        return None
