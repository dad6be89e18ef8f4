"""Frozen values of benches: what stands on each of a place, in walking order."""

from __future__ import annotations

from msgspec import Struct


class BenchDraft(Struct, frozen=True):
    """A bench, shelf or tray as a form holds it.

    ``at_glass`` is for one at the pane, where nights are coldest and noons hottest.
    """

    name: str
    at_glass: bool = False
    note: str = ""


class BenchChoice(Struct, frozen=True):
    """A bench that a plant of a place may stand on."""

    bench_id: int
    place_id: int
    name: str


class Standing(Struct, frozen=True):
    """A plant where it stands."""

    plant_id: int
    tag: str
    name: str


class BenchView(Struct, frozen=True):
    """A bench with its plants in the order in which they stand along it.

    ``bench_id`` is none for what stands in the place and on no bench.
    """

    bench_id: int | None
    draft: BenchDraft
    plants: tuple[Standing, ...]


class PlaceBenches(Struct, frozen=True):
    """The benches of a place in their order; last what stands on none."""

    place_id: int
    benches: tuple[BenchView, ...]
