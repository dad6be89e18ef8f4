"""How much of a salt water takes up, by temperature.

Solubility is told in grams of the salt **without its crystal water** in 100 g of water,
the crystal water counted as water: so one row serves all hydrates of a salt. Between
two temperatures of the table it is read off a straight line, outside them not at all.

A bottle is filled up to its mark, so that salt takes the place of water: what room a
dissolved gram takes stands in the table too, reckoned by us from densities of saturated
solutions (from memory).
"""

from __future__ import annotations

import csv
import io
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.errors import InputError
from growdesk.domain.speech import plain, tr

if TYPE_CHECKING:
    from collections.abc import Mapping

ROOM_ML_PER_G = 0.4
"""What a dissolved gram takes where nothing is known of it; our own middle."""

_TEMPERATURES_C = (0, 5, 10, 15, 20, 25, 30)
_WATER = "H2O"


class Salt(Struct, frozen=True):
    """A salt of the table; ``at`` holds °C and g per 100 g of water, coldest first.

    ``ions`` are those of one formula unit; a salt without them dissolves whole.
    """

    formula: str
    name: str
    ions: tuple[tuple[str, int], ...]
    at: tuple[tuple[float, float], ...]
    room_ml_per_g: float
    source: str
    memory: tuple[str, ...]

    def g_per_100_g(self, temperature_c: float) -> float | None:
        """Give the solubility between the table's temperatures; None outside them."""
        for (low_c, low), (high_c, high) in pairwise(self.at):
            if low_c <= temperature_c <= high_c:
                along = (temperature_c - low_c) / (high_c - low_c)
                return low + along * (high - low)
        return None

    def least_g_per_100_g(self, temperature_c: float) -> float | None:
        """Give what surely dissolves: in a warmer room that of the warmest known."""
        return self.g_per_100_g(min(temperature_c, self.at[-1][0]))


Solubilities = dict[str, Salt]


def parse_solubilities(text: str) -> Solubilities:
    """Give the salts of a table, by formula."""
    found: Solubilities = {}
    for row in csv.DictReader(io.StringIO(text)):
        told = ((float(c), row[str(c)]) for c in _TEMPERATURES_C)
        at = tuple((celsius, float(cell)) for celsius, cell in told if cell)
        ions = (each.partition(":") for each in row["ions"].split(";") if each)
        found[row["formula"]] = Salt(
            formula=row["formula"],
            name=row["name"],
            ions=tuple((ion, int(count)) for ion, _, count in ions),
            at=at,
            room_ml_per_g=float(row["room_ml_per_g"]),
            source=row["source"],
            memory=tuple(each for each in row["memory"].split(";") if each),
        )
    return found


@lru_cache(maxsize=256)
def dissolved(formula: str) -> tuple[tuple[str, float], ...]:
    """Give the salts behind a formula, each as grams in a gram of it, without water.

    Epsom salt gives its magnesium sulphate, a double salt both of its own.
    """
    whole = molar_mass_g_per_mol(formula)
    found = []
    for part in formula.split("."):
        bare = part.lstrip("0123456789")
        times = int(part[: len(part) - len(bare)] or 1)
        if bare != _WATER:
            found.append((bare, times * molar_mass_g_per_mol(bare) / whole))
    return tuple(found)


def saturated_g_per_l(
    formula: str, temperature_c: float, salts: Mapping[str, Salt], share: float = 1.0
) -> float | None:
    """Give the grams of a product in a litre of its saturated solution.

    ``share`` is of what the water takes up. None where the table does not know the
    salt at this temperature.
    """
    ends = []
    for bare, part in dissolved(formula):
        salt = salts.get(bare)
        known = None if salt is None else salt.least_g_per_100_g(temperature_c)
        if salt is None or known is None:
            return None
        taken = share * known
        ends.append(10 * taken / (1 + salt.room_ml_per_g * taken / 100) / part)
    return min(ends, default=None)


class Room(Struct, frozen=True):
    """Where stocks stand: its coolest °C, and what share of the solubility is used."""

    salts: Mapping[str, Salt]
    coolest_c: float = 15.0
    share: float = 0.8


def most_g_per_l(formula: str, room: Room) -> float | None:
    """Give the strongest stock of one product that stays clear in the room."""
    return saturated_g_per_l(formula, room.coolest_c, room.salts, room.share)


def check_temperature(temperature_c: float, field: str = "temperature_c") -> float:
    """Give a room's coolest temperature, or say that it cannot be one."""
    if 0 < temperature_c <= 45:
        return temperature_c
    raise InputError(
        field,
        plain(temperature_c),
        tr("is not a temperature at which a stock is kept"),
        tr(
            "Write the coolest of the room in °C, above 0 and up to 45: a stock that "
            "freezes falls out."
        ),
    )
