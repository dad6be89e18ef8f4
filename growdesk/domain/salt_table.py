"""Common single salts: what they are called and are for; what they hold is reckoned.

Names, grades, uses and cautions are rows of ``salts.csv``. The composition never is: it
follows from the formula and the atomic masses.
"""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING, Final

from msgspec import Struct

from growdesk.domain.analysis import Analysis
from growdesk.domain.chemistry import (
    ATOMIC_MASS_G_PER_MOL,
    ELEMENTS,
    as_oxide,
    counts,
    mass_fraction,
    molar_mass_g_per_mol,
)
from growdesk.domain.errors import InputError
from growdesk.domain.salts import SALTS
from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from collections.abc import Mapping

UREA: Final = "CO(NH2)2"
_UNDIGESTED: Final = frozenset({"C", "H", "O"})


class Salt(Struct, frozen=True):
    """One salt: its names, the usual first, and what a label of it usually says.

    ``use`` says what growers take it for. Names, use and caution stand in English, as
    shipped; ``tr`` says them.
    """

    formula: str
    names: tuple[str, ...]
    label: str
    use: str
    caution: str

    @property
    def called(self) -> tuple[str, ...]:
        """Give its names as they are said here, the usual first."""
        return _parts(tr("; ".join(self.names)))

    @property
    def name(self) -> str:
        """Give the usual name as it is said here."""
        return self.called[0]


_COLUMNS: Final = Salt.__struct_fields__


def parse_salt_table(text: str) -> tuple[Salt, ...]:
    """Give the salts from the text of ``salts.csv``, in its order.

    A bad row is an ``InputError`` that names the row and the column.
    """
    found: dict[str, Salt] = {}
    for number, row in enumerate(csv.DictReader(io.StringIO(text)), 2):
        place = tr("salts.csv, row {number}").format(number=number)
        if tuple(row) != _COLUMNS or None in row.values():
            hint = tr("The columns are {list}.").format(list=", ".join(_COLUMNS))
            raise InputError(place, ", ".join(map(str, row)), tr("does not fit"), hint)
        salt = _salt(place, row)
        if salt.formula in found:
            raise InputError(f"{place}, formula", salt.formula, tr("is given twice"))
        found[salt.formula] = salt
    return tuple(found.values())


def analysis_of(formula: str) -> Analysis:
    """Give what a pure salt would guarantee on its label, from its atoms."""
    percent = {
        element: 100 * mass_fraction(formula, element)
        for element in ELEMENTS
        if element in counts(formula)
    }
    forms = salt_forms_percent(formula)
    return Analysis(
        n_percent=percent.pop("N", 0.0),
        p2o5_percent=as_oxide("P", percent.pop("P", 0.0), "P2O5"),
        k2o_percent=as_oxide("K", percent.pop("K", 0.0), "K2O"),
        others=tuple(percent.items()),
        nitrate_n_percent=forms.get("nitrate"),
        ammonium_n_percent=forms.get("ammonium"),
        urea_n_percent=forms.get("urea"),
    )


def salt_forms_percent(formula: str) -> dict[str, float]:
    """Give the per cent of nitrate, ammonium and urea nitrogen in a pure salt.

    None of them where the salt holds no nitrogen or its ions are not known.
    """
    if formula == UREA:
        return {"urea": 100 * mass_fraction(formula, "N")}
    ions: Mapping[str, int] = SALTS.get(formula, {})
    each = 100 * ATOMIC_MASS_G_PER_MOL["N"] / molar_mass_g_per_mol(formula)
    found = {"nitrate": ions.get("NO3", 0), "ammonium": ions.get("NH4", 0)}
    return {form: count * each for form, count in found.items() if count}


def analysis_text_of(formula: str) -> str:
    """Give a salt's analysis as it is typed in the tin form, to four digits.

    ``KNO3`` gives ``13.85-0-46.58 + 13.85 nitrate-N``.
    """
    analysis = analysis_of(formula)
    head = "-".join(f"{percent:.4g}" for _, percent in analysis.printed()[:3])
    rest = [f"{percent:.4g} {name}" for name, percent in analysis.others]
    forms = analysis.nitrogen_forms_percent()
    rest += [f"{percent:.4g} {form}-N" for form, percent in forms.items()]
    return " + ".join((head, *rest))


def _parts(names: str) -> tuple[str, ...]:
    return tuple(name.strip() for name in names.split(";"))


def _salt(place: str, row: Mapping[str, str]) -> Salt:
    for column in _COLUMNS:
        if not row[column].strip() and column != "caution":
            raise InputError(f"{place}, {column}", "", tr("is missing"))
    formula = row["formula"]
    if not set(counts(formula)) - _UNDIGESTED:
        raise InputError(f"{place}, formula", formula, tr("holds nothing that feeds"))
    names = _parts(row["names"])
    rest = {column: row[column] for column in _COLUMNS[2:]}
    return Salt(formula, names, **rest)
