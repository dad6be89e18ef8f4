"""What must not stand together in one bottle, and the way out of it.

Calcium falls out with sulphate and phosphate, magnesium with phosphate and ammonium,
iron that is not chelated with phosphate; and every salt crystallizes above its
solubility. Most of it is reckoned, so that a feed is not refused what a concentrate
is; magnesium with an ammonium phosphate, and iron, go by the table in print. What one
product holds by itself is its maker's affair: its own label tells how strong a stock
may be.

Sources. O. Rottenberg, Haifa Group, Interaction among fertilizers
(https://haifa-group.com/haifa-blog/interaction-among-fertilizers-compatibility):
calcium nitrate with any sulphate or phosphate, magnesium with ammonium phosphates,
phosphate with iron, ammonium sulphate with potassium chloride or nitrate; scale from
60 mg/L Ca with 150 mg/L HCO3 on. The limits that make a bottle a concentrate of
magnesium, iron and phosphate, and the margin at feed strength, are ours.
"""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING, Final

from msgspec import Struct, field
from msgspec.structs import replace

from growdesk.domain.chemistry import ATOMIC_MASS_G_PER_MOL, molar_mass_g_per_mol
from growdesk.domain.crystals import crystals, unknown
from growdesk.domain.precipitates import far_below, indices
from growdesk.domain.solubility import most_g_per_l
from growdesk.domain.stock_ions import (
    added,
    ions_of,
    ions_of_all,
    ions_of_water,
    known_salts,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from growdesk.domain.crystals import Crystal
    from growdesk.domain.product import Product
    from growdesk.domain.solubility import Room
    from growdesk.domain.stock_ions import Ions, Parts
    from growdesk.domain.water_analysis import WaterAnalysis

SCALE_CA_MG_PER_L: Final = 60.0
SCALE_HCO3_MG_PER_L: Final = 150.0
CONCENTRATE_MOL_PER_L: Final = 0.02
"""From so much on it is a concentrate, for which the table in print holds; ours."""
FEED_MARGIN: Final = 0.3
"""At feed strength a phosphate is told of from twice its limit on (log10 of 2)."""

_HCO3_MG_PER_MOL: Final = 1000 * molar_mass_g_per_mol("HCO3")
_CHELATED: Final = re.compile(r"chelat|edta|dtpa|eddha|hbed", re.IGNORECASE)
_DUST: Final = 1e-6


class Rule(StrEnum):
    """What falls out."""

    CALCIUM_SULPHATE = "calcium-sulphate"
    CALCIUM_PHOSPHATE = "calcium-phosphate"
    MAGNESIUM_PHOSPHATE = "magnesium-phosphate"
    IRON_PHOSPHATE = "iron-phosphate"
    OVER = "over"
    CRYSTALS = "crystals"
    SCALE = "scale"
    OWN_LABEL = "own-label"
    UNKNOWN = "unknown"


class Severity(StrEnum):
    """Whether a mixture is refused, or told of."""

    REFUSE = "refuse"
    WARN = "warn"


class Where(StrEnum):
    """A concentrate in a bottle, or the finished feed."""

    STOCK = "stock"
    FEED = "feed"


class Apart(Struct, frozen=True):
    """One thing that falls out: which products bring what it is made of, and where."""

    rule: Rule
    severity: Severity
    where: Where
    bring: tuple[str, ...] = ()
    meet: tuple[str, ...] = ()
    values: Mapping[str, object] = field(default_factory=dict)


def findings(
    parts: Parts, water: WaterAnalysis, room: Room, where: Where = Where.STOCK
) -> tuple[Apart, ...]:
    """Give what would fall out of a litre; refusals first."""
    used = tuple((product, grams) for product, grams in parts if grams > 0)
    found = [*_own_label_once(_minerals(used, water, room, where))]
    found += _iron(used, room, where)
    if where is Where.STOCK:
        found += _crystals(used, room)
    found += _scale(used, water, room, where)
    if where is Where.STOCK:
        found += [
            Apart(Rule.UNKNOWN, Severity.WARN, where, (name,))
            for name in unknown(used, room)
        ]
    return tuple(sorted(found, key=lambda each: each.severity is Severity.WARN))


def refused(
    parts: Parts, water: WaterAnalysis, room: Room, where: Where = Where.STOCK
) -> tuple[Apart, ...]:
    """Give what a mixture is refused for."""
    found = findings(parts, water, room, where)
    return tuple(each for each in found if each.severity is Severity.REFUSE)


def _minerals(
    parts: Parts, water: WaterAnalysis, room: Room, where: Where
) -> Iterator[Apart]:
    """Give gypsum and the phosphates of calcium and magnesium."""
    own = ions_of_all(parts, room.salts)
    total = added((own, ions_of_water(water)))
    if not _can_meet(total) or (where is Where.FEED and far_below(total)):
        return
    index = indices(total)
    margin = FEED_MARGIN if where is Where.FEED else 0.0
    judged = (
        (Rule.CALCIUM_SULPHATE, index.gypsum, "Ca", ("SO4",)),
        (Rule.CALCIUM_PHOSPHATE, index.brushite - margin, "Ca", _PHOSPHATES),
        (
            Rule.MAGNESIUM_PHOSPHATE,
            max(index.newberyite, index.struvite) - margin,
            "Mg",
            _PHOSPHATES,
        ),
    )
    for rule, over, metal, anions in judged:
        by_table = (
            rule is Rule.MAGNESIUM_PHOSPHATE
            and where is Where.STOCK
            and _listed_magnesium(parts, own, room)
        )
        if over > _DUST or by_table:
            bring, meet = _bringers(parts, room, metal), _bringers(parts, room, *anions)
            if where is Where.STOCK and _is_its_own_salt(bring, meet):
                continue
            times = 10 ** max(over, 0.0)
            values = {"ph": index.ph, "times": times, "metals": (metal,)}
            yield _apart(rule, where, bring, meet, values)


def _is_its_own_salt(bring: tuple[Product, ...], meet: tuple[Product, ...]) -> bool:
    """Tell whether one salt alone brings both: its own solubility speaks for it."""
    return len(bring) == 1 and bring == meet and bring[0].formula == "CaSO4.2H2O"


def _metals(found: Apart) -> tuple[str, ...]:
    metals = found.values["metals"]
    return metals if isinstance(metals, tuple) else ()


def _own_label_once(found: Iterable[Apart]) -> Iterator[Apart]:
    """Give what one label answers for once a product, with all its metals."""
    own: dict[tuple[str, ...], Apart] = {}
    for each in found:
        if each.rule is not Rule.OWN_LABEL:
            yield each
            continue
        first = own.setdefault(each.bring, each)
        metals = dict.fromkeys((*_metals(first), *_metals(each)))
        told = {**first.values, "metals": tuple(metals)}
        own[each.bring] = replace(first, values=told)
    yield from own.values()


_PHOSPHATES: Final = ("H2PO4", "HPO4")


def _can_meet(ions: Ions) -> bool:
    phosphate = any(ions.get(ion) for ion in _PHOSPHATES)
    calcium = ions.get("Ca") and (phosphate or ions.get("SO4"))
    return bool(calcium or (ions.get("Mg") and phosphate))


def _listed_magnesium(parts: Parts, own: Ions, room: Room) -> bool:
    """Tell a concentrate of magnesium with an ammonium phosphate."""
    strong = min(own.get("Mg", 0.0), own.get("NH4", 0.0)) >= CONCENTRATE_MOL_PER_L
    phosphate = sum(own.get(ion, 0.0) for ion in _PHOSPHATES)
    ammonium_phosphate = any(
        ions.get("NH4") and any(ions.get(ion) for ion in _PHOSPHATES)
        for ions in (ions_of(product, grams, room.salts) for product, grams in parts)
    )
    return strong and phosphate >= CONCENTRATE_MOL_PER_L and ammonium_phosphate


def _apart(
    rule: Rule,
    where: Where,
    bring: tuple[Product, ...],
    meet: tuple[Product, ...],
    values: Mapping[str, object],
) -> Apart:
    """Give a refusal, or a word of warning where one label answers for it."""
    names = tuple(product.name for product in bring)
    others = tuple(product.name for product in meet)
    alone = len(bring) == 1 and bring == meet and bring[0].formula is None
    if alone:
        severity = Severity.WARN
        rule = Rule.OWN_LABEL if where is Where.STOCK else rule
    else:
        severity = Severity.REFUSE if where is Where.STOCK else Severity.WARN
    return Apart(rule, severity, where, names, others, values)


def _bringers(parts: Parts, room: Room, *ions: str) -> tuple[Product, ...]:
    """Give the products that bring any of some ions; none where the water does."""
    return tuple(
        product
        for product, grams in parts
        if any(ions_of(product, grams, room.salts).get(ion) for ion in ions)
    )


def _iron(parts: Parts, room: Room, where: Where) -> Iterator[Apart]:
    """Give iron that is not chelated beside phosphate from another product."""
    if where is Where.FEED:
        return
    own = ions_of_all(parts, room.salts)
    if sum(own.get(ion, 0.0) for ion in _PHOSPHATES) < CONCENTRATE_MOL_PER_L:
        return
    meet = _bringers(parts, room, *_PHOSPHATES)
    for product in _bringers(parts, room, "Fe"):
        others = tuple(each.name for each in meet if each is not product)
        if not others or _CHELATED.search(product.name):
            continue
        sure = product.formula is not None
        severity = Severity.REFUSE if sure else Severity.WARN
        names = (product.name,)
        yield Apart(Rule.IRON_PHOSPHATE, severity, where, names, others, {"sure": sure})


def _crystals(parts: Parts, room: Room) -> Iterator[Apart]:
    for each in crystals(parts, room):
        values = {"salt": each.salt.name, "coolest_c": room.coolest_c}
        too_strong = _too_strong(each, parts, room)
        for product, grams, most in too_strong:
            more = {"grams": grams, "most": most, "share": room.share}
            yield Apart(
                Rule.OVER,
                Severity.REFUSE,
                Where.STOCK,
                (product.name,),
                values=values | more,
            )
        if not too_strong:
            bring = _bringers(parts, room, *(ion for ion, _ in each.salt.ions))
            names = tuple(product.name for product in bring)
            severity = _how_sure(each)
            yield Apart(Rule.CRYSTALS, severity, Where.STOCK, names, values=values)


def _too_strong(
    crystal: Crystal, parts: Parts, room: Room
) -> tuple[tuple[Product, float, float], ...]:
    """Give the products of a salt that are over by themselves, with their limit."""
    found = []
    for product, grams in parts:
        if crystal.salt.formula not in known_salts(product, room.salts):
            continue
        most = most_g_per_l(product.formula or "", room)
        if most is not None and grams > most:
            found.append((product, grams, most))
    return tuple(found)


def _how_sure(crystal: Crystal) -> Severity:
    """Refuse; but a salt that nobody put in is only told of within the margin."""
    sure = crystal.put_in or crystal.filled > 1
    return Severity.REFUSE if sure else Severity.WARN


def _scale(
    parts: Parts, water: WaterAnalysis, room: Room, where: Where
) -> Iterator[Apart]:
    """Give chalk from hard alkaline water that is given still more calcium."""
    theirs = ions_of_water(water)
    hco3 = theirs.get("HCO3", 0.0) * _HCO3_MG_PER_MOL
    own = ions_of_all(parts, room.salts).get("Ca", 0.0)
    calcium = (own + theirs.get("Ca", 0.0)) * 1000 * ATOMIC_MASS_G_PER_MOL["Ca"]
    if own > 0 and hco3 > SCALE_HCO3_MG_PER_L and calcium > SCALE_CA_MG_PER_L:
        names = tuple(product.name for product in _bringers(parts, room, "Ca"))
        values = {"hco3": hco3, "ca": calcium}
        yield Apart(Rule.SCALE, Severity.WARN, where, names, (), values)
