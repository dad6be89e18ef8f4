"""What the fuzzer fails on is kept, so that it can be made a case of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.fuzz.__main__ import _keeping

if TYPE_CHECKING:
    from pathlib import Path


def test_the_input_of_a_fault_is_kept_and_of_no_other(tmp_path: Path) -> None:
    def harness(data: bytes) -> None:
        if data == b"bad":
            raise ValueError

    kept = tmp_path / "input"
    run = _keeping(harness, kept)
    run(b"good")
    assert not kept.exists()
    with pytest.raises(ValueError, match=r"^$"):
        run(b"bad")
    assert kept.read_bytes() == b"bad"
