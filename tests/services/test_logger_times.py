"""Days and times of loggers: what is read in parts is read as it is as a whole."""

from __future__ import annotations

import random

from growdesk.services import logger_times

WRITTEN = (
    *("2026-01-05 10:05", "5/6/26 9:07 pm", "05.06.2026 14.30", "1. 2. 2026 10:00"),
    *("3 Mar 2026 10:00:05.5", "Mar 3, 2026 9:00", "20260103 1200", "10:05 am"),
    *("2026-01-05 10:05:00 +01:00", "2026-01-05  10:05", "2026-01-05, 10:05"),
    *("12-10-20 24:00", "1700000000 10:00", "2026-1-5 25:00", "2026-01-05T10:05"),
)
SIGNS = "0123456789-/.: TapmZ+h,;Mr"


def test_a_cell_read_in_parts_is_read_as_it_is_as_a_whole() -> None:
    dice = random.Random(3)  # noqa: S311 -- a repeatable test
    told = 0
    for turn in range(6_000):
        cell = list(WRITTEN[turn % len(WRITTEN)])
        for _ in range(turn % 4):
            at = dice.randrange(len(cell))
            cell[at : at + dice.randrange(2)] = dice.choice(SIGNS)
        plain = "".join(cell).strip()
        whole = logger_times._moment(plain)
        assert logger_times.moment(plain) == whole, plain
        told += whole is not None
    assert 1_000 < told < 5_000
