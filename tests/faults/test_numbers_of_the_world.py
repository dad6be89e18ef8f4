"""Numbers as seven countries write them: read right or asked about, never by 1 000 off.

How a country writes a number is taken from the CLDR, by babel; the program reads it in
that country's manner and in English alike.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from babel.numbers import format_decimal, get_decimal_symbol

from growdesk.domain import units
from growdesk.domain.errors import InputError
from growdesk.domain.speech import Manner, speak
from growdesk.services import intake_cells
from growdesk.services.csv_form import Table
from growdesk.services.intake_fields import FIELDS, Sort
from growdesk.services.intake_survey import of_table
from growdesk.ui import typed

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

COUNTRIES = ("en_US", "de_DE", "de_CH", "fr_FR", "sv_SE", "pt_BR", "ar_EG")
NUMBERS = (
    *(0.5, 1.5, 1.234, 12.25, 0.125, 7.0),
    *(1000.0, 1234.0, 1234.5, 12_345.678, 100_000.0, 1_234_567.0),
)


@pytest.fixture(autouse=True)
def in_english_after() -> Iterator[None]:
    yield
    speak()


def volume(text: str, _decimal: str) -> float:
    """Read what is typed into a line with its unit."""
    return units.parse_volume_l(f"{text} mL") * 1000


def bare(text: str, _decimal: str) -> float:
    """Read what is typed into a line of a bare number."""
    read = typed.number(text, "share", "1.5")
    assert read is not None
    return read


def cell(text: str, decimal: str) -> float:
    """Read the only number of a table's column, as a spreadsheet wrote it."""
    delimiter = ";" if decimal == "," else ","
    rows = ((2, ("A1", text)), (3, ("A2", text)))
    found = of_table(Table(("tag", "volume_l"), rows, (), "utf-8", delimiter), "t.csv")
    field = FIELDS[Sort.PLANTS]["volume_l"]
    read = intake_cells.reader(found.columns[1], field, found.choices)(text)
    assert isinstance(read, float)
    return read


READERS: tuple[Callable[[str, str], float], ...] = (volume, bare, cell)


@pytest.mark.parametrize("reader", READERS)
def test_a_number_is_read_right_or_asked_about(
    reader: Callable[[str, str], float], told: Callable[[str], None]
) -> None:
    right, asked, wrong = 0, 0, []
    for country in COUNTRIES:
        decimal = get_decimal_symbol(country)
        for number in NUMBERS:
            text = format_decimal(number, "#,##0.###", locale=country)
            for manner in (Manner(), Manner(decimal=decimal)):
                speak(manner)
                try:
                    read = reader(text, decimal)
                except InputError:
                    asked += 1
                    continue
                if read == pytest.approx(number, rel=1e-9):
                    right += 1
                else:
                    wrong.append((country, manner.decimal, text, read))
    assert wrong == []
    assert right >= 60
    told(
        f"F14 numbers: {len(COUNTRIES) * len(NUMBERS)} in 2 manners by"
        f" {reader.__name__}, {right} read right, {asked} asked about, 0 wrong"
    )
