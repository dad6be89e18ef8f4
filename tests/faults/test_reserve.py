"""F5: the disk is full, and the change that is made once more is kept all the same."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import FullError
from growdesk.store import reserve
from growdesk.store.reserve import RESERVE_BYTES, RESERVE_NAME
from growdesk.store.store import Store
from tests.faults.beside_files import add, disk, names, now, read_only

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def fill(folder: Path) -> None:
    """Leave no room at all on a disk."""
    with (folder / "others").open("wb") as file:
        size = 1 << 16
        while size:
            try:
                os.write(file.fileno(), bytes(size))
            except OSError:
                size >>= 1


def added(store: Store) -> int:
    """Add until the disk is full again, and give how many were kept."""
    for many in range(10_000):
        try:
            add(store, 10 + many, "n" * 9000)
        except FullError as error:
            assert "do it once more" not in error.hint  # noqa: PT017 -- how many went before
            return many
    raise AssertionError("the disk is never full")


def test_on_a_full_disk_the_last_change_is_kept_the_second_time(
    tmp_path: Path, told: Callable[[str], None], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reserve, "_ROOM_AT_LEAST", 2_000_000)
    with disk(tmp_path / "stick", 4) as at:
        store = Store.open(at / "c", now, create=True)
        store.keep_reserve()
        assert (at / "c" / RESERVE_NAME).stat().st_size == RESERVE_BYTES
        add(store, 1)
        fill(at)
        with pytest.raises(FullError, match="disk is full") as caught:
            add(store, 2)
        assert "do it once more" in caught.value.hint
        add(store, 2)
        kept = 2 + added(store)
        with store.unrecorded() as session:
            count = session.connection().exec_driver_sql("SELECT count(*) FROM place")
            assert count.scalar() == kept
        store.close()
        assert len(names(at / "c")) == kept
        again = Store.open(at / "c", now)
        again.keep_reserve()
        assert not (at / "c" / RESERVE_NAME).exists(), "there is no room to keep"
        again.close()
    told(f"F5 room kept: 1 full disk, {kept - 1} more changes kept after the refusal")
    assert kept > 10


def test_without_kept_room_a_full_disk_takes_nothing(tmp_path: Path) -> None:
    with disk(tmp_path / "stick", 2) as at:
        store = Store.open(at / "c", now, create=True)
        store.keep_reserve()
        assert not (at / "c" / RESERVE_NAME).exists(), "too little room to keep any"
        fill(at)
        for _ in range(3):
            with pytest.raises(FullError, match="disk is full") as caught:
                add(store, 2)
            assert "Free some space" in caught.value.hint
        store.close()
        assert names(at / "c") == []


def test_room_is_kept_once_and_not_where_one_only_looks(
    folder: Path,
) -> None:
    store = Store.open(folder, now, create=True)
    store.keep_reserve()
    store.close()
    before = (folder / RESERVE_NAME).read_bytes()
    assert len(set(before)) == 256, "a disk that packs takes room for it"
    store = Store.open(folder, now)
    store.keep_reserve()
    store.close()
    assert (folder / RESERVE_NAME).read_bytes() == before
    (folder / RESERVE_NAME).unlink()
    with read_only(folder):
        store = Store.open(folder, now)
        store.keep_reserve()
        store.close()
    assert not (folder / RESERVE_NAME).exists()
