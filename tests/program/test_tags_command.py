"""Tags as a PDF by command."""

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
    file.write_text("tag,name\nA1,Vanda coerulea\nB2,Phal. amabilis\n", "utf-8")
    growdesk("--collection", tmp_path / "mine", "import", file)
    return tmp_path / "mine"


def test_tags_are_written(growdesk: Growdesk, mine: Path, tmp_path: Path) -> None:
    pdf = tmp_path / "tags.pdf"
    base = ("--collection", mine, "tags", "--pdf", pdf)
    told = growdesk(*base, "--layout", "A4 3x8 70x37", "--first", 3)
    assert told.code == 0, told.err
    assert "Wrote 4 labels on 1 page: 3 × 8, 70 × 37 mm on A4" in told.out
    text = pypdf.PdfReader(pdf).pages[0].extract_text().split()
    assert text.count("A1") == text.count("B2") == 2
    growdesk(*base, "--layout", "strip 90x12", "--tag", "b2", "--copies", 1)
    reader = pypdf.PdfReader(pdf)
    assert len(reader.pages) == 1
    assert "amabilis" in reader.pages[0].extract_text()


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (("--tag", "Q9"), "--tag: 'Q9' is no plant's tag"),
        (("--layout", "A4"), "--layout: 'A4' is no layout"),
        (("--layout", "strip 90x12", "--first", "2"), "--first: 2 is no label"),
        (("--copies", "0"), "--copies: 0 is no number of copies"),
        (("--copies", "two"), "--copies: 'two' is not a whole number"),
        (("--with", "price"), "--with: 'price' is no line of a tag"),
        (("--since", "2099-01-01"), "would hold no tag"),
        (("--place", "Attic"), "--place: 'Attic' has no plants"),
    ],
)
def test_slips_are_told_in_a_line(
    growdesk: Growdesk, mine: Path, tmp_path: Path, more: tuple[str, ...], said: str
) -> None:
    pdf = tmp_path / "tags.pdf"
    refusal = growdesk("--collection", mine, "tags", "--pdf", pdf, *more).refusal
    assert said in refusal
    assert not pdf.exists()
