"""Every parser over any input: a refusal in a line or an answer, never a fault.

The harnesses are those that atheris drives (``python -m tests.fuzz``); here they have a
fixed budget, and what once was a crash stands as a case of its own.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.harnesses import HARNESSES
from tests.fuzz.seeds import SEEDS

if TYPE_CHECKING:
    from collections.abc import Callable

SLOW = {"names": 60, "tables": 60, "loggers": 40, "lists": 40, "packed": 40}
"""How many examples where one takes milliseconds; 200 elsewhere."""
CRASHED: dict[str, tuple[bytes, ...]] = {
    "packed": (
        b"PK\x01\x02" + b"\x14\x03\x14" + bytes(39) + b"PK\x05\x06\x00\x00\x00\x00"
        b"\x01\x00\x01\x00\x2e\x00\x00\x00\x00\x00\x00\x00\x00\x00",
    ),
    "views": (b"\xed", b"[" * 3_000),
    "lists": (b"[" * 100_000, b'{"growdesk_export": 1, "schema": 1e999, "files": {}}'),
}
"""An entry of a zip without a name; bytes that are no text; nested too deeply."""


@st.composite
def altered(draw: st.DrawFn, seeds: tuple[bytes, ...]) -> bytes:
    """Give a good input with some of its bytes changed, cut or doubled."""
    data = bytearray(draw(st.sampled_from(seeds)))
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, max(0, len(data) - 1)))
        much = draw(st.integers(0, 8))
        piece = draw(st.one_of(st.binary(max_size=4), st.just(bytes(data[: much * 4]))))
        data[at : at + much] = piece
    return bytes(data)


@pytest.mark.parametrize("name", HARNESSES)
def test_no_input_is_a_fault(name: str, told: Callable[[str], None]) -> None:
    harness, most, count = HARNESSES[name], SLOW.get(name, 200), 0
    texts = st.text(max_size=60).map(lambda text: text.encode("utf-8", "replace"))

    @settings(max_examples=most, deadline=None, derandomize=True, database=None)
    @given(st.one_of(altered(SEEDS[name]), texts, st.binary(max_size=80)))
    def run(data: bytes) -> None:
        nonlocal count
        count += 1
        harness(data)

    for data in (*SEEDS[name], *CRASHED.get(name, ()), b"", b"\xed\xa0\x80"):
        harness(data)
    run()
    assert count >= most // 2
    told(f"Fuzz {name}: {count} inputs by hypothesis, 0 faults")
