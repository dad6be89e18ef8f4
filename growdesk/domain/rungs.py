"""The strength as short lines, one for each step: what it is, and what it leaves.

The sentence of ``wording.strength_sentence`` says the same in one breath.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec import Struct

from growdesk.domain import wording
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from growdesk.domain.explain import Judgement

RUNGS: Phrases[str] = Phrases(
    {
        "full-house": "House's full strength",
        "full-own": "Its own full strength",
        "feeder-light": "Light feeder: {taken}",
        "feeder-medium": "Medium feeder: all of it",
        "feeder-heavy": "Heavy feeder: {taken}",
        "season-controlled": "Controlled place: nothing off",
        "season-light": "Light of the season: {share}",
        "season-light-read": "Light read, {dli} of {full_dli} mol a day: {share}",
        "season-lamps": "Lamps, {dli} of {full_dli} mol a day: {share}",
        "season-lamps-and-daylight": "Lamps and daylight, {dli} of {full_dli} mol a "
        "day: {share}",
        "season-window": "Window to the {facing}, {dli} of {full_dli} mol a day: "
        "{share}",
        "season-roof": "Under its roof, {dli} of {full_dli} mol a day: {share}",
        "season-open-side": "Open to the {facing}, {dli} of {full_dli} mol a day: "
        "{share}",
        "season-open-sky": "Open sky, {dli} of {full_dli} mol a day: {share}",
        "season-temperature": "Mean of {mean_c} over {days}: {share}",
        "season-temperature-some": "Mean of {mean_c} over {read} of the last {of}: "
        "{share}",
        "season-temperature-once": "{mean_c} read on {read_on}: {share}",
        "season-temperature-undated": "A place at {mean_c}: {share}",
        "performance-lead-own": "Lead {rate} a week, {best} at its best: {share}",
        "performance-lead-kind": "Lead {rate} a week, {best} for its kind: {share}",
        "performance-roots-own": "Roots {rate} a week, {best} at their best: {share}",
        "performance-roots-kind": "Roots {rate} a week, {best} for its kind: {share}",
        "performance-lead-own-in-season": "Lead {rate} a week, {best} at its "
        "best; the season here leaves {share}",
        "performance-lead-kind-in-season": "Lead {rate} a week, {best} for its "
        "kind; the season here leaves {share}",
        "performance-roots-own-in-season": "Roots {rate} a week, {best} at their "
        "best; the season here leaves {share}",
        "performance-roots-kind-in-season": "Roots {rate} a week, {best} for its "
        "kind; the season here leaves {share}",
        "seedling": "Seedling: {taken}",
        "no-tips-yet": "Growth without root tips: {taken}",
        "fresh-repot": "Repotted on {repotted}, no root tip since: {taken}",
        "slow-release": "Slow release in the pot: {taken}",
        "sphagnum": "Sphagnum, which holds salts: {taken}",
        "fed-oftener": "Feeds {interval} apart, the house keeps {days}: {share}",
        "fed-oftener-since": "Fed again after {interval}, the house keeps {days}: "
        "{share}",
        "idle": "No growth in sight: {taken}",
        "floor": "Lifted to the house's floor",
        "ceiling-house": "Held at the house's ceiling",
        "ceiling-own": "Held at its own ceiling",
        "ceiling-kind": "Held at the ceiling published for its kind",
        "ceiling-kind-ours": "Held at our careful ceiling for its kind",
        "ceiling-kind-yours": "Held at the ceiling you gave its kind",
        "rounded": "In steps of {step} ppm N",
    }
)


class Rung(Struct, frozen=True):
    """One step of the strength: in few words, and the ppm N it leaves."""

    text: str
    ppm_n: str


def strength_rungs(judgement: Judgement) -> tuple[Rung, ...]:
    """Give the steps of the strength worth telling; none for a plant not fed."""
    return tuple(
        Rung(RUNGS[step.key].format(**shown), shown["strength"])
        for step, shown in wording.steps_shown(judgement)
    )
