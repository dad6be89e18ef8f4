"""The ladder of a round, recipe by recipe, and whether it goes before dosing alone.

A chain is what one recipe is diluted down through with its own water. A recipe that
diluting would change, or that no jug is large enough for, is dosed jug by jug.
"""

from __future__ import annotations

import math
from itertools import groupby, pairwise, zip_longest
from typing import TYPE_CHECKING

from msgspec import Struct, field

from growdesk.domain import measure_words, mix_words
from growdesk.domain.errors import InputError
from growdesk.domain.fills import mixing_vessels
from growdesk.domain.ladder import ladder, litres, unmeasured
from growdesk.domain.mixing_ways import Dosed, Scales, compared, same_feed
from growdesk.domain.water_words import litres_text
from growdesk.services import water_ready
from growdesk.services.jugs import dosed, reckoned
from growdesk.services.ladder_jugs import ladder_jugs, ladder_shares, with_ecs

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from growdesk.domain.batches import Batch
    from growdesk.domain.facts import House
    from growdesk.domain.ladder import LadderStep
    from growdesk.domain.recipe import Mixture
    from growdesk.domain.water_blend import Blend
    from growdesk.services.jug_values import LadderJug, LadderShare
    from growdesk.services.jugs import Filled
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Jug


class LadderPlan(Struct, frozen=True):
    """The steps in words, whether they go first, and a sentence on why, or empty.

    ``jugs`` are what the jugs that are diluted come to, where the ladder goes first,
    and ``shares`` what each has of the doses of the first one.
    """

    sentences: tuple[str, ...] = ()
    first: bool = False
    why: str = ""
    jugs: tuple[LadderJug, ...] = ()
    shares: Mapping[str, LadderShare] = field(default_factory=dict)


class _Chain(Struct, frozen=True):
    """The ladder of one recipe; ``why_not`` says why its jugs are dosed alone."""

    steps: tuple[LadderStep, ...]
    water_ppm_n: float = 0.0
    why_not: str = ""
    recipe: int | None = None
    blend: Blend | None = None

    @property
    def is_diluted(self) -> bool:
        return any(not step.is_fresh for step in self.steps)


def ladder_plan(
    batches: Sequence[Batch], jugs: Sequence[Jug], house: House, shelf: Shelf
) -> LadderPlan:
    """Give the ladder of batches, their spare counted in, made into these jugs."""
    scales = Scales(shelf.vessels, shelf.tools)
    chains = [
        _chain(tuple(group), house, shelf, scales)
        for _, group in groupby(batches, key=lambda batch: batch.recipe)
    ]
    told = unmeasured(batches)
    diluted = [chain for chain in chains if chain.is_diluted]
    why_not = " ".join(chain.why_not for chain in chains if chain.why_not)
    if not diluted and len(batches) > 1:
        return LadderPlan(told, why=why_not)
    by_letter = {batch.letter: batch for batch in batches}
    fresh = {
        step.letter: _begun(step, chain, by_letter, house, shelf)
        for chain in chains
        for step in chain.steps
        if step.is_fresh
    }
    many = len(batches) > 1
    sentences = [
        line
        for chain in chains
        for line in _sentences(chain, fresh if many else {}, scales)
    ]
    begun = {
        step.letter: Dosed(step.letter, step.told_mix_l, fresh[step.letter].doses)
        for chain in diluted
        for step in chain.steps
        if step.is_fresh
    }
    first, why = _first(jugs, diluted, begun, scales)
    reasons = " ".join(each for each in (why, why_not) if each)
    if not first:
        return LadderPlan((*sentences, *told), first, reasons)
    thinned = tuple(_come_out(diluted, fresh, house, shelf))
    poured = {batch.letter: batch.volume_l for batch in batches}
    shares = {
        letter: share
        for chain in diluted
        for letter, share in ladder_shares(
            chain.steps, poured, chain.water_ppm_n, fresh
        )
    }
    return LadderPlan((*sentences, *told), first, reasons, thinned, shares)


def _come_out(
    chains: Iterable[_Chain], fresh: Mapping[str, Filled], house: House, shelf: Shelf
) -> Iterator[LadderJug]:
    """Give what the jugs of all ladders come to, with their EC."""
    for chain in chains:
        jugs = tuple(ladder_jugs(chain.steps, chain.water_ppm_n, fresh))
        yield from with_ecs(jugs, chain.recipe, fresh, house, shelf)


def _chain(
    batches: Iterable[Batch], house: House, shelf: Shelf, scales: Scales
) -> _Chain:
    made = list(_made(batches, house, shelf))
    known = [batch for batch, _ in made]
    mixtures = [mixture for _, mixture in made if mixture is not None]
    if not mixtures:
        return _Chain(ladder(known, fine_ml=scales.fine_ml))
    water_ppm_n = mixtures[0].from_water_mg_per_l.get("N", 0.0)
    view = shelf.water_view(mixtures[0].water.key)
    of_water = "" if view is None else water_ready.spoken_of(view, shelf)
    steps = ladder(known, water_ppm_n, scales.fine_ml, of_water)
    why_not = ""
    if not all(same_feed(above, below) for above, below in pairwise(mixtures)):
        water = mixtures[0].water
        why_not = mix_words.not_the_same(mixtures[0].recipe.name, water.name)
    elif any(not step.is_fresh for step in steps):
        why_not = _too_large(mixtures[0].recipe.name, steps, shelf)
    recipe = known[0].recipe
    blend = None if view is None else view.blend
    if not why_not:
        return _Chain(steps, water_ppm_n, recipe=recipe, blend=blend)
    alone = tuple(step for batch in known for step in ladder([batch]))
    return _Chain(alone, water_ppm_n, why_not, recipe)


