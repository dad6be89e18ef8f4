"""A restore that fails, or is killed, at any of its steps leaves the old or the new.

F3 for restores: for n = 1, 2, 3, … until nothing happens any more.
"""

from __future__ import annotations

import errno
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import GrowdeskError
from growdesk.services.restoring import restore
from growdesk.store import switching
from tests.faults import restoring_kit as kit

if TYPE_CHECKING:
    from collections.abc import Callable

pytestmark = pytest.mark.skipif(
    sys.platform == "win32", reason="counts the operations that POSIX systems know"
)


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("laid")
    kit.lay(root)
    return root


@pytest.fixture(scope="module")
def wanted(laid: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, ...]:
    """Give the digest of the rows that the backups hold."""
    new = tmp_path_factory.mktemp("whole") / "new"
    restore(laid / "orchids.zip", new, kit.NOW)
    by_zip = kit.state_of(new)
    restore(kit.kept_in(laid / "mine"), new, kit.NOW)
    assert kit.state_of(new) == by_zip
    return (by_zip[0], *by_zip[1])


def told_state(folder: Path) -> tuple[str, ...]:
    rows, photos = kit.state_of(folder)
    return (rows, *photos)


def check(root: Path, old: tuple[str, ...], new: tuple[str, ...]) -> bool:
    """See that the old or the new one stands there whole; tell whether the new one."""
    home = root / "mine"
    switching.mend(home)
    stands = told_state(home)
    assert stands in {old, new}
    assert not list(home.glob("collection.sqlite-*"))
    assert kit.kept_in(home).is_dir()
    assert kit.rows_of(kit.kept_in(home) / "collection.sqlite") == new[0]
    assert list((home / "backups" / "photos").glob("*/*"))
    if stands == new:
        (aside,) = switching.set_asides(home)
        assert told_state(aside.folder) == old
    else:
        assert switching.set_asides(home) == ()
    assert not list(root.glob(".mine-restoring-*"))
    return stands == new


def source_in(root: Path, name: str) -> Path:
    return root / name if name.endswith(".zip") else kit.kept_in(root / "mine")


@pytest.mark.parametrize(
    ("name", "number"),
    [("orchids.zip", errno.ENOSPC), ("kept", errno.EIO), ("kept", errno.EACCES)],
)
def test_each_operation_that_fails_leaves_the_old_or_the_new(
    laid: Path,
    wanted: tuple[str, ...],
    tmp_path: Path,
    told: Callable[[str], None],
    name: str,
    number: int,
) -> None:
    old, at, refused, done = told_state(laid / "mine"), 0, 0, 0
    while True:
        at += 1
        root = kit.copied(laid, tmp_path / "r")
        source = source_in(root, name)
        raised = None
        with kit.bad_luck(at, kit.fail_with(number), source) as luck:
            try:
                restore(source, root / "mine", kit.NOW)
            except GrowdeskError as error:
                raised = error
        is_new = check(root, old, wanted)
        if raised is not None:
            assert "\n" not in raised.line()
            assert "-restoring-" not in raised.line()
            assert not is_new
            refused += 1
        else:
            assert is_new
            done += 1
        if luck.met < at:
            break
    assert refused > 20
    told(
        f"F4 restore of {name}: each of {at - 1} operations failed once "
        f"({errno.errorcode[number]}), {refused} refused in one line, {done} went on "
        "to the end; 0 lost, 0 half"
    )


@pytest.mark.parametrize("name", ["orchids.zip", "kept"])
def test_killed_before_each_operation_the_old_or_the_new_is_there(
    laid: Path,
    wanted: tuple[str, ...],
    tmp_path: Path,
    told: Callable[[str], None],
    name: str,
) -> None:
    old, at, news = told_state(laid / "mine"), 0, 0
    while True:
        at += 1
        root = kit.copied(laid, tmp_path / "r")
        source = source_in(root, name)

        def work(at: int = at, source: Path = source, root: Path = root) -> None:
            with kit.bad_luck(at, kit.die, Path("\0")):
                restore(source, root / "mine", kit.NOW)

        was_killed = kit.killed(work)
        news += check(root, old, wanted)
        if not was_killed:
            break
    assert news > 1
    told(
        f"F3 restore of {name}: killed before each of {at - 1} operations, the old one "
        f"stood {at - news} times, the new one {news}; 0 lost, 0 half, all kept backups"
        " there"
    )
