"""Frozen values of the weekly mixing sheet: the same facts as the window's, by round.

Volumes in litres, strengths in mg N per litre (``ppm_n``).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date, datetime

    from growdesk.domain.facts import Verdict, Water
    from growdesk.services.values import Done, MixPlan


class SheetLine(Struct, frozen=True):
    """A plant on the sheet, in bench order."""

    tag: str
    name: str
    verdict: Verdict
    water: Water
    letter: str | None
    strength_ppm_n: float | None
    volume_l: float | None
    looked_on: date | None
    reason: str
    until_looked: str | None
    redecide: str | None
    place: str = ""
    suspect: bool = False
    newcomer_until: date | None = None
    done: Done | None = None
    bench_name: str = ""
    together: str = ""


class SheetPlace(Struct, frozen=True):
    """A bench of a place on the sheet, or a place without one, in walking order.

    ``bench`` is empty for what stands on none; ``has_benches`` tells that others do.
    """

    name: str
    lines: tuple[SheetLine, ...]
    bench: str = ""
    has_benches: bool = False


class SheetRound(Struct, frozen=True):
    """One watering day of the week."""

    on: date
    assumes: str | None
    keep_dry: tuple[SheetLine, ...]
    order_of_work: tuple[str, ...]
    places: tuple[SheetPlace, ...]
    mix: MixPlan


class Sheet(Struct, frozen=True):
    """The weekly mixing sheet as facts; drawing it is the window's business.

    ``waters`` says what to have ready of each water over its rounds.
    """

    collection: str
    week_of: date
    made_at: datetime
    rounds: tuple[SheetRound, ...]
    cautions_short: tuple[str, ...]
    cautions_full: tuple[str, ...]
    waters: tuple[str, ...] = ()
