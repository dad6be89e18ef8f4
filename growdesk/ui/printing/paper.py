"""Which paper: the printer's own, else A4 or Letter by country.

The measuring system is no guide (Canada measures in metres and prints on Letter), so
the countries are named. Knows no layout.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QLocale
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinterInfo

from growdesk.domain.errors import InputError
from growdesk.domain.speech import tr
from growdesk.ui.preferences import kept_regional

if TYPE_CHECKING:
    from collections.abc import Mapping

A4 = QPageSize.PageSizeId.A4
LETTER = QPageSize.PageSizeId.Letter

_NAMED: Mapping[str, QPageSize.PageSizeId] = {"a4": A4, "letter": LETTER}

# CLDR supplemental data, paperSize type "US-Letter".
_LETTER_TERRITORIES = frozenset(
    {
        QLocale.Country.Belize,
        QLocale.Country.Canada,
        QLocale.Country.Chile,
        QLocale.Country.Colombia,
        QLocale.Country.CostaRica,
        QLocale.Country.ElSalvador,
        QLocale.Country.Guatemala,
        QLocale.Country.Mexico,
        QLocale.Country.Nicaragua,
        QLocale.Country.Panama,
        QLocale.Country.Philippines,
        QLocale.Country.PuertoRico,
        QLocale.Country.UnitedStates,
        QLocale.Country.Venezuela,
    }
)


def paper_of(locale: QLocale) -> QPageSize.PageSizeId:
    """Give the paper people print on in a country."""
    return LETTER if locale.territory() in _LETTER_TERRITORIES else A4


def paper_given() -> QPageSize.PageSizeId:
    """Give the printer's own paper, else the country's."""
    of_printer = QPrinterInfo.defaultPrinter().defaultPageSize().id()
    known = of_printer in (A4, LETTER)
    return of_printer if known else paper_of(QLocale.system())


def name_of(paper: QPageSize.PageSizeId) -> str:
    """Give a paper's name: A4 or Letter."""
    return "Letter" if paper == LETTER else "A4"


def choose_paper(name: str | None) -> QPageSize.PageSizeId:
    """Give the paper asked for, else the one preferred, else what is given here."""
    if name is None:
        return _NAMED.get(kept_regional().paper) or paper_given()
    found = _NAMED.get(name.strip().casefold())
    if found is None:
        raise InputError("paper", name, tr("is not known"), tr("Give A4 or Letter."))
    return found
