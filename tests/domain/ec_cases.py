"""Salts, feeds and waters whose conductivity is asked of PHREEQC, and its answers.

``tests/data/ec_phreeqc.json`` holds the answers, so that the check runs where the
library cannot be loaded. From a checkout

    python -m tests.domain.ec_cases             prints how far we are from them
    python -m tests.domain.ec_cases --anew      asks PHREEQC all of it again
"""

from __future__ import annotations

import json
import random
import sys
from collections import defaultdict
from functools import cache
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from growdesk.domain.chemistry import molar_mass_g_per_mol
from growdesk.domain.conductivity import conductivity_ms_per_cm
from growdesk.domain.ions import IONS
from growdesk.domain.salts import SALTS

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

TABLE = Path(__file__).parents[1] / "data" / "ec_phreeqc.json"
DATABASE = "vitens.dat"
OTHER_DATABASE = "phreeqc.dat"
"""Both are of PHREEQC 3.1.7 and differ in nothing that a feed holds but ammonium, kept
apart from nitrate in the first. pitzer.dat knows neither nitrate, ammonium nor
phosphate, and no pairs that would keep sulphates from conducting; wateq4f_PWN.dat has
no conductivities: they cannot be asked.
"""

LEAST_US_PER_CM, MOST_US_PER_CM = 95.0, 3100.0
"""The strengths that are held: 0.1 to 3 mS/cm, by PHREEQC's answer."""

MEQ_PER_L = (0.8, 2.0, 5.0, 10.0, 18.0, 28.0, 40.0, 60.0, 85.0)
UNASKED = {
    "CO(NH2)2": "gives no ions",
    "H3BO3": "gives no ions",
    "Na2B4O7.10H2O": "PHREEQC gives borate no conductivity",
    "Na2MoO4.2H2O": "PHREEQC's tables have no molybdate",
    "FeSO4.7H2O": "its iron would be taken up by the air first",
    "K2CO3": "a pH of 11 is no feed",
}
GYPSUM_MOST_MEQ_PER_L = 28.0
"""Gypsum is soluble to 2.4 g/L at 25 °C (CRC Handbook, from memory)."""

FEEDS: Mapping[str, Mapping[str, float]] = {
    "calcium nitrate feed": {
        "Ca(NO3)2.4H2O": 0.6,
        "KNO3": 0.35,
        "MgSO4.7H2O": 0.25,
        "KH2PO4": 0.14,
    },
    "greenhouse calcium nitrate, Epsom salt": {
        "5Ca(NO3)2.NH4NO3.10H2O": 0.6,
        "KNO3": 0.3,
        "MgSO4.7H2O": 0.3,
        "NH4H2PO4": 0.06,
    },
    "nitrate, ammonium and phosphate in thirds": {
        "NH4NO3": 0.4,
        "KNO3": 0.45,
        "NH4H2PO4": 0.32,
        "CO(NH2)2": 0.3,
    },
    "ammonium sulphate feed": {
        "(NH4)2SO4": 0.5,
        "K2SO4": 0.3,
        "NH4H2PO4": 0.15,
        "MgSO4.7H2O": 0.15,
    },
    "bloom feed": {"KH2PO4": 0.5, "KNO3": 0.3, "K2SO4": 0.15},
    "alkaline phosphates": {"K2HPO4": 0.3, "(NH4)2HPO4": 0.2, "KNO3": 0.3},
    "magnesium nitrate feed": {
        "Mg(NO3)2.6H2O": 0.3,
        "Ca(NO3)2.4H2O": 0.5,
        "KH2PO4": 0.2,
        "KCl": 0.1,
    },
    "urea phosphate feed": {"CO(NH2)2.H3PO4": 0.2, "KNO3": 0.4, "MgSO4.7H2O": 0.1},
}
"""Grams in a litre, scaled to several strengths; chosen here as common recipes are."""

