"""Which salt crystallizes out of a stock, whichever products brought its ions.

A salt falls out once the product of its ions, by their moles in a kilogram of water,
is that of its own saturated solution. For a bottle of one salt that is its solubility;
for a mixture it takes the ion in common into account (potassium nitrate beside calcium
nitrate) and the salt that nobody put in (potassium sulphate out of potassium chloride
and ammonium sulphate). Activities are left alone, which the share kept as a margin is
there for. Gypsum of two products and the phosphates are judged in ``precipitates``; a
gypsum that is put in goes by its own grams here.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.solubility import dissolved, most_g_per_l
from growdesk.domain.stock_ions import ions_of_all, known_salts, water_kg_per_l

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.solubility import Room, Salt
    from growdesk.domain.stock_ions import Parts

_BY_ACTIVITIES = frozenset({"CaSO4"})
_DUST = 1e-9


class Crystal(Struct, frozen=True):
    """A salt over its limit; ``filled`` is how full the water is of it, 1 saturated.

    ``put_in`` tells that a product of the stock is this salt.
    """

    salt: Salt
    filled: float
    put_in: bool


def crystals(parts: Parts, room: Room) -> tuple[Crystal, ...]:
    """Give the salts that are over the room's share of their solubility."""
    water_kg = water_kg_per_l(parts, room.salts)
    there = {bare for product, _ in parts for bare in known_salts(product, room.salts)}
    ions = ions_of_all(parts, room.salts)
    found = []
    for formula, salt in room.salts.items():
        by_ions = salt.ions and formula not in _BY_ACTIVITIES
        filled = (
            _filled(salt, ions, water_kg, room)
            if by_ions
            else _filled_whole(salt, parts, water_kg, room)
        )
        if filled > room.share + _DUST:
            found.append(Crystal(salt, filled, formula in there))
    return tuple(sorted(found, key=lambda each: (not each.put_in, -each.filled)))


def unknown(parts: Parts, room: Room) -> tuple[str, ...]:
    """Give the products of which the table does not tell how much dissolves."""
    return tuple(
        product.name
        for product, grams in parts
        if grams > 0
        and (product.formula is None or most_g_per_l(product.formula, room) is None)
    )


def _filled(
    salt: Salt, ions: Mapping[str, float], water_kg: float, room: Room
) -> float:
    """Give how full the water is of a salt, by the product of its ions."""
    limit = salt.least_g_per_100_g(room.coolest_c)
    if limit is None or any(ions.get(ion, 0.0) <= 0 for ion, _ in salt.ions):
        return 0.0
    if water_kg <= 0:
        return math.inf
    saturated = 10 * limit / molar_mass_g_per_mol(salt.formula)
    logs = [
        count * math.log(ions[ion] / water_kg / (count * saturated))
        for ion, count in salt.ions
    ]
    return math.exp(math.fsum(logs) / sum(count for _, count in salt.ions))


def _filled_whole(salt: Salt, parts: Parts, water_kg: float, room: Room) -> float:
    """Give how full the water is of a salt by its own grams, as urea."""
    limit = salt.least_g_per_100_g(room.coolest_c)
    if limit is None:
        return 0.0
    return _share(_grams_of(salt.formula, parts, room), 10 * limit * water_kg)


def _share(grams: float, most_g: float) -> float:
    if grams <= 0:
        return 0.0
    return grams / most_g if most_g > 0 else math.inf


def _grams_of(formula: str, parts: Parts, room: Room) -> float:
    return math.fsum(
        grams * share
        for product, grams in parts
        if product.formula is not None and known_salts(product, room.salts)
        for bare, share in dissolved(product.formula)
        if bare == formula
    )
