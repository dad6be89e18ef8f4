"""The EC to expect of a finished feed, its water included.

Single salts and the water are reckoned from their ions, together, since salts carry
less in company. A product whose label prints its EC per 100 ppm N stands in with as
much potassium nitrate as makes that EC. Of any other the label proves the fewest and
the most ions it can hold, which gives a range; never a single figure nobody knows.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain import ec_words
from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.conductivity import conductivity_ms_per_cm
from growdesk.domain.ec_words import WATER_EC_UNKNOWN
from growdesk.domain.label_ions import label_ions
from growdesk.domain.salts import SALTS
from growdesk.domain.same_salt import share_of_salt
from growdesk.domain.speech import tr
from growdesk.domain.water_ions import WaterKnown, standing_for, water_ions

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.analysis import Analysis
    from growdesk.domain.product import Product
    from growdesk.domain.recipe import Mixture

BAND_SHARE: Final = 0.05
"""How far a right jug may read from the figure: weighing, meter and method together."""
LABEL_BAND_SHARE: Final = 0.10
"""The same for what a label tells: its figure is rounded and a straight line, and what
it guarantees is rounded and the least there is. Makers' figures for one grade lie that
far apart, 0.69 to 0.76 mS/cm per 100 ppm N for 15-5-15."""
OPEN_SHARE: Final = 0.02
"""What products of unknown salts may carry at the most, with one figure still told."""
PURE_SHARE: Final = 0.95
"""A salt that its label puts below this is reckoned as so much of the pure one."""
FAR_FROM_ANALYSIS: Final = 1.5
"""A label's figure so many times off is a slip in reading it; ours."""
LEAST_BAND_MS_PER_CM: Final = 0.03
"""No meter for the bench is surer than this (common practice, no source)."""

_STAND_IN: Final = {"K": 0.01, "NO3": 0.01}


class ExpectedEc(Struct, frozen=True):
    """EC at 25 °C in mS/cm: the range a meter should read within, and from what.

    ``ec_ms_per_cm`` is the single figure where one is known. ``why`` is a sentence.
    ``water_ms_per_cm`` is the water's own; None where it is not known.
    """

    low_ms_per_cm: float
    high_ms_per_cm: float
    ec_ms_per_cm: float | None = None
    why: str = ""
    notes: tuple[str, ...] = ()
    water_ms_per_cm: float | None = None


@dataclass
class _Litre:
    """What a litre holds: ions that are sure, and two ends of what is left open."""

    sure: dict[str, float]
    low: dict[str, float] = field(default_factory=dict)
    high: dict[str, float] = field(default_factory=dict)
    label_ms_per_cm: float = 0.0
    has_salts: bool = False
    open_names: list[str] = field(default_factory=list)
    forms_told: bool = True
    doubts: list[str] = field(default_factory=list)


def expected_ec(mixture: Mixture) -> ExpectedEc | None:
    """Give the EC to expect; None where nothing is mixed in."""
    parts = [(product, grams) for product, grams in mixture.g_per_l if grams > 0]
    if not parts:
        return None
    water = water_ions(mixture.water)
    litre = _Litre(sure=dict(water.mol_per_l))
    for product, grams in parts:
        _put_in(litre, product, grams)
    own = (
        None
        if water.known is WaterKnown.UNKNOWN
        else conductivity_ms_per_cm(dict(water.mol_per_l))
    )
    notes = (*litre.doubts, *(() if own is not None else (tr(WATER_EC_UNKNOWN),)))
    sure = low = high = conductivity_ms_per_cm(litre.sure)
    if litre.open_names:
        low = conductivity_ms_per_cm(_summed(litre.sure, litre.low))
        high = conductivity_ms_per_cm(_summed(litre.sure, litre.high))
    ec = (low + high) / 2 if _is_settled(litre, sure, high) else None
    if ec is None:
        why = ec_words.of_range(litre.open_names, forms_told=litre.forms_told)
    else:
        why = ec_words.of_figure(
            has_salts=litre.has_salts,
            has_labels=litre.label_ms_per_cm > 0,
            water=water.known,
        )
    least, most = low - _band(litre, sure, low), high + _band(litre, sure, high)
    return ExpectedEc(max(least, 0.0), most, ec, why, notes, own)


