"""The log: nothing a grower typed, turned over by two at once, never in the way."""

from __future__ import annotations

import ast
import logging
import os
import re
import sqlite3
import stat
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from sqlalchemy.exc import IntegrityError

import growdesk
from growdesk.domain.errors import InputError, StoreError
from growdesk.services import hard_ends, log_file, trail
from growdesk.services.log_file import Key, log

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from growdesk.services.collection import Collection

TYPED = "Tante Irmgards Stanhopea"
PACKAGE = Path(growdesk.__file__).parent
POSIX = pytest.mark.skipif(os.name != "posix", reason="modes of files are POSIX's")


@pytest.fixture
def logs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    place = tmp_path / "state" / "growdesk" / "log"
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: place)
    yield place
    log_file.stop()
    log.setLevel(logging.NOTSET)


def written(logs: Path) -> str:
    return (logs / log_file.NAME).read_text(encoding="utf-8")


def fail(raised: Callable[[], object]) -> None:
    try:
        raised()
    except Exception:  # noqa: BLE001 -- whatever it is
        log.exception("failed")


def test_a_start_tells_instant_version_and_system(logs: Path) -> None:
    log_file.start()
    line = written(logs)
    assert re.match(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ INFO growdesk: started: ", line)
    assert f"growdesk {growdesk.__version__}, Python " in line


def test_starting_twice_writes_to_one_file(logs: Path) -> None:
    assert log_file.start() == log_file.start() == logs / log_file.NAME
    log.warning("one line")
    assert written(logs).count("one line") == 1


def test_below_a_warning_only_what_is_said_on_purpose_is_kept(logs: Path) -> None:
    log_file.start()
    log.debug("not this")
    logging.getLogger("growdesk.store").info("this")
    assert "not this" not in written(logs)
    assert "growdesk.store: this" in written(logs)


def raise_value() -> None:
    raise ValueError(TYPED)


def raise_key() -> None:
    dict[str, int]()[TYPED]


def raise_chain() -> None:
    try:
        raise_value()
    except ValueError as error:
        raise RuntimeError(TYPED) from error


def raise_during() -> None:
    try:
        raise_value()
    finally:
        raise_key()


def raise_input() -> None:
    raise InputError(TYPED, TYPED, TYPED, TYPED)


def raise_store() -> None:
    raise StoreError(TYPED, TYPED)


def raise_attribute() -> None:
    getattr(object(), TYPED)


def raise_sql() -> None:
    connection = sqlite3.connect(":memory:")
    try:
        connection.execute("CREATE TABLE plant (name TEXT UNIQUE)")
        for _ in range(2):
            connection.execute("INSERT INTO plant VALUES (?)", (TYPED,))
    except sqlite3.Error as error:
        raise IntegrityError(TYPED, (TYPED,), error) from error
    finally:
        connection.close()


def raise_file() -> None:
    (Path("/nowhere") / TYPED).read_bytes()


def raise_own_kind() -> None:
    raise type("OddError", (Exception,), {"__str__": lambda _me: TYPED})


FAULTS = (
    raise_value,
    raise_key,
    raise_chain,
    raise_during,
    raise_input,
    raise_store,
    raise_attribute,
    raise_sql,
    raise_file,
    raise_own_kind,
)


@pytest.mark.parametrize("raised", FAULTS, ids=lambda each: str(each.__name__))
def test_what_an_exception_says_is_not_in_the_log(
    logs: Path, raised: Callable[[], None]
) -> None:
    log_file.start()
    fail(raised)
    text = written(logs)
    assert "failed" in text
    assert raised.__name__ in text
    for word in TYPED.split():
        assert word not in text
    assert "/nowhere" not in text


def test_a_slip_is_told_by_its_field_and_kind_alone(logs: Path) -> None:
    log_file.start()

    def slip() -> None:
        raise InputError("pot_volume_l", 4.25, "is wrong")

    fail(slip)
    assert "InputError of pot_volume_l, a float" in written(logs)
    assert "4.25" not in written(logs)


def test_a_name_of_the_code_that_was_missed_is_told(logs: Path) -> None:
    log_file.start()
    fail(lambda: None.no_such_thing)  # type: ignore[attr-defined]
    assert "AttributeError no_such_thing" in written(logs)


def test_arguments_of_a_line_are_numbers_or_words_of_the_code(logs: Path) -> None:
    log_file.start()
    log.warning("%s and %s and %s", TYPED, 3, Key("week"))
    assert "<str> and 3 and week" in written(logs)
    assert TYPED not in written(logs)


def calls_of_the_log() -> list[ast.Call]:
    return [
        node
        for path in PACKAGE.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and isinstance(node.func.value, ast.Name)
        and node.func.value.id == "log"
        and node.func.attr
        in {"debug", "info", "warning", "error", "exception", "critical", "log"}
    ]


def test_every_line_of_the_log_is_a_text_that_stands_in_the_code() -> None:
    calls = calls_of_the_log()
    assert len(calls) >= 6
    for call in calls:
        assert isinstance(call.args[0], ast.Constant), ast.unparse(call)
        assert isinstance(call.args[0].value, str), ast.unparse(call)


def test_the_same_fault_is_told_whole_once_and_then_counted(logs: Path) -> None:
    log_file.start()
    for _ in range(150):
        fail(raise_value)
    text = written(logs)
    assert text.count(" raise_value\n") == 1 + 2  # whole once, then the 10th and 100th
    assert "for the 10th time" in text
    assert "for the 100th time" in text
    assert text.count("\n") < 12


def test_at_a_megabyte_the_log_is_turned_over_and_three_are_kept(
    logs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(log_file, "MOST_BYTES", 2_000)
    log_file.start()
    for number in range(300):
        log.warning("line %s of many", number)
    names = sorted(path.name for path in logs.iterdir())
    assert names == [log_file.NAME, *(f"{log_file.NAME}.{n}" for n in (1, 2, 3))]
    assert all(path.stat().st_size <= 2_000 for path in logs.iterdir())
    lines = log_file.last_lines(40)
    assert [line.rsplit(" line ")[1] for line in lines] == [
        f"{number} of many" for number in range(260, 300)
    ]


WRITER = """
import sys, platformdirs
from pathlib import Path
platformdirs.user_log_path = lambda *_, **__: Path(sys.argv[1])
from growdesk.services import log_file
log_file.MOST_BYTES = 13_000
log_file.start()
for number in range(400):
    log_file.log.warning("writer %s line %s .", int(sys.argv[2]), number)
"""


def test_two_programs_write_and_turn_one_log(
    logs: Path, told: Callable[[str], None]
) -> None:
    children = [
        subprocess.Popen([sys.executable, "-c", WRITER, str(logs), str(number)])
        for number in (1, 2)
    ]
    assert [child.wait(60) for child in children] == [0, 0]
    seen: list[list[int]] = [[], []]
    for number in (3, 2, 1, 0):
        path = log_file._numbered(logs / log_file.NAME, number)
        for line in path.read_text(encoding="utf-8").splitlines():
            found = re.search(r"writer (\d) line (\d+) \.$", line)
            assert found or "started" in line, line
            if found:
                seen[int(found[1]) - 1].append(int(found[2]))
    assert seen == [list(range(400)), list(range(400))]
    told("log: 2 programs writing, 800 lines over 4 turned files, 0 lost, 0 torn")


def test_a_lock_that_a_killed_program_left_is_taken_away(
    logs: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(log_file, "MOST_BYTES", 500)
    log_file.start()
    lock = logs / "growdesk.log.turning"
    lock.touch()
    os.utime(lock, (0, 0))
    for number in range(20):
        log.warning("line %s", number)
    assert not lock.exists()
    assert (logs / f"{log_file.NAME}.1").exists()


def test_without_a_folder_the_log_stays_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "a file"
    blocked.touch()
    monkeypatch.setattr("platformdirs.user_log_path", lambda *_, **__: blocked)
    assert log_file.start() is None
    log.warning("to nobody")
    assert log_file.last_lines(5) == ()


def test_a_log_that_can_no_longer_be_written_stops_nothing(logs: Path) -> None:
    log_file.start()
    (logs / log_file.NAME).unlink()
    (logs / log_file.NAME).mkdir()
    fail(raise_value)
    assert log_file.keep_fault(ValueError(TYPED)) is None


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a full device")
def test_a_full_disk_under_the_log_stops_nothing(logs: Path) -> None:
    logs.mkdir(parents=True)
    (logs / log_file.NAME).symlink_to("/dev/full")
    log_file.start()
    fail(raise_value)
    assert log_file.keep_fault(ValueError(TYPED)) is None


@POSIX
def test_the_log_is_the_owner_s_alone(logs: Path) -> None:
    log_file.start()
    assert stat.S_IMODE(logs.stat().st_mode) == 0o700
    assert stat.S_IMODE((logs / log_file.NAME).stat().st_mode) == 0o600


# -- hard ends and the trail ---------------------------------------------------------


CRASH = """
import ctypes, os, signal, sys, platformdirs
from pathlib import Path
platformdirs.user_log_path = lambda *_, **__: Path(sys.argv[1])
from growdesk.services import hard_ends, log_file
log_file.start()
watch = hard_ends.Watch()
watch.begin()
def paint(how):
    if how == "end":
        watch.end()
    elif how == "exit":
        os._exit(3)
    else:
        os.kill(os.getpid(), getattr(signal, how))
paint(sys.argv[2])
"""


@pytest.mark.skipif(os.name != "posix", reason="signals are POSIX's")
@pytest.mark.parametrize(
    ("how", "is_told"),
    [
        ("SIGSEGV", True),
        ("SIGABRT", True),
        ("SIGBUS", True),
        ("SIGKILL", False),
        ("exit", False),
        ("end", False),
    ],
)
def test_a_hard_end_is_told_once_by_the_next_start(
    logs: Path, how: str, *, is_told: bool
) -> None:
    subprocess.run(
        [sys.executable, "-c", CRASH, str(logs), how], check=False, timeout=60
    )
    log_file.start()
    last = hard_ends.take_last()
    assert (last is not None) is is_told
    assert (" paint\n" in written(logs)) is is_told
    if last is not None:
        assert any(place.endswith(" paint") for place in last.places)
    assert hard_ends.take_last() is None
    assert not list(logs.glob("growdesk-open*"))


def test_a_program_that_runs_is_not_taken_for_ended(logs: Path) -> None:
    logs.mkdir(parents=True)
    own = logs / f"growdesk-open.{os.getpid()}.txt"
    own.write_text("Fatal Python error")
    assert hard_ends.take_last() is None
    assert own.exists()


def test_the_trail_takes_keys_and_nothing_that_was_typed() -> None:
    trail.forget()
    trail.note("command", "look")
    trail.note("face", "week")
    trail.note("form", "LookDialog")
    trail.note("command", TYPED)
    trail.note(TYPED, "look")
    assert [each.key for each in trail.steps()] == [
        "command:look",
        "face:week",
        "form:LookDialog",
    ]
    assert trail.doing() == "look"
    for _ in range(100):
        trail.note("command", "undo")
    assert len(trail.steps()) == 40
    trail.forget()


def test_opening_and_closing_are_in_the_log_without_the_folder(
    logs: Path, collection: Collection
) -> None:
    log_file.start()
    collection.close()
    type(collection).open(collection.folder, collection.clock).close()
    text = written(logs)
    assert "opened a collection of form" in text
    assert "closed a collection" in text
    assert collection.folder.name not in text.replace("a collection", "")
