"""What is known to be too much in water for orchids, and which water goes past it.

A limit is a row of data with its published source. What goes past one comes out as a
flag of key and values; its sentence is made elsewhere. Nothing is refused here: a
grower with hard water has hard water. Doses of acid are not known here at all.

The sources:

* ``ORCHID``: the levels of concern for epiphytic orchids of an orchid nursery's article
  on water tests (two versions of its page print 100 and 150 mg/L for alkalinity).
* ``GREENHOUSE``: P. Thomas, University of Georgia (alkalinity below 100 mg/L CaCO3 is
  the aim, above 150 it is treated); C. Currey in Greenhouse Management (the smaller the
  root volume, the lower: 40 to 60 mg/L for plugs).
* ``FAO``: FAO Irrigation and Drainage Paper 29, Table 1: no restriction below 0.7 dS/m,
  1.5 meq/L HCO3 and 5 mg/L NO3-N, severe above 3 dS/m, 8.5 meq/L and 30 mg/L. It gives
  HCO3, Na and Cl in meq/L; a reprint that says mg/L is wrong.
* ``HARDNESS``: the usual classes of hardness, 60, 120 and 180 mg/L CaCO3, as the U.S.
  Geological Survey and handbooks on irrigation have them.
* ``DRINKING``: 50 mg/L nitrate, the limit for drinking water of the WHO and the EU.
"""

from __future__ import annotations

from enum import IntEnum
from typing import TYPE_CHECKING, Final

from msgspec import Struct, field

from growdesk.domain.chemistry import mass_fraction
from growdesk.domain.speech import mark, tr
from growdesk.domain.water_analysis import PURE_KINDS
from growdesk.domain.water_ions import MG_CACO3_PER_MEQ

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from growdesk.domain.water_analysis import WaterAnalysis

ORCHID: Final = mark(
    "Levels of concern for epiphytic orchids, an orchid nursery's article."
)
GREENHOUSE: Final = mark(
    "P. Thomas, University of Georgia; C. Currey, Greenhouse Management, on alkalinity."
)
FAO: Final = mark("FAO Irrigation and Drainage Paper 29 (Ayers and Westcot), Table 1.")
HARDNESS: Final = mark("Classes of hardness as the U.S. Geological Survey has them.")
SOFTENED: Final = mark(
    "An orchid nursery's article on water tests: avoid softened water."
)
DRINKING: Final = mark("WHO and EU limit for drinking water, 50 mg/L as NO3.")
KINDS: Final = mark("What a kind's pot may read, from the table of kinds.")
PRACTICE: Final = mark("Common practice, no source.")


class Weight(IntEnum):
    """How much a flag matters."""

    WORTH_KNOWING = 1
    CARE = 2
    TOO_MUCH = 3


class Flag(Struct, frozen=True):
    """One thing to say of a water: its sentence's key and values, and the source."""

    key: str
    weight: Weight
    source: str
    values: Mapping[str, float | str] = field(default_factory=dict)


def flag(key: str, weight: Weight, source: str, **values: float | str) -> Flag:
    """Give a flag by its values."""
    return Flag(key, weight, source, values)


def _over(amount: float | None, limit: float, digits: int = 0) -> bool:
    """Compare as it is shown, so that nothing is called over what it equals."""
    return amount is not None and round(amount, digits) > limit


ALKALINITY_AIM_MG_PER_L: Final = 100.0
ALKALINITY_MOST_MG_PER_L: Final = 150.0
SMALL_ROOTS_MOST_MG_PER_L: Final = 60.0
HARDNESS_MOST_MG_PER_L: Final = 150.0
EC_MOST_MS_PER_CM: Final = 0.5
CL_MOST_MG_PER_L: Final = 30.0
NA_MOST_MG_PER_L: Final = 50.0
FAO_EC_MS_PER_CM: Final = (0.7, 3.0)
FAO_ALKALINITY_MG_PER_L: Final = (1.5 * MG_CACO3_PER_MEQ, 8.5 * MG_CACO3_PER_MEQ)
FAO_NITRATE_N_MG_PER_L: Final = (5.0, 30.0)
DRINKING_NITRATE_MG_PER_L: Final = 50.0
PURE_MOST_MS_PER_CM: Final = 0.1
"""Above this, rain or RO water is no longer what it is called; common practice."""
SOFT_SHARE: Final = 0.25
SOFT_FROM_MG_PER_L: Final = 60.0
HARDNESS_CLASSES: Final = (
    (60.0, mark("soft")),
    (120.0, mark("moderately hard")),
    (180.0, mark("hard")),
    (float("inf"), mark("very hard")),
)


def hardness_class(hardness_mg_per_l: float) -> str:
    """Give the usual word for a total hardness as CaCO3."""
    word = next(word for top, word in HARDNESS_CLASSES if hardness_mg_per_l <= top)
    return tr(word)


def water_flags(water: WaterAnalysis) -> tuple[Flag, ...]:
    """Give what is to be said of a water by itself, the weightiest first."""
    found = [
        *_alkalinity(water),
        *_softened(water),
        *_salts(water),
        *_nitrate(water),
        *_hardness(water),
        *_pure(water),
    ]
    return tuple(sorted(found, key=lambda flag: -flag.weight))


