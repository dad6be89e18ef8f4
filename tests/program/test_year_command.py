"""A year in review by command."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pypdf
import pytest

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk


@pytest.fixture
def mine(growdesk: Growdesk, tmp_path: Path) -> Path:
    file = tmp_path / "plants.csv"
    file.write_text("tag,name\nA1,Vanda coerulea\n", "utf-8")
    growdesk("--collection", tmp_path / "mine", "import", file)
    return tmp_path / "mine"


def test_a_year_is_written(growdesk: Growdesk, mine: Path, tmp_path: Path) -> None:
    pdf = tmp_path / "year.pdf"
    base = ("--collection", mine, "year", "--pdf", pdf, "--paper", "A4")
    told = growdesk(*base, "--year", "2025")
    assert "Wrote the year in review, 2025-01-01 to 2025-12-31" in told.out, told.err
    text = pypdf.PdfReader(pdf).pages[0].extract_text()
    assert "The year 2025" in text
    assert "No bloom is on record for this year." in " ".join(text.split())
    later = growdesk(*base, "--until", "2025-06-30")
    assert "2024-07-01 to 2025-06-30" in later.out


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--year", "soon"), "--year: 'soon' is no year"),
        (("--year", "1066"), "--year: 1066 is no year to look back on"),
        (("--until", "2099-01-01"), "--until: '2099-01-01' is still to come"),
        (("--year", "2025", "--until", "2025-01-01"), "not allowed with"),
    ],
)
def test_slips_are_told_in_a_line(
    growdesk: Growdesk, mine: Path, tmp_path: Path, more: tuple[str, ...], said: str
) -> None:
    pdf = tmp_path / "year.pdf"
    refusal = growdesk("--collection", mine, "year", "--pdf", pdf, *more).refusal
    assert said in refusal
    assert not pdf.exists()