def _is_settled(litre: _Litre, sure_ms_per_cm: float, high_ms_per_cm: float) -> bool:
    """Tell whether one figure is known; a pinch of chelate leaves it so.

    What the open products carry at the most has to be lost in the band.
    """
    if not litre.open_names:
        return True
    knows = litre.has_salts or litre.label_ms_per_cm > 0
    return knows and high_ms_per_cm - sure_ms_per_cm <= OPEN_SHARE * high_ms_per_cm


def _put_in(litre: _Litre, product: Product, grams: float) -> None:
    ppm_n = product.mg_per_g().get("N", 0.0) * grams
    printed = product.ec_per_100_ppm_n_ms_per_cm
    formula = product.formula
    if formula is not None and formula in SALTS:
        share = share_of_salt(product.analysis, formula)
        pure = grams if share > PURE_SHARE else share * grams
        moles = pure / molar_mass_g_per_mol(formula)
        ions = {ion: n * moles for ion, n in SALTS[formula].items()}
        litre.sure = _summed(litre.sure, ions)
        litre.has_salts = True
    elif printed and ppm_n > 0:
        ec = printed * ppm_n / 100
        litre.sure = _summed(litre.sure, standing_for(ec, _STAND_IN))
        litre.label_ms_per_cm += ec
        litre.doubts += _doubt(product, printed)
    else:
        low, high, forms_told = _ends(product, grams)
        litre.low = _summed(litre.low, low)
        litre.high = _summed(litre.high, high)
        litre.open_names.append(product.name)
        litre.forms_told = litre.forms_told and forms_told


def _doubt(product: Product, printed_ms_per_cm: float) -> Iterator[str]:
    """Say where a label's figure is far from what its analysis can make."""
    low, high = _proved_per_100_ppm_n(product.analysis)
    least = low / FAR_FROM_ANALYSIS - LEAST_BAND_MS_PER_CM
    most = high * FAR_FROM_ANALYSIS + LEAST_BAND_MS_PER_CM
    if not least <= printed_ms_per_cm <= most:
        yield ec_words.of_doubt(product.name, printed_ms_per_cm, low, high)


@lru_cache(maxsize=64)
def _proved_per_100_ppm_n(analysis: Analysis) -> tuple[float, float]:
    grams = 10 / analysis.n_percent
    ends = label_ions(analysis).ends
    found = [
        conductivity_ms_per_cm({ion: grams * n for ion, n in end.items()})
        for end in ends
    ]
    return min(found), max(found)


def _ends(
    product: Product, grams: float
) -> tuple[dict[str, float], dict[str, float], bool]:
    """Give the ions that carry least and most of what a label leaves open."""
    proved = label_ions(product.analysis)
    ends = sorted(
        ({ion: grams * n for ion, n in end.items()} for end in proved.ends),
        key=conductivity_ms_per_cm,
    )
    return ends[0], ends[-1], proved.forms_told


def _band(litre: _Litre, sure_ms_per_cm: float, ec_ms_per_cm: float) -> float:
    """Give how far a right jug may read from a figure."""
    by_label = litre.label_ms_per_cm + max(ec_ms_per_cm - sure_ms_per_cm, 0.0)
    label = min(by_label, ec_ms_per_cm)
    band = BAND_SHARE * (ec_ms_per_cm - label) + LABEL_BAND_SHARE * label
    return max(band, LEAST_BAND_MS_PER_CM)


def _summed(
    first: Mapping[str, float], second: Mapping[str, float]
) -> dict[str, float]:
    return {
        ion: first.get(ion, 0.0) + second.get(ion, 0.0) for ion in {**first, **second}
    }
