"""The words for what a field of a kind can be chosen from, by the table's own words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.kinds import Feeder, Habit, Rest, Resume, Warmth
from growdesk.domain.speech import Phrases

if TYPE_CHECKING:
    from collections.abc import Mapping

HABITS: Mapping[str, str] = Phrases(
    {
        Habit.SYMPODIAL: "sympodial: new growths side by side",
        Habit.MONOPODIAL: "monopodial: one stem that grows on",
        Habit.TUBEROUS: "tuberous: from tubers",
    }
)
RESTS: Mapping[str, str] = Phrases(
    {
        Rest.NONE: "none",
        Rest.REDUCED: "reduced",
        Rest.UNFED: "cooler, drier, unfed",
        Rest.NO_NITROGEN: "no nitrogen",
        Rest.LEAFLESS: "leafless and dry",
    }
)
RESUMES: Mapping[str, str] = Phrases(
    {
        Resume.ROOT_LENGTH: "new roots of a certain length",
        Resume.GROWTH_OR_ROOTS: "a new growth or new roots",
    }
)
FEEDERS: Mapping[str, str] = Phrases(
    {Feeder.LIGHT: "light", Feeder.MEDIUM: "medium", Feeder.HEAVY: "heavy"},
    "feeder",
)
WARMTHS: Mapping[str, str] = Phrases(
    {
        Warmth.COOL: "cool",
        Warmth.INTERMEDIATE: "intermediate",
        Warmth.WARM: "warm",
    },
    "grower",
)
WHOSE: Mapping[str, str] = Phrases(
    {"no": "published", "yes": "growdesk's own, careful"}
)
YES_NO: Mapping[str, str] = Phrases({"yes": "yes", "no": "no"})
