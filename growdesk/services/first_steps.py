"""What a new collection is led through, in plain words: what, why, and until then.

Only the first plant is needed for a verdict. The rest can be said at any time; each
step says what stands in its place meanwhile.
"""

from __future__ import annotations

from growdesk.domain.facts import House
from growdesk.domain.speech import fixed, mark, tr
from growdesk.services.values import SetupStep

_STEPS = (
    (
        "plant",
        mark("Add your first plant. A tag and a name are enough for a first verdict."),
        mark("Its place, its pot and all else can be said later."),
    ),
    (
        "water",
        mark("Say which water you use: tap, rain or RO."),
        mark("Until then no EC is foretold and no water is counted."),
    ),
    (
        "tin",
        mark(
            "Put a tin on the shelf, with the analysis from its label, such as "
            "20-20-20."
        ),
        mark("Until then a jug has its strength and its litres, but no grams."),
    ),
    (
        "latitude",
        mark("Give your latitude, so that light and rests follow your own year."),
        mark("Until then the year is reckoned for {latitude}° north."),
    ),
)


def steps(done: dict[str, bool]) -> tuple[SetupStep, ...]:
    """Give the steps in their order, done or not; none once all are done."""
    if all(done[key] for key, *_ in _STEPS):
        return ()
    latitude = fixed(House().latitude, 0)
    return tuple(
        SetupStep(key, done[key], tr(text), tr(until).format(latitude=latitude))
        for key, text, until in _STEPS
    )
