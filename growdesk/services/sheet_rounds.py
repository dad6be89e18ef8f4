"""One round of the sheet: its lines in bench order, keep-dry plants, order of work."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.case import Case
from growdesk.domain.facts import Pot, Verdict, Water
from growdesk.domain.recheck import recheck
from growdesk.services import sheet_words
from growdesk.services.day_rows import WATERING
from growdesk.services.planning import pour_l
from growdesk.services.serving import recipe_key
from growdesk.services.sheet_jugs import jug_for
from growdesk.services.sheet_values import SheetLine, SheetPlace, SheetRound

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.week import Round
    from growdesk.services.known import Known
    from growdesk.services.shelf import Shelf
    from growdesk.services.values import Done, Jug, MixPlan

_POT_KNOWN_DAYS = 3
"""How long a pot's wetness, seen at a look, says anything about it."""


class Bench(Struct, frozen=True):
    """The plants in bench order, the house rules, and what is done of the day.

    ``shelf`` says which recipe a plant is fed by.
    """

    known: tuple[Known, ...]
    house: House
    done: Mapping[int, Done]
    shelf: Shelf


def sheet_round(
    bench: Bench, each: Round, mix: MixPlan, assumes: str | None
) -> SheetRound:
    """Give one round from the plants as they stand that day, and its jugs."""
    cases = tuple(
        Case(plant, known.kind, bench.house, each.on, known.kind_known)
        for known, plant in zip(bench.known, each.plants, strict=True)
    )
    lines = tuple(
        replace(
            _line(
                case,
                judgement,
                _Jugs(mix.jugs, bench.shelf),
                bench.done.get(known.plant_id),
                known.bench_name,
            ),
            together=known.together,
        )
        for known, case, judgement in zip(bench.known, cases, each.judged, strict=True)
    )
    return SheetRound(
        on=each.on,
        assumes=assumes,
        keep_dry=tuple(line for line in lines if line.verdict is Verdict.KEEP_DRY),
        order_of_work=tuple(_order_of_work(cases, lines, mix)),
        places=tuple(_places(lines)),
        mix=mix,
    )


class _Jugs(Struct, frozen=True):
    """The jugs of a round, and the shelf that says whose they are."""

    mixed: Sequence[Jug]
    shelf: Shelf

    def suiting(self, case: Case, seen: Judgement) -> Jug | None:
        """Give the jug of its recipe for a plant that is fed after all."""
        if seen.strength is None:
            return None
        key = recipe_key(case.plant, seen, case.house, self.shelf)
        return jug_for(seen.strength, self.mixed, case.house, key)


def _places(lines: Sequence[SheetLine]) -> Iterator[SheetPlace]:
    """Give the lines by place and bench, as they are walked."""
    benched = {line.place for line in lines if line.bench_name}
    by_bench = groupby(lines, key=lambda line: (line.place, line.bench_name))
    for (name, bench), group in by_bench:
        yield SheetPlace(name, tuple(group), bench, name in benched)


def _line(
    case: Case,
    judgement: Judgement,
    jugs: _Jugs,
    done: Done | None,
    bench_name: str,
) -> SheetLine:
    plant = case.plant
    jug = next((jug for jug in jugs.mixed if plant.tag in jug.tags), None)
    fed_at = judgement.strength_ppm_n if jug is None else float(jug.strength_ppm_n)
    return SheetLine(
        tag=plant.tag,
        name=plant.name,
        verdict=judgement.verdict,
        water=judgement.water,
        letter=None if jug is None else jug.letter,
        strength_ppm_n=fed_at,
        volume_l=pour_l(plant, judgement, case.house),
        looked_on=None if case.look is None else case.look.on,
        reason=sheet_words.reason(judgement),
        until_looked=sheet_words.until_looked(judgement),
        redecide=_redecide(case, judgement, jugs),
        place=plant.place.name,
        suspect=case.suspect,
        newcomer_until=case.newcomer_until,
        done=done,
        bench_name=bench_name,
    )


def _redecide(case: Case, judgement: Judgement, jugs: _Jugs) -> str | None:
    if judgement.verdict is not Verdict.LOOK_FIRST:
        return None
    seen = recheck(case.plant, case.kind, case.house, case.on)
    return sheet_words.redecide(seen, lambda found: jugs.suiting(case, found))


def _order_of_work(
    cases: Sequence[Case], lines: Sequence[SheetLine], mix: MixPlan
) -> Iterator[str]:
    """Give the steps in the order a round is walked."""
    look_first = [line.tag for line in lines if line.verdict is Verdict.LOOK_FIRST]
    if look_first:
        yield sheet_words.look_step(look_first)
    fed = [
        case
        for case, line in zip(cases, lines, strict=True)
        if line.verdict is Verdict.FEED
    ]
    if fed:
        yield sheet_words.moisten_step([c.plant.tag for c in fed if _pot_is_dry(c)])
        shy = [c.plant.tag for c in fed if c.kind.ceiling_ppm_n is not None]
        yield sheet_words.weak_first_step(mix.jugs, shy)
    if any(line.water is Water.IF_DRY for line in lines):
        yield sheet_words.if_light_step()
    new = [line.tag for line in lines if line.newcomer_until and not line.suspect]
    if new:
        yield sheet_words.newcomer_step(new)
    suspects = [line.tag for line in lines if line.suspect]
    if suspects:
        yield sheet_words.suspect_step(suspects)


def _pot_is_dry(case: Case) -> bool:
    """Tell whether a pot was found dry lately and has had no water since."""
    look = case.look
    if look is None or look.pot is not Pot.DRY:
        return False
    if (case.on - look.on).days > _POT_KNOWN_DAYS:
        return False
    return not _watered_since(case.plant, look.on)


def _watered_since(plant: Plant, on: date) -> bool:
    return any(care.on >= on and care.what in WATERING for care in plant.care)
