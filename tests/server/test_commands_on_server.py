"""Commands say of a collection on a server what they say of the same in a folder."""

from __future__ import annotations

import shutil
from datetime import date
from typing import TYPE_CHECKING

import pytest

from growdesk import app
from growdesk.services.carrying_over import carry_over
from growdesk.services.clock import SystemClock
from growdesk.services.demo import lay_demo
from growdesk.services.servers import find_server

if TYPE_CHECKING:
    from pathlib import Path

ON = "2026-03-28"
PLANTS = "tag,name,kind\nX1,Cattleya walkeriana,cattleya\nX2,Paphiopedilum,\n"
ASKED = """
decide --on {on} --json
decide --on {on} --tag A1
looks --on {on} --json
calendar --on {on} --json
plan --on {on} --json
shelf --json
sheet --week {on} --pdf {out}/sheet.pdf
look-list --on {on} --pdf {out}/list.pdf
tags --pdf {out}/tags.pdf
import {at}/plants.csv
decide --on {on} --json --tag X1
export {out}/tables
decide --tag ZZ9
"""


@pytest.fixture(autouse=True)
def machine(monkeypatch: pytest.MonkeyPatch, tmp_path: Path, qapp: object) -> None:
    """Let what a machine remembers lie in a folder of the test's own."""
    del qapp  # which has to come before the sheets' own application
    for name in ("CONFIG", "DATA", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(tmp_path / name.lower()))


def files_below(folder: Path) -> dict[str, bytes]:
    """Give the files below a folder; of a PDF only that it is one."""
    return {
        str(path.relative_to(folder)): (
            b"%PDF" if path.suffix == ".pdf" else path.read_bytes()
        )
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_commands_say_the_same_of_a_server_as_of_a_folder(
    address: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, shared = tmp_path / "here", tmp_path / "shared"
    lay_demo(here, date.fromisoformat(ON))
    shared.mkdir()
    where = find_server(address, str(shared))
    carry_over(here, where, SystemClock())
    (tmp_path / "plants.csv").write_text(PLANTS)
    told: list[list[tuple[str, int, str, str]]] = []
    written = []
    named = {str(here): str(here), where.address.url: where.address.called}
    for place, called in named.items():
        out = tmp_path / "out"
        out.mkdir()
        said = []
        for line in ASKED.strip().format(on=ON, out=out, at=tmp_path).splitlines():
            photos = () if place == str(here) else ("--photos", str(shared))
            code = app.main(["--collection", place, *photos, *line.split()])
            capture = capsys.readouterr()
            said.append((line, code, capture.out.replace(called, "it"), capture.err))
        told.append(said)
        written.append(files_below(out))
        shutil.rmtree(out)
    for one, two in zip(*told, strict=True):
        assert one == two
    assert written[0].keys() == written[1].keys()
    for name, content in written[0].items():
        assert written[1][name] == content, name
    assert len(written[0]) > 50
    refused = [line for line, code, _, _ in told[0] if code]
    assert refused == ["decide --tag ZZ9"]
