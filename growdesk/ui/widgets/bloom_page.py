"""Show the blooms of one plant: what to expect, what a look proposes, and each year."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from growdesk.domain.speech import mark, tr
from growdesk.ui import words
from growdesk.ui.bloom_texts import measures, span_words
from growdesk.ui.looking import writes
from growdesk.ui.widgets.batches import in_batches
from growdesk.ui.widgets.parts import Page, button, column, frame, label, link

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.bloom_values import BloomView, PlantBlooms, Proposal

BLOOMS_AT_ONCE = 8
NOTHING = mark(
    "No bloom is on record. With two years of first flowers written down, growdesk "
    "says when the next may open."
)
ONE_YEAR = mark("One more year, and its own season can be told.")


def blooms_page(
    blooms: PlantBlooms,
    change: Callable[[BloomView], object],
    new: Callable[[], object],
    take: Callable[[Proposal], object],
) -> QWidget:
    """Give the blooms of a plant, newest first."""
    page = Page()
    inner = column(margins=14)
    page.setLayout(inner)
    if blooms.proposal is not None:
        inner.addWidget(_proposed(blooms.proposal, take))
    for sentence in blooms.told:
        inner.addWidget(label(sentence))
    if not blooms.blooms:
        inner.addWidget(label(tr(NOTHING), tone="muted"))
    elif not blooms.told:
        inner.addWidget(label(tr(ONE_YEAR), tone="muted"))
    made = writes(button(tr("New bloom…"), new))
    made.setObjectName("new-bloom")
    row = QHBoxLayout()
    row.addWidget(made)
    row.addStretch(1)
    inner.addLayout(row)
    cards = [partial(_card, view, change) for view in blooms.blooms]
    in_batches(inner, cards, "blooms", BLOOMS_AT_ONCE)
    return page


def _proposed(proposal: Proposal, take: Callable[[Proposal], object]) -> QWidget:
    """Give a quiet line with one press; nothing is written without it."""
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 8, 12, 8)
    rows.addWidget(label(proposal.sentence))
    press = writes(link(proposal.action, partial(take, proposal)))
    press.setObjectName("take-proposal")
    aside = QHBoxLayout()
    aside.addWidget(press)
    aside.addStretch(1)
    rows.addLayout(aside)
    return card


def _card(view: BloomView, change: Callable[[BloomView], object]) -> QWidget:
    draft = view.draft
    card = frame("card")
    rows = QVBoxLayout(card)
    rows.setContentsMargins(12, 8, 12, 8)
    top = QHBoxLayout()
    begins = draft.first_open_on or draft.begins
    year = "" if begins is None else str(begins.year)
    top.addWidget(label(year, tone="head"))
    top.addWidget(label(span_words(draft)), 1)
    edit = link(tr("Change…"), partial(change, view))
    edit.setObjectName(f"change-bloom-{view.bloom_id}")
    edit.setAccessibleName(
        tr("Change the bloom, {span}").format(span=span_words(draft))
    )
    top.addWidget(edit)
    rows.addLayout(top)
    if draft.spike_seen_on is not None and draft.first_open_on is not None:
        days = (draft.first_open_on - draft.spike_seen_on).days
        seen = words.short_day(draft.spike_seen_on)
        to_open = words.counted(days, "day", "days")
        rows.addWidget(
            label(
                tr("Spike seen {seen}, {to_open} before").format(
                    seen=seen, to_open=to_open
                ),
                tone="muted",
            )
        )
    told = measures(draft)
    if told:
        rows.addWidget(label(told))
    if draft.note:
        rows.addWidget(label(f"“{draft.note}”", tone="muted"))
    return card
