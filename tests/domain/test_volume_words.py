"""One switch point between millilitres and litres, in steps a jug can show."""

from __future__ import annotations

import pytest

from growdesk.domain.volume_words import volume_text


@pytest.mark.parametrize(
    ("volume_l", "text"),
    [
        (0.0, "0 mL"),
        (0.045, "45 mL"),
        (0.1, "100 mL"),
        (0.154, "150 mL"),
        (0.6, "600 mL"),
        (0.994, "990 mL"),
        (0.9951, "1 L"),
        (1.0, "1 L"),
        (1.264, "1.26 L"),
        (2.5, "2.5 L"),
        (21.0, "21 L"),
    ],
)
def test_a_volume_is_told_as_a_jug_shows_it(volume_l: float, text: str) -> None:
    assert volume_text(volume_l) == text