def feed_flags(
    water: WaterAnalysis,
    elements_mg_per_l: Mapping[str, float],
    feed_ec_ms_per_cm: float | None = None,
    least_limit_ms_per_cm: float | None = None,
) -> tuple[Flag, ...]:
    """Give what a water does to a feed made with it.

    ``elements_mg_per_l`` and ``feed_ec_ms_per_cm``, the least that it reads, are of the
    finished feed, the water included. ``least_limit_ms_per_cm`` is what the pot of the
    most sensitive plant that gets it may read.
    """
    found: list[Flag] = []
    for name, most in (("Na", NA_MOST_MG_PER_L), ("Cl", CL_MOST_MG_PER_L)):
        own = water.elements_mg_per_l().get(name, 0.0)
        total = elements_mg_per_l.get(name, 0.0)
        if own > 0 and _over(total, most) and not _over(own, most):
            told = {"amount": total, "limit": most, "own": own}
            care = Weight.CARE
            found.append(flag("feed-adds-salt", care, tr(ORCHID), element=name, **told))
    own_ec, limit, ec = water.ec_ms_per_cm, least_limit_ms_per_cm, feed_ec_ms_per_cm
    if own_ec is None or limit is None:
        return tuple(found)
    much = Weight.TOO_MUCH
    if round(own_ec, 2) >= limit:
        found.append(flag("water-over-kind", much, tr(KINDS), ec=own_ec, limit=limit))
    elif ec is not None and _over(ec, limit, 2) and not _over(ec - own_ec, limit, 2):
        told = {"ec": ec, "limit": limit, "own": own_ec}
        found.append(flag("feed-over-kind", much, tr(KINDS), **told))
    return tuple(found)


def _alkalinity(water: WaterAnalysis) -> Iterator[Flag]:
    amount = water.alkalinity_mg_per_l
    if amount is None:
        return
    most, aim = ALKALINITY_MOST_MG_PER_L, ALKALINITY_AIM_MG_PER_L
    if _over(amount, most):
        severe = amount > FAO_ALKALINITY_MG_PER_L[1]
        key = "alkalinity-severe" if severe else "alkalinity-over"
        source = f"{tr(GREENHOUSE)} {tr(FAO)}" if severe else tr(GREENHOUSE)
        yield flag(key, Weight.TOO_MUCH, source, amount=amount, limit=most)
        yield flag("acid-exists", Weight.WORTH_KNOWING, tr(PRACTICE))
    elif _over(amount, aim):
        source = f"{tr(GREENHOUSE)} {tr(ORCHID)}"
        yield flag("alkalinity-high", Weight.CARE, source, amount=amount, limit=aim)
    elif _over(amount, SMALL_ROOTS_MOST_MG_PER_L):
        small, quiet = SMALL_ROOTS_MOST_MG_PER_L, Weight.WORTH_KNOWING
        yield flag(
            "alkalinity-small", quiet, tr(GREENHOUSE), amount=amount, limit=small
        )


def _softened(water: WaterAnalysis) -> Iterator[Flag]:
    """Tell water whose alkalinity came without its calcium: sodium took its place."""
    alkalinity, hardness = water.alkalinity_mg_per_l, water.best_hardness_mg_per_l()
    if alkalinity is None or hardness is None or alkalinity <= SOFT_FROM_MG_PER_L:
        return
    if hardness < SOFT_SHARE * alkalinity:
        told = {"alkalinity": alkalinity, "hardness": hardness}
        yield flag("softened", Weight.TOO_MUCH, tr(SOFTENED), **told)


def _salts(water: WaterAnalysis) -> Iterator[Flag]:
    ec, (fao, severe) = water.ec_ms_per_cm, FAO_EC_MS_PER_CM
    if ec is not None and _over(ec, severe, 2):
        yield flag("ec-severe", Weight.TOO_MUCH, tr(FAO), ec=ec, limit=severe)
    elif ec is not None and _over(ec, EC_MOST_MS_PER_CM, 2):
        much = ec >= fao
        weight = Weight.TOO_MUCH if much else Weight.CARE
        source = f"{tr(ORCHID)} {tr(FAO)}" if much else tr(ORCHID)
        yield flag("ec-over", weight, source, ec=ec, limit=EC_MOST_MS_PER_CM)
    na, cl = water.na_mg_per_l, water.cl_mg_per_l
    if na is not None and _over(na, NA_MOST_MG_PER_L):
        most = NA_MOST_MG_PER_L
        yield flag("sodium-over", Weight.TOO_MUCH, tr(ORCHID), amount=na, limit=most)
    if cl is not None and _over(cl, CL_MOST_MG_PER_L):
        most = CL_MOST_MG_PER_L
        yield flag("chloride-over", Weight.CARE, tr(ORCHID), amount=cl, limit=most)


def _nitrate(water: WaterAnalysis) -> Iterator[Flag]:
    nitrate = water.no3_mg_per_l
    if nitrate is None:
        return
    nitrogen = nitrate * mass_fraction("NO3", "N")
    most = DRINKING_NITRATE_MG_PER_L
    told = {"amount": nitrate, "nitrogen": nitrogen, "limit": most}
    if _over(nitrate, most):
        yield flag("nitrate-drinking", Weight.TOO_MUCH, tr(DRINKING), **told)
    elif nitrogen >= FAO_NITRATE_N_MG_PER_L[0]:
        yield flag("nitrate-feeds", Weight.WORTH_KNOWING, tr(FAO), **told)


def _hardness(water: WaterAnalysis) -> Iterator[Flag]:
    hardness, most = water.best_hardness_mg_per_l(), HARDNESS_MOST_MG_PER_L
    if hardness is not None and _over(hardness, most):
        yield Flag(
            "hardness-over",
            Weight.CARE,
            f"{tr(ORCHID)} {tr(HARDNESS)}",
            {"amount": hardness, "limit": most, "class": hardness_class(hardness)},
        )


def _pure(water: WaterAnalysis) -> Iterator[Flag]:
    ec, kind = water.ec_ms_per_cm, water.kind.casefold()
    if kind in PURE_KINDS and ec is not None and _over(ec, PURE_MOST_MS_PER_CM, 2):
        yield flag(f"no-pure-{kind}", Weight.CARE, tr(PRACTICE), ec=ec)
