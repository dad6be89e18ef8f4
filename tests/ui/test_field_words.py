"""Refusals at the foot of the window call fields and days as people do."""

from __future__ import annotations

from datetime import date

import pytest

from growdesk.domain.errors import InputError, StoreError
from growdesk.ui.field_words import BUG_LINE, plain_line


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (
            InputError(
                "on", "2026-11-28", "is still to come", "Give a day up to 2026-11-25."
            ),
            "Day: 28 Nov 2026 is still to come. Give a day up to 25 Nov 2026.",
        ),
        (
            InputError("plants", "E1", "cannot be ticked", "E1 is to be kept dry."),
            "Plants: E1 cannot be ticked. E1 is to be kept dry.",
        ),
        (
            InputError("strength_ppm_n", 900, "is too much"),
            "Strength: 900 is too much.",
        ),
        (
            InputError("longest_new_root_mm", "many", "is no number"),
            "Longest new root: “many” is no number.",
        ),
        (
            InputError("place", "Sill", "still has plants"),
            "Place: Sill still has plants.",
        ),
        (InputError("look_id", 7, "is not there"), "Look: 7 is not there."),
        (InputError("on", date(2026, 1, 2), "is odd"), "Day: 2 Jan 2026 is odd."),
    ],
)
def test_no_key_of_the_code_reaches_a_person(error: InputError, said: str) -> None:
    assert plain_line(error) == said


def test_other_failures_keep_their_own_line() -> None:
    error = StoreError("The disk is full.", "Make room.")
    assert plain_line(error) == "The disk is full. Make room."
    assert plain_line(ZeroDivisionError()) == BUG_LINE
