"""The views that growdesk brings along; they are made here and kept in no file."""

from __future__ import annotations

from growdesk.domain.speech import mark
from growdesk.services.roster_values import Only, SavedView, ViewDraft, Whose

EVERYTHING = ViewDraft(mark("All plants"))
STARTS: tuple[SavedView, ...] = tuple(
    SavedView(None, draft)
    for draft in (
        EVERYTHING,
        ViewDraft(mark("In flower or bud"), only=frozenset({Only.FLOWERING})),
        ViewDraft(
            mark("Not looked at for three weeks"),
            order="looked",
            only=frozenset({Only.UNSEEN}),
        ),
        ViewDraft(
            mark("Repotted long ago"),
            columns=("tag", "name", "place", "medium", "pot", "repotted", "acquired"),
            order="repotted",
            only=frozenset({Only.OLD_MEDIUM}),
        ),
        ViewDraft(
            mark("Left the collection"),
            columns=("tag", "name", "status", "left", "left-why", "acquired", "source"),
            order="left",
            downwards=True,
            whose=Whose.LEFT,
        ),
    )
)
