from __future__ import annotations

import os
import subprocess
import sys

import pytest

from growdesk import assets

TOUR = assets.demo_path("tour.py")


def walk(*arguments: str) -> subprocess.CompletedProcess[str]:
    root = TOUR.parent.parent
    return subprocess.run(
        [sys.executable, str(TOUR), *arguments],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(root)},
    )


@pytest.mark.parametrize("day", ["2026-01-14", "2028-02-29", "2026-07-11"])
def test_the_tour_walks_through_a_day_of_any_season(day: str) -> None:
    done = walk("--on", day)
    assert done.returncode == 0, done.stderr + done.stdout
    assert done.stderr == ""
    for heading in ("Feed (", "Clear water (", "Flush (2)", "Keep dry (", "Look first"):
        assert heading in done.stdout
    assert "It was in flower" in done.stdout
    assert "roots of 4 cm" in done.stdout
    assert "A3 before: Clear water\n  A3 now: Feed." in done.stdout
    assert "After undo: Clear water" in done.stdout
    assert "again: 4 plants are ticked off or passed by." in done.stdout


def test_the_tour_prepares_feed_in_at_most_four_jugs_and_ladder() -> None:
    told = walk("--on", "2026-07-11").stdout
    jugs = told[told.index("\nJugs\n") : told.index("Clear water: ")]
    letters = [letter for letter in "ABCD" if f"  {letter}: " in jugs]
    assert letters in (["A", "B"], ["A", "B", "C"], ["A", "B", "C", "D"])
    assert "of Green tin with calcium" in jugs


def test_a_day_that_leaves_no_past_stops_the_tour_in_one_line() -> None:
    done = walk("--on", "0001-01-01")
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "Give a day in the years 1900 to 2200." in done.stderr
