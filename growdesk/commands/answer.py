"""Gives one plant's verdict in the form in which commands print it.

Facts from a file and plants of the collection come to the same form here, so that both
print alike. It judges nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import wording
from growdesk.domain.change import would_change
from growdesk.domain.explain import Role
from growdesk.domain.facts import Verdict, Water
from growdesk.domain.judging import judge
from growdesk.domain.pouring import pour_l
from growdesk.services import kinds

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from growdesk.domain.explain import Judgement, Told
    from growdesk.domain.facts import House, Plant
    from growdesk.domain.kinds import KindTable

VERDICT_WORDS = {
    Verdict.FEED: "Feed",
    Verdict.CLEAR_WATER: "Clear water",
    Verdict.FLUSH: "Flush",
    Verdict.KEEP_DRY: "Keep dry",
    Verdict.LOOK_FIRST: "Look first",
}
WATER_WORDS = {
    Water.NONE: "no water",
    Water.SPARING: "sparing",
    Water.IF_DRY: "if the pot is light",
    Water.THROUGH: "through",
}


class Answer(Struct, frozen=True):
    """A verdict with its reasons in words. Strength in mg N per litre, volume in L."""

    tag: str
    name: str
    verdict: Verdict
    water: Water
    strength_ppm_n: float | None
    volume_l: float | None
    pour_l: float | None
    told: tuple[Told, ...]
    strength_sentence: str
    would_change: tuple[str, ...]

    def report(self) -> dict[str, object]:
        """Give the answer under the fixed keys of ``growdesk decide --json``."""
        reasons = [
            {"rule": told.rule, "role": told.role.value, "sentence": told.sentence}
            for told in self.told
        ]
        if self.strength_sentence:
            strength = {"rule": "strength", "role": Role.SUPPORTS.value}
            reasons.append({**strength, "sentence": self.strength_sentence})
        return {
            "tag": self.tag,
            "name": self.name,
            "verdict": self.verdict.value,
            "water": self.water.value,
            "strength_ppm_n": self.strength_ppm_n,
            "volume_l": self.volume_l,
            "pour_l": self.pour_l,
            "reasons": reasons,
            "would_change": [{"sentence": sentence} for sentence in self.would_change],
        }


def judgements(
    house: House, plants: Sequence[Plant], on: date, table: KindTable | None = None
) -> list[Judgement]:
    """Give the bare judgement of each plant."""
    judged = []
    for plant in plants:
        kind, known = kinds.kind_of(plant, table)
        judged.append(judge(plant, kind, house, on, kind_known=known))
    return judged


def from_facts(
    house: House, plant: Plant, on: date, table: KindTable | None = None
) -> Answer:
    """Give the answer for a plant as it is known, by the kinds as corrected."""
    kind, known = kinds.kind_of(plant, table)
    judged = judge(plant, kind, house, on, kind_known=known, tells_salts=True)
    feeds = judged.verdict is Verdict.FEED
    return Answer(
        tag=judged.tag,
        name=judged.name,
        verdict=judged.verdict,
        water=judged.water,
        strength_ppm_n=_to_a_tenth(judged.strength_ppm_n) if feeds else None,
        volume_l=judged.volume_l,
        pour_l=pour_l(plant, house, judged.verdict, judged.water, judged.flush_l),
        told=wording.tell(judged),
        strength_sentence=wording.strength_sentence(judged) if feeds else "",
        would_change=would_change(plant, kind, house, on, kind_known=known),
    )


def _to_a_tenth(ppm_n: float | None) -> float | None:
    return None if ppm_n is None else round(ppm_n, 1)
