"""The wheel holds what the program needs, and nothing else; built here, in process."""

from __future__ import annotations

import re
from email.parser import HeaderParser
from pathlib import Path, PurePosixPath
from zipfile import ZipFile

import pytest

from growdesk import APPLICATION_ID, __version__

ROOT = Path(__file__).parents[2]
# A source beside what is made of it, pictures of the README, and building tools.
LEFT_OUT = ("*.po", "*.pot", "screenshots/*", "packaging/*")
MOST_KB = 4_000


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> ZipFile:
    """Build without a network; hatchling comes with the extra ``test``."""
    builders = pytest.importorskip(
        "hatchling.builders.wheel",
        reason="hatchling is not installed; the extra test brings it",
    )
    builder = builders.WheelBuilder(str(ROOT))
    folder = tmp_path_factory.mktemp("wheel")
    (built,) = builder.build(directory=str(folder), versions=["standard"])
    return ZipFile(built)


def names(wheel: ZipFile, folder: str) -> set[str]:
    return {
        name.removeprefix(f"{folder}/")
        for name in wheel.namelist()
        if name.startswith(f"{folder}/")
    }


def shipped(folder: str, *left_out: str) -> set[str]:
    root = ROOT / folder
    paths = (
        PurePosixPath(path.relative_to(root).as_posix())
        for path in root.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    )
    return {
        str(path) for path in paths if not any(path.match(sort) for sort in left_out)
    }


def test_all_modules_and_no_others(wheel: ZipFile) -> None:
    modules = {name for name in wheel.namelist() if name.endswith(".py")}
    assert modules == {f"growdesk/{name}" for name in shipped("growdesk")}


def test_all_resources_that_are_read(wheel: ZipFile) -> None:
    assert names(wheel, "growdesk/resources") == shipped("resources", *LEFT_OUT)


def test_the_demo_without_its_makers(wheel: ZipFile) -> None:
    assert names(wheel, "growdesk/demo") == shipped("demo", "*.py")


def test_nothing_else(wheel: ZipFile) -> None:
    tops = {name.partition("/")[0] for name in wheel.namelist()}
    label = f"growdesk-{__version__}"
    assert tops == {"growdesk", f"{label}.data", f"{label}.dist-info"}
    kilobytes = sum(entry.compress_size for entry in wheel.infolist()) / 1000
    assert kilobytes < MOST_KB


def test_menu_entry_and_icons_where_a_system_looks(wheel: ZipFile) -> None:
    share = names(wheel, f"growdesk-{__version__}.data/data/share")
    assert share == shipped("resources/linux/share")
    assert f"applications/{APPLICATION_ID}.desktop" in share


def test_its_words_about_itself(wheel: ZipFile) -> None:
    folder = f"growdesk-{__version__}.dist-info"
    about = HeaderParser().parsestr(wheel.read(f"{folder}/METADATA").decode())
    assert (about["Name"], about["Version"]) == ("growdesk", __version__)
    needed = {
        re.split(r"[^A-Za-z0-9_-]", line)[0]
        for line in about.get_all("Requires-Dist", [])
        if "extra ==" not in line
    }
    assert "PySide6-Essentials".lower() in {name.lower() for name in needed}
    assert not {"pytest", "pyinstaller", "hatchling", "build"} & needed
    started = wheel.read(f"{folder}/entry_points.txt").decode()
    assert "[console_scripts]\ngrowdesk = growdesk.app:main" in started
    assert "[gui_scripts]\ngrowdesk-window = growdesk.app:main" in started
