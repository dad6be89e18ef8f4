"""The most salt each kind's pot should hold, and where that is from.

Where a limit is read, the kind's source says how it was come by: twice the EC poured
that a trial or a growers' paper found good, since what drained from bark read twice
what was poured (Y.-T. Wang, HortScience 1998, abstract). The classes of the others,
tolerant 2.0 down to very sensitive 0.8, are ours, from memory.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk.domain.facts import House
from growdesk.domain.strength import feeder_share
from growdesk.services import kinds

if TYPE_CHECKING:
    from growdesk.domain.kinds import Kind

COLUMN = "pot_ec_limit_ms_per_cm"
ROWS = [pytest.param(kind, id=key) for key, kind in kinds.table().kinds.items()]
POURED = [
    # Wageningen University & Research, 21 November 2014: best at 1.0 mS/cm; read.
    ("phalaenopsis", 1.0),
    # Flower Research Journal 29(4), 2021: 1.0 best, 2 and 3 mS/cm worse; read.
    ("cymbidium", 1.0),
    # G. Hands, Conductivity Meter Readings: 300, to 500 uS/cm in summer; read.
    ("paphiopedilum", 0.5),
    ("paphiopedilum-green", 0.5),
    # G. Hands: 200 cool and dark to 400 uS/cm bright; read.
    ("odontoglossum", 0.4),
    # G. Hands: below 200 uS/cm; read.
    ("disa", 0.2),
]


@pytest.mark.parametrize("kind", ROWS)
def test_every_kind_has_a_limit(kind: Kind) -> None:
    assert 0.4 <= kind.pot_ec_limit_ms_per_cm <= 2.0


@pytest.mark.parametrize("kind", ROWS)
def test_a_limit_that_is_read_says_where(kind: Kind) -> None:
    if COLUMN in kind.memory:
        assert "pot EC limit:" not in kind.source
    else:
        said = kind.source.split("pot EC limit:")[1]
        assert "mS/cm" in said
        assert any(year in said for year in ("1998", "2013", "2014"))


@pytest.mark.parametrize("kind", ROWS)
def test_what_the_house_pours_by_default_is_within_the_limit(kind: Kind) -> None:
    house = House()
    ppm_n = house.full_strength_ppm_n * feeder_share(kind.feeder, house)
    ppm_n = min(ppm_n, kind.ceiling_ppm_n or ppm_n)
    poured = ppm_n / 100 * house.ec_per_100_ppm_n_ms_per_cm
    assert poured <= kind.pot_ec_limit_ms_per_cm


@pytest.mark.parametrize(("key", "poured"), POURED)
def test_limits_from_what_was_published_as_poured(key: str, poured: float) -> None:
    kind = kinds.table().kinds[key]
    assert kind.pot_ec_limit_ms_per_cm == pytest.approx(2 * poured)
    assert COLUMN not in kind.memory


def test_a_limit_from_the_solution_itself() -> None:
    """Leaf mass did best at -0.076 MPa (HortScience 48(6):773, 2013; read)."""
    poured = 0.76 / 0.36  # bar over bar per mS/cm
    laelia = kinds.table().kinds["laelia"]
    assert laelia.pot_ec_limit_ms_per_cm == pytest.approx(poured, abs=0.12)


def test_seven_limits_are_read_and_no_more() -> None:
    read = [k.key for k in kinds.table().kinds.values() if COLUMN not in k.memory]
    assert sorted(read) == sorted([*(key for key, _ in POURED), "laelia"])


def test_the_order_of_sensitivity() -> None:
    table = kinds.table().kinds
    keys = ("disa", "masdevallia", "paphiopedilum", "cattleya", "phalaenopsis")
    limits = [table[key].pot_ec_limit_ms_per_cm for key in keys]
    assert limits == sorted(limits)
    assert len(set(limits)) == len(keys)