WATERS: Mapping[str, Mapping[str, float]] = {
    "no water of its own": {},
    "soft tap": {"Ca": 0.5, "Mg": 0.15, "Na": 0.3, "HCO3": 1.1, "Cl": 0.3, "SO4": 0.1},
    "hard tap": {"Ca": 2.0, "Mg": 0.6, "Na": 0.6, "HCO3": 4.0, "Cl": 0.8, "SO4": 0.5},
}
"""Ions in mmol/L, invented, with even charges."""

MIXES = 500
_SEED = 20261126
_STRENGTHS = (0.1, 0.3, 0.7, 1.2, 2.0)
_TOTALS = {
    "NO3": "N(5)",
    "SO4": "S(6)",
    "HCO3": "C(4)",
    "CO3": "C(4)",
    "H2PO4": "P",
    "HPO4": "P",
    "NH4": "Amm",
    "Mn": "Mn(2)",
    "Cu": "Cu(2)",
}


class Case(Struct, frozen=True):
    """A name, and the ions in mol per litre."""

    group: str
    name: str
    ions_mol_per_l: Mapping[str, float]

    @property
    def key(self) -> str:
        return f"{self.group}: {self.name}"


def cases() -> Iterator[Case]:
    """Give all cases, the same at every call."""
    yield from single_salts()
    for name, feed in FEEDS.items():
        for strength in _STRENGTHS:
            salts = {salt: strength * grams for salt, grams in feed.items()}
            for water in WATERS:
                group = "feeds" if water == "no water of its own" else "feeds in tap"
                told = f"{name} x{strength:g}, {water}"
                yield Case(group, told, _together(salts, WATERS[water]))
    for water in ("soft tap", "hard tap"):
        yield Case("waters", water, _together({}, WATERS[water]))
    yield from seeded_mixes(MIXES)
    yield from of_handbooks()


def of_handbooks() -> Iterator[Case]:
    """Give what handbooks print a conductivity of."""
    kcl = 0.01 / 1.0033
    yield Case("handbooks", "KCl 0.01 mol/kg", {"K": kcl, "Cl": kcl})
    sulphate = 5.01 / molar_mass_g_per_mol("(NH4)2SO4")
    ions = {"NH4": 2 * sulphate, "SO4": sulphate}
    yield Case("handbooks", "(NH4)2SO4 0.5 %", ions)


def single_salts() -> Iterator[Case]:
    for salt, ions in SALTS.items():
        if salt in UNASKED:
            continue
        for meq in MEQ_PER_L:
            if salt.startswith("CaSO4") and meq > GYPSUM_MOST_MEQ_PER_L:
                continue
            cations = sum(max(n * IONS[ion][0], 0) for ion, n in ions.items())
            moles = meq / 1000 / cations
            yield Case(
                "single salts",
                f"{salt} {meq:g} meq/L",
                {ion: n * moles for ion, n in ions.items()},
            )


def seeded_mixes(count: int) -> Iterator[Case]:
    """Give mixes of two to six salts, every third in soft and in hard tap water."""
    rng = random.Random(_SEED)  # noqa: S311 -- drawn the same each time, on purpose
    macro = sorted(
        salt
        for salt, ions in SALTS.items()
        if salt not in UNASKED and not {"Fe", "Mn", "Zn", "Cu"} & set(ions)
    )
    waters = tuple(WATERS.values())
    for number in range(count):
        chosen = rng.sample(macro, rng.randint(2, 6))
        weights = {salt: rng.random() for salt in chosen}
        grams_per_l = rng.uniform(0.1, 2.2)
        total = sum(weights.values())
        salts = {salt: grams_per_l * part / total for salt, part in weights.items()}
        ions = _together(salts, waters[number % 3])
        yield Case("seeded mixes", f"{number:03d}", ions)


