"""Frozen values of benches: what stands on each of a place, in walking order."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class BenchDraft:
    """A bench, shelf or tray as a form holds it.

    ``at_glass`` is for one at the pane, where nights are coldest and noons hottest.
    """

    name: str
    at_glass: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class BenchChoice:
    """A bench that a plant of a place may stand on."""

    bench_id: int
    place_id: int
    name: str


@dataclass(frozen=True, slots=True)
class Standing:
    """A plant where it stands."""

    plant_id: int
    tag: str
    name: str


@dataclass(frozen=True, slots=True)
class BenchView:
    """A bench with its plants in the order in which they stand along it.

    ``bench_id`` is none for what stands in the place and on no bench.
    """

    bench_id: int | None
    draft: BenchDraft
    plants: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class PlaceBenches:
    """The benches of a place in their order; last what stands on none."""

    place_id: int
    benches: tuple[BenchView, ...]
