"""Frozen values of what meters read in jugs; EC in mS/cm, at 25 °C unless said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.expected_ec import ExpectedEc
    from growdesk.domain.meter import Compared, Standing


class JugToRead(Struct, frozen=True):
    """One jug of a day, with the EC to expect of it; None where nobody knows.

    ``gives_ppm_n`` is what its doses really give. ``is_diluted`` is None where it is
    mixed one way alone, else it tells whether this is down the ladder.
    """

    letter: str
    strength_ppm_n: int
    volume_l: float
    recipe: str
    recipe_id: int | None
    gives_ppm_n: float | None
    expected: ExpectedEc | None
    is_diluted: bool | None = None


class MeterDraft(Struct, frozen=True):
    """A reading as it is entered; ``read_ms_per_cm`` is as the meter shows it.

    ``temperature_c`` is given where the meter did not bring it to 25 °C. The expected
    ends stay as they were on the day.
    """

    on: date
    letter: str
    strength_ppm_n: int
    read_ms_per_cm: float
    temperature_c: float | None = None
    expected_low_ms_per_cm: float | None = None
    expected_high_ms_per_cm: float | None = None
    recipe_id: int | None = None
    note: str = ""


class MeterView(Struct, frozen=True):
    """A reading that is kept; ``standing`` is None where nothing was expected."""

    reading_id: int
    draft: MeterDraft
    ec_ms_per_cm: float
    recipe: str
    standing: Standing | None
    off_ms_per_cm: float = 0.0


class MeterAnswer(Struct, frozen=True):
    """A reading held against its jug: what is said of it, and what to check in order.

    ``compared`` is None where nothing is known of the jug.
    """

    compared: Compared | None
    said: tuple[str, ...]
    checks: tuple[str, ...] = ()


class MeterChart(Struct, frozen=True):
    """The readings from ``since`` to the day shown, both included, oldest first."""

    since: date
    on: date
    readings: tuple[MeterView, ...]
