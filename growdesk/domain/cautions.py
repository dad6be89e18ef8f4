"""The cautions the program carries: two lines for each page, the block once.

Plain sentences as data; who shows them and where is not known here.
"""

from __future__ import annotations

from typing import Final

from growdesk.domain.speech import Lines, mark

SHORT: Final[Lines] = Lines(
    "Keep feed and salts from children, pets, food and drink. Label each jug.",
    "Gloves and goggles for dry salts. Poisoning: call your poison centre.",
)
"""Two lines for the foot of each page."""

FULL: Final[Lines] = Lines(
    (
        "Keep fertilizers, stock solutions and the fluids for meters where children "
        "and pets cannot reach them, and away from food and drink."
    ),
    (
        "Label each jug with what is in it and the date, and never fill a bottle that "
        "once held food or drink."
    ),
    (
        "Mixed feed is not water for drinking: at 100 ppm N it holds about ten times "
        "the nitrate that drinking water may hold."
    ),
    (
        "Wear gloves and eye protection when you handle dry salts or concentrates, and "
        "wash your hands afterwards."
    ),
    (
        "Follow the label of each product; where it asks for less or forbids a "
        "mixture, the label is right and this program is not."
    ),
    (
        "This program gives no dose for plant-protection products: for them the label "
        "is the law where you live."
    ),
    (
        "Acids for water are no home job, and no acid dose is offered here; ask a "
        "licensed adviser or your water supplier."
    ),
    (
        "Do not pour feed or runoff into wells, drains or open water where the rules "
        "forbid it; spread it on soil that has plants."
    ),
    (
        "If somebody has swallowed any of it or has it in the eyes, call your local "
        "poison centre, and have the label at hand."
    ),
    "Local codes and licensed advisers come before anything this program says.",
)
"""The whole block, one sentence each, shown once in a sheet and in the help."""

CLEAN_BLADE: Final = mark(
    "A clean blade for each plant: sap carries viruses from one cut to the next."
)
"""Common practice; beside every form for work that cuts."""

PAPERS: Final = mark(
    "An orchid that crosses a border may need permits, and so may a division or a "
    "seedling. Ask the authority of your country before you send or bring one."
)
"""Stands where papers are written down. Source: CITES, Appendices I to III, which list
the family Orchidaceae; what is exempt differs by country and is not told here."""

STOCKS: Final[Lines] = Lines(
    (
        "Shake a stock bottle before you draw from it, with a syringe kept for it and "
        "never by mouth; pour nothing back."
    ),
    (
        "Do not use a stock past its day, or one that is cloudy or has crystals; keep "
        "it cool, dark, closed and locked away."
    ),
)
"""Added to the block where a jug is dosed from a stock bottle; common practice."""
