"""What stands ready beyond what is poured."""

from __future__ import annotations

import pytest

from growdesk.domain.pouring import spare_l


@pytest.mark.parametrize(
    ("volume_l", "spare"),
    [(0.0, 0.0), (0.2, 0.05), (1.0, 0.05), (1.05, 0.06), (3.0, 0.15), (12.0, 0.6)],
)
def test_a_twentieth_is_spare_upward_to_ten_millilitres(
    volume_l: float, spare: float
) -> None:
    assert spare_l(volume_l) == spare, "0.05 of 3 L is no hair more than 0.15"
