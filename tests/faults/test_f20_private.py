"""F20: a whole day in the real program opens no connection and gives nothing away."""

from __future__ import annotations

import ast
import io
import json
import os
import re
import shutil
import subprocess
import sys
import zipfile
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from PIL import Image
from pypdf import PdfReader

import growdesk
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

PACKAGE = Path(growdesk.__file__).parent
MODULES = sorted(PACKAGE.rglob("*.py"))

# -- what the code may load ----------------------------------------------------------

NETWORK = re.compile(
    r"(socket|socketserver|ssl|http|urllib\.(request|error)|asyncio|ftplib|smtplib|"
    r"poplib|imaplib|nntplib|telnetlib|xmlrpc|webbrowser|requests|urllib3|httpx|"
    r"aiohttp|multiprocessing|PySide6\.Qt(Network|WebEngine|WebSockets)\w*)(\.|$)"
)
LOCAL_ONLY = {"growdesk/ui/instance.py": {"QLocalServer", "QLocalSocket"}}
"""Where one name of a network module may stand: a second start raises the first."""


def imported(tree: ast.AST) -> Iterator[tuple[str, str]]:
    """Give every module that is loaded, with the name taken from it."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((each.name, "") for each in node.names)
        elif isinstance(node, ast.ImportFrom):
            for each in node.names:
                yield node.module or "", each.name
                yield f"{node.module}.{each.name}", each.name
        elif isinstance(node, ast.Call) and node.args:
            named = node.args[0]
            if "import_module" in ast.unparse(node.func) and isinstance(
                named, ast.Constant
            ):
                yield str(named.value), ""


def test_no_module_loads_what_opens_connections(told: Callable[[str], None]) -> None:
    wrong = []
    for path in MODULES:
        name = path.relative_to(PACKAGE.parent).as_posix()
        for module, taken in imported(tree_of(path)):
            allowed = taken in LOCAL_ONLY.get(name, set())
            if NETWORK.match(module) and not allowed:
                wrong.append(f"{name}: {module} {taken}")
    assert wrong == []
    told(f"F20 modules read for network code: {len(MODULES)}, 0 load any")


@pytest.mark.parametrize(
    "line",
    [
        "import socket",
        "from urllib import request",
        "import urllib.request as r",
        "from http.client import HTTPConnection",
        "import asyncio.streams",
        "from PySide6 import QtNetwork",
        "from PySide6.QtNetwork import QNetworkAccessManager",
        "import importlib\nimportlib.import_module('smtplib')",
    ],
)
def test_the_look_for_network_code_finds_it(line: str) -> None:
    assert any(NETWORK.match(module) for module, _name in imported(ast.parse(line)))


@cache
def tree_of(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def calls(name: str) -> list[tuple[str, ast.Call]]:
    return [
        (path.name, node)
        for path in MODULES
        for node in (ast.walk(tree_of(path)) if name in path.read_text("utf-8") else ())
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr == name
    ]


def test_only_folders_of_this_machine_are_opened_outside() -> None:
    opened = calls("openUrl")
    assert opened
    for file, call in opened:
        assert "QUrl.fromLocalFile(" in ast.unparse(call.args[0]), file
    assert not calls("setOpenExternalLinks")


def test_every_page_of_text_leaves_links_to_us_and_loads_nothing() -> None:
    """QTextBrowser follows links and loads files unless told otherwise."""
    for path in MODULES:
        text = path.read_text(encoding="utf-8")
        assert "QTextBrowser()" not in text, path
        if "PageText()" in text:
            assert "setOpenLinks(False)" in text, path


# -- a day ---------------------------------------------------------------------------

LATITUDE = b"47,22.5N"
XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF><rdf:Description '
    b'exif:GPSLatitude="47,22.5N" exif:GPSLongitude="8,30.5E"/></rdf:RDF></x:xmpmeta>'
)
CITY = b"Nowhenzq"
NOTE = b"NOTEOFTHEMAKERzq"
MARKS = (LATITUDE, b"GPSLatitude", CITY, NOTE, b"8,30.5E")
ACCOUNT = "zqaccountzq"
STRACE = shutil.which("strace")


def photo_with_a_place(path: Path, colour: str) -> Path:
    """Write a picture that tells its place by EXIF, XMP and IPTC."""
    exif = Image.Exif()
    exif[0x010F] = "Nobody"
    exif.get_ifd(0x8769)[0x927C] = NOTE
    exif.get_ifd(0x8825).update({1: "N", 2: (47.0, 22.0, 30.0), 3: "E", 4: (8, 30, 1)})
    out = io.BytesIO()
    Image.new("RGB", (320, 240), colour).save(out, "JPEG", exif=exif, xmp=XMP)
    content = out.getvalue()
    record = b"\x1c\x02\x5a" + len(CITY).to_bytes(2, "big") + CITY
    block = b"8BIM\x04\x04\0\0" + len(record).to_bytes(4, "big") + record
    block += b"\0" * (len(record) % 2)
    marked = b"Photoshop 3.0\0" + block
    segment = b"\xff\xed" + (len(marked) + 2).to_bytes(2, "big") + marked
    path.write_bytes(content[:2] + segment + content[2:])
    return path


def test_the_photo_of_these_tests_tells_its_place_in_every_way(tmp_path: Path) -> None:
    path = photo_with_a_place(tmp_path / "red.jpg", "red")
    assert all(mark in path.read_bytes() for mark in MARKS)
    with Image.open(path) as image:
        assert image.getexif().get_ifd(0x8825)


@dataclass(frozen=True)
class Done:
    """A day that is over: what it did, wrote and asked the system for."""

    told: dict[str, Any]
    outputs: Path
    collection: Path
    home: Path
    log: str
    trace: str | None


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> Done:
    root = tmp_path_factory.mktemp("zqdayzq")
    home, outputs, folder = root / "home", root / "outputs", root / "collection"
    home.mkdir()
    outputs.mkdir()
    lay_demo(folder, datetime.now(tz=UTC).date())
    made = Collection.open(folder)
    for number, colour in enumerate(("red", "blue", "green")):
        photo = photo_with_a_place(root / f"{colour}.jpg", colour)
        plant_id = made.day.view(None).lines[number].plant_id
        made.photos.add(plant_id, [photo])
    made.close()
    trace = root / "trace.txt"
    traced = [STRACE, "-f", "--seccomp-bpf", "-e", "trace=network", "-o", str(trace)]
    ended = subprocess.run(
        [
            *(part for part in traced if STRACE and part),
            *(sys.executable, "-m", "tests.faults.private_day"),
            *(str(folder), str(outputs)),
        ],
        cwd=PACKAGE.parent,
        env={
            **{k: v for k, v in os.environ.items() if not k.startswith("XDG_")},
            "HOME": str(home),
            "QT_QPA_PLATFORM": "offscreen",
            **dict.fromkeys(("USER", "LOGNAME", "LNAME", "USERNAME"), ACCOUNT),
            "PYTHONPATH": str(PACKAGE.parent),
        },
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert ended.returncode == 0, ended.stderr[-3_000:]
    log = home / ".local" / "state" / "growdesk" / "log" / "growdesk.log"
    return Done(
        json.loads(ended.stdout.splitlines()[-1]),
        outputs,
        folder,
        home,
        log.read_text(encoding="utf-8"),
        trace.read_text(encoding="utf-8") if trace.exists() else None,
    )


def test_the_day_was_a_whole_one(day: Done) -> None:
    assert len(day.told["asked"]) >= 80
    assert set(day.told["codes"].values()) == {0}
    assert " ERROR " not in day.log, day.log


def test_nobody_asked_for_a_socket_or_the_web(
    day: Done, told: Callable[[str], None]
) -> None:
    assert day.told["tried"] == []
    assert day.told["opened"] == []
    told(
        f"F20 day: {len(day.told['asked'])} commands, {len(day.told['codes'])} of the "
        "command line, 0 sockets asked for by Python"
    )


LOCAL = re.compile(r"AF_UNIX|AF_LOCAL")
PRINTING = re.compile(r"htons\(631\).*(127\.0\.0\.1|\"::1\")")
"""Where Qt asks the print service of this very machine, for the printer's paper: by
AF_UNIX where such a service runs; here it finds nobody."""


@pytest.mark.skipif(not STRACE, reason="strace is not installed")
def test_the_system_saw_no_connection(day: Done, told: Callable[[str], None]) -> None:
    assert day.trace is not None
    if "+++ exited with 0 +++" not in day.trace:
        pytest.skip("strace may not trace here")
    seen = re.findall(r"^\d+ +(\w+\(.*)$", day.trace, re.MULTILINE)
    reached = [line for line in seen if re.match(r"(connect|sendto|bind)\(", line)]
    local = [line for line in reached if LOCAL.search(line) or "AF_" not in line]
    printing = [line for line in reached if PRINTING.search(line)]
    assert sorted(local + printing) == sorted(reached)
    assert local
    asked = {line for line in seen if line.startswith("socket(")}
    assert all(re.match(r"socket\(AF_(UNIX|INET6?),", line) for line in asked)
    told(
        f"F20 strace: {len(reached)} connections asked for, {len(local)} by AF_UNIX, "
        f"{len(printing)} to this machine's print service, 0 elsewhere"
    )


# -- what went out -------------------------------------------------------------------


def outputs(day: Done) -> list[Path]:
    """Give every file that went out.

    A backup is the grower's own and is none; what a command says on the screen neither.
    """
    found = [path for path in day.outputs.rglob("*") if path.is_file()]
    screen = day.outputs / "answers.txt"
    return [path for path in found if path.suffix != ".zip" and path != screen]


def insides(path: Path) -> Iterator[bytes]:
    """Give what a file holds, its packed parts unpacked."""
    yield path.read_bytes()
    if path.suffix != ".pdf":
        return
    reader = PdfReader(path)
    yield repr(dict(reader.metadata or {})).encode()
    for number in range(1, len(reader.xref_objStm) + len(reader.xref.get(0, {})) + 1):
        held = reader.get_object(number)
        if held is not None and hasattr(held, "get_data"):
            try:
                yield held.get_data()
            except Exception:  # noqa: BLE001, S112 -- an image in a form of its own
                continue
    for page in reader.pages:
        yield page.extract_text().encode()


def test_no_file_that_goes_out_tells_a_place_or_whose_it_is(
    day: Done, told: Callable[[str], None]
) -> None:
    folders = (str(day.home), str(day.collection), "zqdayzq", ACCOUNT)
    secrets = (*MARKS, *(folder.encode() for folder in folders))
    files = outputs(day)
    sorts = {path.suffix for path in files}
    assert sorts >= {".pdf", ".svg", ".png", ".csv", ".ics", ".txt", ".json", ".jpg"}
    wrong = [
        f"{path.relative_to(day.outputs)}: {secret!r}"
        for path in files
        for inside in insides(path)
        for secret in secrets
        if secret in inside
    ]
    assert wrong == []
    told(
        f"F20 ways out: {len(files)} files of {len(sorts)} sorts read, 0 tell a place, "
        "an account or a folder"
    )


def test_pictures_that_go_out_hold_no_place_by_a_reader_of_their_own(day: Done) -> None:
    pictures = [p for p in outputs(day) if p.suffix in {".jpg", ".png", ".jpeg"}]
    read = 0
    for path in pictures:
        with Image.open(path) as image:
            exif = image.getexif()
            assert dict(exif.get_ifd(0x8825)) == {}, path
            assert 0x927C not in exif.get_ifd(0x8769), path
            assert "xmp" not in image.info or b"GPS" not in image.info["xmp"], path
            read += 1
    assert read >= 5


def test_a_backup_keeps_the_photos_whole(day: Done) -> None:
    """It is the grower's own, and the handbook says so."""
    with zipfile.ZipFile(day.outputs / "whole.zip") as backup:
        whole = b"".join(map(backup.read, backup.namelist()))
    assert NOTE in whole
    assert LATITUDE in whole


def test_a_pdf_names_nobody(day: Done) -> None:
    for path in outputs(day):
        if path.suffix == ".pdf":
            about: dict[str, Any] = dict(PdfReader(path).metadata or {})
            assert not about.get("/Author"), path
            assert ACCOUNT not in str(dict(about)), path


def test_the_log_of_the_day_names_nobody(day: Done) -> None:
    for name in (ACCOUNT, str(day.home), "zqdayzq"):
        assert name not in day.log
    made = Collection.open_to_read(day.collection)
    for line in made.day.view(None).lines:
        assert line.name not in day.log
    for place in made.places.all():
        assert place.draft.name not in day.log
    made.close()
