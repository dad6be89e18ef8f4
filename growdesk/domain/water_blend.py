"""Two waters in one can: what the blend holds, and the shares that reach an aim.

Ions, alkalinity and hardness are conserved, so that a blend holds them exactly by its
shares. Conductivity is not: salts carry a little better in thinner water. Where the
ions of both waters are known the blend's EC follows them; elsewhere it is reckoned in a
straight line between the two, and that is said. Who pours what is not known here.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct
from msgspec.structs import replace

from growdesk.domain.conductivity import conductivity_ms_per_cm
from growdesk.domain.errors import InputError
from growdesk.domain.ions import IONS
from growdesk.domain.phrases import listed
from growdesk.domain.speech import Phrases, plain, tr
from growdesk.domain.water_analysis import BLEND, CONSERVED, WaterAnalysis

if TYPE_CHECKING:
    from collections.abc import Mapping

BALANCED: Final = 0.15
"""How far the charges of an analysis may be apart for its EC to be reckoned from it."""
_POURED: Final = ((5.0, 0.1), (0.5, 0.05), (0.0, 0.01))
_STEPS: Final = 60
_NEAR: Final = 1e-9


class Aim(StrEnum):
    """What the shares of a blend are reckoned from."""

    SHARE = "share"
    ALKALINITY = "alkalinity"
    EC = "ec"


_FIELDS: Final = {Aim.ALKALINITY: "alkalinity_mg_per_l", Aim.EC: "ec_ms_per_cm"}

_UNKNOWN: Final = Phrases(
    {
        Aim.ALKALINITY: "cannot be reckoned: the alkalinity of {water} is not known",
        Aim.EC: "cannot be reckoned: the EC of {water} is not known",
    }
)
_GIVE_FIRST: Final = Phrases(
    {
        Aim.ALKALINITY: "Give that water's alkalinity first, or blend by plain shares.",
        Aim.EC: "Give that water's EC first, or blend by plain shares.",
    }
)


class Blend(Struct, frozen=True):
    """A blend of two waters: the share of the first, and what comes out.

    ``reached`` is False where the aim lies outside what the two can make; the share is
    then the nearest. ``ec_is_straight`` tells that its EC is a straight line between
    the two.
    """

    first: WaterAnalysis
    second: WaterAnalysis
    first_share: float
    water: WaterAnalysis
    aim: Aim
    aim_value: float
    reached: bool = True
    ec_is_straight: bool = False


class Pour(Struct, frozen=True):
    """Litres of each water for a volume, as a jug's scale shows them."""

    first_l: float
    second_l: float

    @property
    def first_share(self) -> float:
        """Give the share that is really poured."""
        return self.first_l / (self.first_l + self.second_l)


def blend(
    first: WaterAnalysis, second: WaterAnalysis, aim: Aim, aim_value: float
) -> Blend:
    """Give the blend of two waters that comes nearest to an aim.

    ``aim_value`` is the share of the first (0 to 1), mg/L CaCO3 or mS/cm. Raises
    ``InputError`` where what is aimed at is not known of both.
    """
    share, reached = _share_for(first, second, aim, aim_value)
    made = of_share(first, second, share)
    return replace(made, aim=aim, aim_value=aim_value, reached=reached)


def of_share(first: WaterAnalysis, second: WaterAnalysis, first_share: float) -> Blend:
    """Give the blend of two waters by the share of the first."""
    held = {field: _mean(first, second, field, first_share) for field in CONSERVED}
    ec, straight = _ec(first, second, first_share)
    name = listed([first.called, second.called])
    water = WaterAnalysis(
        kind=BLEND,
        name=name,
        ec_ms_per_cm=ec,
        alkalinity_mg_per_l=held["alkalinity_mg_per_l"],
        hardness_mg_per_l=held["hardness_mg_per_l"],
        ca_mg_per_l=held["ca_mg_per_l"],
        mg_mg_per_l=held["mg_mg_per_l"],
        k_mg_per_l=held["k_mg_per_l"],
        na_mg_per_l=held["na_mg_per_l"],
        cl_mg_per_l=held["cl_mg_per_l"],
        so4_mg_per_l=held["so4_mg_per_l"],
        no3_mg_per_l=held["no3_mg_per_l"],
    )
    return Blend(
        first,
        second,
        first_share,
        water,
        aim=Aim.SHARE,
        aim_value=first_share,
        ec_is_straight=straight,
    )


def reach(first: WaterAnalysis, second: WaterAnalysis, aim: Aim) -> tuple[float, float]:
    """Give the least and the most of an aim that two waters can make."""
    ends = _ends(first, second, aim)
    return min(ends), max(ends)


def pour(volume_l: float, first_share: float) -> Pour:
    """Give the litres of each for a volume: to 0.1 L from 5 L on, else to 50 mL.

    Below half a litre to 10 mL. The two add up to the volume; a share that is there at
    all is at least one step, where the volume holds two.
    """
    step = next(step for least, step in _POURED if volume_l >= least)
    steps = round(volume_l * first_share / step)
    most = int(volume_l / step + _NEAR)
    if most >= 2 and _NEAR < first_share < 1 - _NEAR:
        steps = min(max(steps, 1), most - 1)
    first = volume_l if first_share >= 1 - _NEAR else round(steps * step, 3)
    return Pour(first, round(volume_l - first, 3))


