"""How strong: a chain of steps, each kept with its factor.

Full strength, the feeder class of the kind, the season of the place, the state of the
plant; then the floor, the ceiling and the rounding of the house. Strengths are mg of
nitrogen per litre. The light and temperature factors are house curves, not laws of
nature; the chain only promises to show every step.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from growdesk.domain import season_factor
from growdesk.domain.explain import Step, Strength
from growdesk.domain.facts import Medium, RootTips, Size
from growdesk.domain.kinds import Feeder

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.case import Case
    from growdesk.domain.facts import House
    from growdesk.domain.kinds import Kind

Factor = tuple[str, float, "Mapping[str, object]"]


def strength_of(case: Case, finding_factor: float = 1.0) -> Strength:
    """Give the strength for a plant that is fed, with the chain that leads to it.

    ``finding_factor`` is the gate's own, for a plant fed at half while idle.
    """
    own = case.plant.full_strength_ppm_n
    strength = case.house.full_strength_ppm_n if own is None else own
    key = "full-house" if own is None else "full-own"
    steps = [Step(key, None, strength, {})]
    for key, factor, values in _factors(case, finding_factor):
        strength *= factor
        steps.append(Step(key, factor, strength, values))
    ceiling, ceiling_key = _ceiling(case)
    strength = _bounded(case, strength, ceiling, ceiling_key, steps)
    rounded = rounded_to_step(case, strength, ceiling)
    if rounded != strength:
        values = {"step": case.house.strength_step_ppm_n}
        steps.append(Step("rounded", None, rounded, values))
    return Strength(rounded, ceiling, tuple(steps))


def rounded_to_step(case: Case, strength: float, ceiling: float) -> float:
    """Give a strength in house steps, half a step up, never past a ceiling.

    Where the nearest step lies below the floor the strength stands as it is.
    """
    step = case.house.strength_step_ppm_n
    rounded = math.floor(strength / step + 0.5 + 1e-9) * step
    if rounded > ceiling:
        rounded = min(math.floor(ceiling / step + 1e-9) * step, ceiling)
    least = min(case.house.strength_floor_ppm_n, ceiling)
    if rounded < least or rounded <= 0:
        return max(strength, least)
    return float(rounded)


def _bounded(
    case: Case, strength: float, ceiling: float, ceiling_key: str, steps: list[Step]
) -> float:
    floor = case.house.strength_floor_ppm_n
    if strength < floor:
        strength = floor
        steps.append(Step("floor", None, strength, {"floor": floor}))
    if strength > ceiling:
        strength = ceiling
        steps.append(Step(ceiling_key, None, strength, {"ceiling": ceiling}))
    return strength


def _ceiling(case: Case) -> tuple[float, str]:
    """Give the lowest ceiling that holds, and whose it is."""
    kind = case.kind
    of_house = (case.house.strength_ceiling_ppm_n, "ceiling-house")
    if case.plant.feed_ceiling_ppm_n is not None:
        return min(of_house, (case.plant.feed_ceiling_ppm_n, "ceiling-own"))
    if kind.ceiling_ppm_n is not None:
        return min(of_house, (kind.ceiling_ppm_n, _kind_ceiling_key(kind)))
    return of_house


def _kind_ceiling_key(kind: Kind) -> str:
    """Tell whose ceiling a kind's is: the grower's, published, or a careful one."""
    if "ceiling_ppm_n" in kind.corrected_here:
        return "ceiling-own"
    if "ceiling_ppm_n" in kind.corrected:
        return "ceiling-kind-yours"
    return "ceiling-kind-ours" if kind.ceiling_is_ours else "ceiling-kind"


def _factors(case: Case, finding_factor: float) -> list[Factor]:
    feeder = case.kind.feeder
    factors: list[Factor] = [
        (f"feeder-{feeder.value}", feeder_share(feeder, case.house), {}),
        *season_factor.factors(case),
        *_state(case),
    ]
    if finding_factor != 1.0:
        factors.append(("idle", finding_factor, {}))
    return factors


def feeder_share(feeder: Feeder, house: House) -> float:
    """Give the share of full strength that a class of feeder takes."""
    if feeder is Feeder.LIGHT:
        return house.feeder_light_share
    return house.feeder_heavy_share if feeder is Feeder.HEAVY else 1.0


def _state(case: Case) -> Iterator[Factor]:
    plant, house = case.plant, case.house
    if plant.size is Size.SEEDLING:
        yield "seedling", house.seedling_share, {}
    if _no_tips_yet(case):
        yield "no-tips-yet", house.no_tips_share, {}
    if _fresh_from_repot(case):
        yield "fresh-repot", house.fresh_repot_share, {"repotted": case.repotted_on}
    if plant.slow_release_until is not None and case.on <= plant.slow_release_until:
        values = {"until": plant.slow_release_until}
        yield "slow-release", house.slow_release_share, values
    if plant.medium is Medium.SPHAGNUM:
        yield "sphagnum", house.sphagnum_share, {}
    yield from _rhythm(case)


def _no_tips_yet(case: Case) -> bool:
    """Tell whether the only growth has just emerged and no root tip was found."""
    seen = case.signs
    young = seen.emerging is True and not seen.extending and not seen.maturing
    return young and seen.tips is RootTips.NONE


def _fresh_from_repot(case: Case) -> bool:
    """Tell whether roots are still to be seen after a repot not too long ago."""
    on = case.repotted_on
    if on is None or (case.on - on).days > case.house.fresh_repot_most_days:
        return False
    return not case.tips_seen_since_repot


def _rhythm(case: Case) -> Iterator[Factor]:
    """Give the share of a full feed where the plant is fed oftener than the house."""
    usual = case.house.least_interval_days
    key, interval = "fed-oftener", case.plant.feed_interval_days
    every_watering = case.feeds_every_watering and interval is None
    if every_watering or interval == 0:
        key, interval = "fed-oftener-since", case.days_since_feed
    if interval is None or usual <= 0 or interval >= usual:
        return
    share = max(interval, 1) / usual
    yield key, share, {"interval": interval, "days": usual}
