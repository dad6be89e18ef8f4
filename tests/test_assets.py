"""Shipped files are found in a checkout and in an installed package."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from growdesk import assets

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path


def test_reads_a_shipped_file() -> None:
    assert assets.read_text("kinds.csv").startswith("key,title,")
    assert assets.path("kinds.csv").is_file()


@pytest.mark.parametrize(
    ("find", "folder"), [(assets.path, "resources"), (assets.demo_path, "demo")]
)
def test_checkout_and_installed(
    find: Callable[[str], Path],
    folder: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    package = tmp_path / "growdesk"
    monkeypatch.setattr(assets, "files", lambda _: package)
    beside, inside = tmp_path / folder / "a.txt", package / folder / "a.txt"
    for file in (beside, inside):
        file.parent.mkdir(parents=True)
    beside.write_text("Mühlviertel", encoding="utf-8")
    assert find("a.txt") == beside
    inside.write_text("inside", encoding="utf-8")
    assert find("a.txt") == inside


@pytest.mark.parametrize("find", [assets.path, assets.demo_path, assets.read_text])
def test_missing_file_is_named(find: Callable[[str], object]) -> None:
    with pytest.raises(FileNotFoundError, match=r"no-such\.csv is missing"):
        find("no-such.csv")