def _made(
    batches: Iterable[Batch], house: House, shelf: Shelf
) -> Iterator[tuple[Batch, Mixture | None]]:
    """Give what is mixed, before it is measured, without what cannot be made.

    Nothing is known of a mixture where nothing is in use.
    """
    for batch in batches:
        if batch.volume_l <= 0:
            continue
        try:
            yield batch, reckoned(batch.strength_ppm_n, house, shelf, batch.recipe)
        except InputError:
            continue


def _too_large(recipe: str, steps: Sequence[LadderStep], shelf: Shelf) -> str:
    """Say which jug of a ladder no vessel holds; nothing where all fit."""
    vessels = mixing_vessels(shelf.vessels)
    if not vessels:
        return ""
    largest = max(vessels, key=lambda vessel: vessel.volume_l)
    step = max(steps, key=lambda step: step.told_mix_l)
    if step.told_mix_l <= largest.volume_l:
        return ""
    return mix_words.not_in_a_jug(recipe, step, largest.name)


def _begun(
    step: LadderStep,
    chain: _Chain,
    batches: dict[str, Batch],
    house: House,
    shelf: Shelf,
) -> Filled:
    """Give the dose of a jug mixed fresh, under the ceilings of all that come of it."""
    batch = batches[step.letter]
    most = batch.ceiling_ppm_n
    at = chain.steps.index(step)
    for below in chain.steps[at + 1 :]:
        if below.is_fresh:
            break
        ceiling, thinned = batches[below.letter].ceiling_ppm_n, below.strength_ppm_n
        added = thinned - chain.water_ppm_n
        if added > 0:
            room = (ceiling - chain.water_ppm_n) / added
            whole = step.strength_ppm_n - chain.water_ppm_n
            most = min(most, chain.water_ppm_n + room * whole)
    return dosed(
        step.strength_ppm_n,
        step.told_mix_l,
        house,
        shelf,
        batch.recipe,
        most_ppm_n=most,
    )


def _sentences(
    chain: _Chain, fresh: Mapping[str, Filled], scales: Scales
) -> Iterator[str]:
    """Give the steps with what a fresh one takes, and what measures what is kept."""
    come_out = dict(_gives(chain, fresh))
    for step, below in zip_longest(chain.steps, chain.steps[1:]):
        found = [step.sentence]
        added_l = step.told_mix_l - step.told_kept_l
        if chain.blend is not None and chain.is_diluted and added_l > 0:
            found.append(litres_text(chain.blend, added_l))
        if step.letter in fresh:
            found.append(mix_words.takes(fresh[step.letter].doses))
        found.append(come_out.get(step.letter, ""))
        if step.letter in fresh and chain.is_diluted:
            found += [measure_words.trouble(d) for d in fresh[step.letter].doses]
        kept_l = 0.0 if below is None else below.told_kept_l
        fine = scales.finest(kept_l)
        if fine is not None:
            found.append(mix_words.measure_kept(litres(kept_l), fine.name))
        yield " ".join(each for each in found if each)


def _gives(chain: _Chain, fresh: Mapping[str, Filled]) -> Iterator[tuple[str, str]]:
    """Give by letter what the jugs of a ladder come to, where that is told."""
    if not chain.is_diluted or not fresh:
        return
    for jug in ladder_jugs(chain.steps, chain.water_ppm_n, fresh):
        given, wanted = jug.gives_ppm_n, jug.strength_ppm_n
        yield jug.letter, mix_words.comes_to(jug.letter, given, wanted)


def _first(
    jugs: Iterable[Jug],
    chains: Sequence[_Chain],
    fresh: Mapping[str, Dosed],
    scales: Scales,
) -> tuple[bool, str]:
    """Tell whether the ladder is closer, for the jugs that it is made of."""
    letters = {step.letter for chain in chains for step in chain.steps}
    alone = [mix for jug in jugs if jug.letter in letters for mix in _mixes(jug)]
    ways = compared(
        alone,
        [(chain.steps, chain.water_ppm_n) for chain in chains],
        fresh,
        scales,
    )
    if ways is None or not math.isfinite(ways.alone.share):
        return False, ""
    return ways.ladder_first, mix_words.which_way(ways)


def _mixes(jug: Jug) -> Iterable[Dosed]:
    if jug.volume_l <= 0:
        return
    if not jug.fills:
        yield Dosed(jug.letter, jug.volume_l + jug.spare_l, jug.doses)
    for each in jug.fills:
        yield Dosed(jug.letter, each.volume_l, each.doses)
