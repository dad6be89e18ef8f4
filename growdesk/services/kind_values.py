"""Frozen values of the kinds: a kind field by field, and what a correction turns."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from growdesk.domain.facts import Verdict


class FieldView(Struct, frozen=True):
    """One field of a kind as it holds, and as it would without the correction.

    ``cell`` is the value as the table writes it, ``text`` the same in words with its
    unit. ``below`` is what a correction goes before: what is shipped, or for one plant
    what holds for its kind. ``bears`` is off where the other fields leave it without a
    meaning: months of no rest.
    """

    name: str
    title: str
    group: str
    text: str
    cell: str
    below_text: str
    below_cell: str
    corrected: bool
    note: str
    from_memory: bool
    bears: bool


class KindView(Struct, frozen=True):
    """A kind with all its fields, or a plant's kind where ``plant_id`` is given.

    ``names`` are the genera, hybrid genera and species that lead to it, ``short`` the
    abbreviations of those. ``plants`` counts the plants of the kind.
    """

    key: str
    title: str
    fields: tuple[FieldView, ...]
    names: tuple[str, ...]
    short: tuple[str, ...]
    source: str
    plants: int
    plant_id: int | None = None
    tag: str = ""

    @property
    def corrected(self) -> int:
        """Count the fields that were corrected."""
        return sum(field.corrected for field in self.fields)

    def field(self, name: str) -> FieldView:
        """Give one field."""
        return next(each for each in self.fields if each.name == name)


class KindProblem(Struct, frozen=True):
    """A correction that is kept and not judged by: of a kind, or of one plant."""

    line: str
    kind: str
    plant_id: int | None
    field: str


class Turned(Struct, frozen=True):
    """A plant whose verdict or strength a change turns, on one day, in mg N per L."""

    tag: str
    before: Verdict
    after: Verdict
    before_ppm_n: float | None
    after_ppm_n: float | None


class KindEffect(Struct, frozen=True):
    """What a correction would turn among the plants it bears on."""

    plants: int
    turned: tuple[Turned, ...]
