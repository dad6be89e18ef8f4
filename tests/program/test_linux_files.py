"""What Linux desktops and software shops read of us keeps to their specifications."""

from __future__ import annotations

import importlib.util
import io
import re
import shutil
import subprocess
from pathlib import Path
from typing import TYPE_CHECKING, Any
from xml.etree import ElementTree as ET

import pytest
from PIL import Image, ImageChops

from growdesk import APPLICATION_ID, __version__, assets
from tests.program.test_desktop_entry import keys_of

if TYPE_CHECKING:
    from collections.abc import Sequence

SHARE = assets.path("linux/share")
ENTRY = SHARE / "applications" / f"{APPLICATION_ID}.desktop"
METAINFO = SHARE / "metainfo" / f"{APPLICATION_ID}.metainfo.xml"
HICOLOR = SHARE / "icons" / "hicolor"
DRAWN = assets.path("icons/growdesk.svg")
PACKAGING = Path(__file__).parents[2] / "resources" / "packaging"


def metainfo() -> ET.Element:
    return ET.parse(METAINFO).getroot()  # noqa: S314 -- our own file


def test_the_name_is_one_a_desktop_takes() -> None:
    """Desktop Entry Specification 1.5, section 2: a D-Bus name, reverse DNS first."""
    element = r"[A-Za-z_][A-Za-z0-9_]*"
    assert re.fullmatch(rf"{element}(\.{element}){{2,}}", APPLICATION_ID)


def test_the_entry_has_its_keys() -> None:
    """Desktop Entry Specification 1.5, table 2; Desktop Menu Specification 1.1, A."""
    keys = keys_of(ENTRY.read_text(encoding="utf-8"))
    assert keys["Type"] == "Application"
    assert keys["Name"] == "growdesk"
    assert keys["Exec"] == keys["TryExec"] == "growdesk-window"
    assert keys["Icon"] == APPLICATION_ID
    assert keys["Terminal"] == "false"
    assert keys["Categories"] == "Utility;"
    for key in ("GenericName", "Comment", "Keywords"):
        assert keys[key]
        assert keys[f"{key}[de]"] != keys[key]


def test_the_metainfo_has_its_tags() -> None:
    """AppStream 1.0, sections 2.1 (generic) and 2.2 (desktop applications)."""
    root = metainfo()
    assert (root.tag, root.get("type")) == ("component", "desktop-application")
    assert root.findtext("id") == APPLICATION_ID
    assert root.findtext("metadata_license") == "CC0-1.0"
    assert root.findtext("name") == "growdesk"
    assert root.findtext("launchable") == ENTRY.name
    summary = root.findtext("summary") or ""
    assert summary
    assert not summary.endswith(".")
    assert root.findall("description/p")
    assert root.find("content_rating") is not None
    binaries = {tag.text for tag in root.findall("provides/binary")}
    assert binaries == {"growdesk", "growdesk-window"}


def test_the_newest_release_is_this_version() -> None:
    newest = metainfo().find("releases/release")
    assert newest is not None
    assert newest.get("version") == __version__
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", newest.get("date", ""))


@pytest.mark.parametrize(
    ("program", "arguments"),
    [
        ("desktop-file-validate", ("--no-warn-deprecated", str(ENTRY))),
        ("appstreamcli", ("validate", "--no-net", "--pedantic", str(METAINFO))),
    ],
)
def test_the_validators_of_the_trade_agree(
    program: str, arguments: Sequence[str]
) -> None:
    found = shutil.which(program)
    if found is None:
        pytest.skip(f"{program} is not installed; .ci/run setup installs it")
    answer = subprocess.run(
        [found, *arguments], capture_output=True, text=True, check=False, timeout=60
    )
    assert answer.returncode == 0, answer.stdout + answer.stderr


def test_the_validators_would_object(tmp_path: Path) -> None:
    """Left out the summary, and named a category that does not exist."""
    entry, shop = tmp_path / ENTRY.name, tmp_path / METAINFO.name
    text = ENTRY.read_text(encoding="utf-8").replace("Utility;", "Orchids;")
    entry.write_text(text, encoding="utf-8")
    text = METAINFO.read_text(encoding="utf-8")
    shop.write_text(re.sub("<summary.*</summary>", "", text), encoding="utf-8")
    programs = [shutil.which("desktop-file-validate"), shutil.which("appstreamcli")]
    if None in programs:
        pytest.skip("the validators are not installed; .ci/run setup installs them")
    for line in ([programs[0], entry], [programs[1], "validate", "--no-net", shop]):
        answer = subprocess.run(
            [str(part) for part in line], capture_output=True, check=False, timeout=60
        )
        assert answer.returncode != 0


def make_icons() -> Any:
    path = PACKAGING / "make_icons.py"
    spec = importlib.util.spec_from_file_location("make_icons", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("size", [48, 64, 128, 256])
def test_the_icons_are_the_drawn_one(size: int) -> None:
    """Icon Theme Specification 0.13: at least 48 pixels, in hicolor."""
    path = HICOLOR / f"{size}x{size}" / "apps" / f"{APPLICATION_ID}.png"
    with Image.open(path) as shipped:
        assert shipped.size == (size, size)
        difference = ImageChops.difference(
            shipped.convert("RGBA"), make_icons().drawn(size)
        )
    # Another Qt may smooth an edge a little otherwise.
    assert max(difference.tobytes()) < 64


def test_the_scalable_icon_is_the_drawn_one() -> None:
    scalable = HICOLOR / "scalable" / "apps" / f"{APPLICATION_ID}.svg"
    assert scalable.read_bytes() == DRAWN.read_bytes()


def test_icons_for_the_other_systems(tmp_path: Path) -> None:
    made = make_icons()
    made.write_ico(tmp_path / "a.ico")
    made.write_icns(tmp_path / "a.icns")
    with Image.open(io.BytesIO((tmp_path / "a.ico").read_bytes())) as windows:
        sizes = {(size, size) for size in (16, 24, 32, 48, 64, 128, 256)}
        assert windows.info["sizes"] == sizes
    with Image.open(io.BytesIO((tmp_path / "a.icns").read_bytes())) as mac:
        assert max(mac.info["sizes"]) == (512, 512, 2)