def _together(
    salts_g_per_l: Mapping[str, float], water_mmol_per_l: Mapping[str, float]
) -> dict[str, float]:
    found = {ion: n / 1000 for ion, n in water_mmol_per_l.items()}
    for salt, grams in salts_g_per_l.items():
        for ion, n in SALTS[salt].items():
            moles = n * grams / molar_mass_g_per_mol(salt)
            found[ion] = found.get(ion, 0.0) + moles
    return found


class Phreeqc:
    """PHREEQC with one of its databases; ``OSError`` where it cannot be loaded."""

    def __init__(self, database: str) -> None:
        try:
            from phreeqpython import PhreeqPython  # noqa: PLC0415 -- only where asked

            self._program: Any = PhreeqPython(database=database)
        except (ImportError, AttributeError, NotImplementedError) as trouble:
            raise OSError(f"PHREEQC cannot be loaded: {trouble}") from trouble
        self._ammonium = "Amm" if database == "vitens.dat" else "N(-3)"

    def ec_us_per_cm(self, ions_mol_per_l: Mapping[str, float]) -> float:
        """Give the conductivity of a litre that holds these ions, at its own pH."""
        litres = 1.003
        ec = 0.0
        for _ in range(2):  # the second time with the volume that a kilogram makes
            ec, litres = self._solve(ions_mol_per_l, litres)
        return ec

    def _solve(
        self, ions: Mapping[str, float], litres_per_kg: float
    ) -> tuple[float, float]:
        totals: dict[str, float] = {}
        for ion, moles in ions.items():
            if ion in {"H", "OH"}:
                continue
            name = _TOTALS.get(ion, ion)
            name = self._ammonium if name == "Amm" else name
            totals[name] = totals.get(name, 0.0) + moles * litres_per_kg
        solution = self._program.add_solution(
            {"pH": "7 charge", "temp": 25, "units": "mol/kgw", **totals}
        )
        found = float(solution.sc), float(solution.volume)
        solution.forget()
        return found


@cache
def table() -> Mapping[str, Any]:
    """Give PHREEQC's committed answers."""
    found: Mapping[str, Any] = json.loads(TABLE.read_text("utf-8"))
    return found


def write_table() -> None:
    """Ask PHREEQC everything and keep its answers."""
    from importlib.metadata import version  # noqa: PLC0415 -- only when made anew

    program = Phreeqc(DATABASE)
    made = {
        "what": "conductivity at 25 °C in µS/cm, by PHREEQC",
        "engine": "PHREEQC 3.7.3-15968",
        "library": f"phreeqpython {version('phreeqpython')}",
        "database": DATABASE,
        "made_by": "python -m tests.domain.ec_cases --anew",
        "ec_us_per_cm": {
            case.key: round(program.ec_us_per_cm(case.ions_mol_per_l), 2)
            for case in cases()
        },
    }
    text = json.dumps(made, ensure_ascii=False, indent=0)
    TABLE.write_text(text + "\n", "utf-8")


def errors() -> dict[str, list[tuple[float, str]]]:
    """Give by group how far from PHREEQC each case is, the worst first."""
    answers = table()["ec_us_per_cm"]
    found: dict[str, list[tuple[float, str]]] = defaultdict(list)
    for case in cases():
        reference = answers[case.key]
        if case.group != "handbooks" and LEAST_US_PER_CM <= reference <= MOST_US_PER_CM:
            predicted = 1000 * conductivity_ms_per_cm(case.ions_mol_per_l)
            found[case.group].append((predicted / reference - 1, case.name))
    for rows in found.values():
        rows.sort(key=lambda row: -abs(row[0]))
    return found


def told(found: Mapping[str, list[tuple[float, str]]]) -> str:
    """Give the worst and the median error of each group, a line each."""
    lines = [
        f"{group}: {len(rows)} cases, median {median(abs(e) for e, _ in rows):.2%}, "
        "worst " + "; ".join(f"{error:+.2%} {name}" for error, name in rows[:5])
        for group, rows in found.items()
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    if "--anew" in sys.argv:
        write_table()
    sys.stdout.write(f"{told(errors())}\n")
