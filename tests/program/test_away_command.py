"""The away sheet by command."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING

import pypdf

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk


def test_the_away_sheet_is_written(growdesk: Growdesk, tmp_path: Path) -> None:
    pdf = tmp_path / "away.pdf"
    first = datetime.now(tz=UTC).date() + timedelta(days=7)
    last = first + timedelta(days=13)
    days = ("--from", first.isoformat(), "--until", last.isoformat())
    base = ("--pdf", pdf, "--paper", "A4", "--call", "Anna")
    file = tmp_path / "plants.csv"
    file.write_text("tag,name\nA1,Vanda coerulea\n", "utf-8")
    growdesk("--collection", tmp_path / "mine", "import", file)
    mine = ("--collection", tmp_path / "mine", "away")
    told = growdesk(*mine, *days, *base)
    assert "Wrote the away sheet of 4 watering days" in told.out, told.err
    text = " ".join(pypdf.PdfReader(pdf).pages[0].extract_text().split())
    assert "Call: Anna" in text
    pdf.unlink()
    gone = growdesk(*mine, "--from", "2020-01-01", "--until", "2099-01-01", *base)
    assert "--from: '2020-01-01' has gone by" in gone.refusal
    place = growdesk(*mine, *days, *base, "--place", "Attic")
    assert "--place: 'Attic' has no plants" in place.refusal
    assert not pdf.exists()
