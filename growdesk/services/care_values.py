"""What is written of one piece of care."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.domain.facts import CareKind, Medium


class CareDraft(Struct, frozen=True):
    """A piece of care as a form hands it in; what does not fit its kind stays empty.

    Strength in mg N per litre, volumes in litres, rain in mm. ``product`` is what a
    treatment was done with, as its label has it; ``note`` what was done.
    """

    on: date
    what: CareKind
    strength_ppm_n: float | None = None
    volume_l: float | None = None
    note: str = ""
    product: str = ""
    repeat_on: date | None = None
    rain_mm: float | None = None
    medium: Medium | None = None
    pot_volume_l: float | None = None
    from_place: str | None = None
    to_place: str | None = None