def _share_for(
    first: WaterAnalysis, second: WaterAnalysis, aim: Aim, wanted: float
) -> tuple[float, bool]:
    if aim is Aim.SHARE:
        if not 0 <= wanted <= 1:
            raise InputError(
                "aim_value",
                f"{plain(100 * wanted)} %",
                tr("is no share of a blend"),
                tr("Give 0 to 100 per cent of the first water."),
            )
        return wanted, True
    of_first, of_second = _ends(first, second, aim)
    low, high = sorted((of_first, of_second))
    if not low - _NEAR <= wanted <= high + _NEAR:
        nearest = low if wanted < low else high
        return (1.0 if nearest == of_first else 0.0), False
    if high - low < _NEAR:
        return 0.5, True
    if aim is Aim.ALKALINITY:
        return (wanted - of_second) / (of_first - of_second), True
    return _share_of_ec(first, second, wanted), True


def _share_of_ec(first: WaterAnalysis, second: WaterAnalysis, wanted: float) -> float:
    """Halve the span until the EC stands; it rises from the weaker to the stronger."""
    low, high = 0.0, 1.0
    rises = (first.amount("ec_ms_per_cm") or 0) > (second.amount("ec_ms_per_cm") or 0)
    for _ in range(_STEPS):
        middle = (low + high) / 2
        is_over = (_ec(first, second, middle)[0] or 0.0) > wanted
        if is_over == rises:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def _ends(first: WaterAnalysis, second: WaterAnalysis, aim: Aim) -> tuple[float, float]:
    if aim is Aim.SHARE:
        return 1.0, 0.0
    found = []
    for water in (first, second):
        amount = water.amount(_FIELDS[aim])
        if amount is None:
            raise InputError(
                "aim",
                aim.value,
                _UNKNOWN[aim].format(water=water.called),
                _GIVE_FIRST[aim],
            )
        found.append(amount)
    return found[0], found[1]


def _mean(
    first: WaterAnalysis, second: WaterAnalysis, field: str, share: float
) -> float | None:
    """Give what both hold by share; where one end is all of it, that one counts."""
    amounts = (first.amount(field), second.amount(field))
    if share >= 1:
        return amounts[0]
    if share <= 0:
        return amounts[1]
    if amounts[0] is None or amounts[1] is None:
        return None
    return share * amounts[0] + (1 - share) * amounts[1]


@lru_cache(maxsize=64)
def _ec(
    first: WaterAnalysis, second: WaterAnalysis, share: float
) -> tuple[float | None, bool]:
    """Give a blend's EC, and whether it is a straight line between the two."""
    straight = _mean(first, second, "ec_ms_per_cm", share)
    if straight is None:
        return None, False
    if not 0 < share < 1:
        return straight, False
    bend = _bend(first.ions_mmol_per_l(), second.ions_mmol_per_l(), share)
    return (straight, True) if bend is None else (straight + bend, False)


def _bend(
    first: Mapping[str, float], second: Mapping[str, float], share: float
) -> float | None:
    """Give by how many mS/cm a blend is above the straight line between the two.

    None where the ions of a water are not known well enough to say.
    """
    if not (is_whole(first) and is_whole(second)):
        return None
    mixed = {
        ion: share * first.get(ion, 0.0) + (1 - share) * second.get(ion, 0.0)
        for ion in {*first, *second}
    }
    line = share * ions_ms_per_cm(first) + (1 - share) * ions_ms_per_cm(second)
    return ions_ms_per_cm(mixed) - line


def is_whole(ions_mmol_per_l: Mapping[str, float]) -> bool:
    """Tell whether ions are an analysis of all that matters: their charges balance.

    A water that holds nothing is one as well, where each main ion is known.
    """
    if not {"Ca", "Mg", "Na", "HCO3", "Cl", "SO4"} <= set(ions_mmol_per_l):
        return False
    plus, minus = charges_meq_per_l(ions_mmol_per_l)
    return abs(plus - minus) <= BALANCED * (plus + minus) / 2


def charges_meq_per_l(ions_mmol_per_l: Mapping[str, float]) -> tuple[float, float]:
    """Give the sum of the cations and of the anions."""
    each = [(IONS[ion][0], mmol) for ion, mmol in ions_mmol_per_l.items()]
    return (
        sum(charge * mmol for charge, mmol in each if charge > 0),
        -sum(charge * mmol for charge, mmol in each if charge < 0),
    )


def ions_ms_per_cm(ions_mmol_per_l: Mapping[str, float]) -> float:
    """Give the EC at 25 °C of ions told in millimoles per litre."""
    return conductivity_ms_per_cm(
        {ion: mmol / 1000 for ion, mmol in ions_mmol_per_l.items()}
    )
