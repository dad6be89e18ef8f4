"""What a plant form opens with."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from datetime import date

    from growdesk.services.bench_values import BenchChoice
    from growdesk.services.plant_values import Kin
    from growdesk.services.values import PlaceView, PlantDraft


class PlantStart(Struct, frozen=True):
    """What a plant form opens with; ``plants`` are those it may have come from.

    ``today`` is proposed as the day on which it left; a newcomer is offered so many
    days apart, none if 0.
    """

    plant_id: int | None
    draft: PlantDraft
    kinds: tuple[tuple[str, str], ...]
    places: tuple[PlaceView, ...]
    benches: tuple[BenchChoice, ...] = ()
    plants: tuple[Kin, ...] = ()
    today: date | None = None
    quarantine_days: int = 0
