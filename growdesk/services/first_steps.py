"""What a new collection needs before its first watering day, in plain words."""

from __future__ import annotations

from growdesk.domain.speech import mark
from growdesk.services.values import SetupStep

_STEPS = (
    (
        "latitude",
        mark(
            "Say where the plants stand: give your latitude; light and rests follow it."
        ),
    ),
    ("water", mark("Say which water you use: tap, rain or RO.")),
    (
        "tin",
        mark(
            "Put a tin on the shelf, with the analysis from its label, such as "
            "20-20-20."
        ),
    ),
    ("plant", mark("Add your first plant: its tag, its name and its place.")),
)


def steps(done: dict[str, bool]) -> tuple[SetupStep, ...]:
    """Give the steps in their order, done or not; none once all are done."""
    if all(done[key] for key, _ in _STEPS):
        return ()
    return tuple(SetupStep(key, done[key], text) for key, text in _STEPS)
