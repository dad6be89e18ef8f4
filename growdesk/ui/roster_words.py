"""Say in words what the table of all plants shows, and why it shows nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.services.roster_filter import IN_FLOWER
from growdesk.services.roster_values import Only, Whose
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.services.roster_values import ViewDraft
    from growdesk.ui.roster_columns import Entry

WHOSE: Mapping[Whose, str] = {
    Whose.GROWING: "Growing here",
    Whose.LEFT: "Left the collection",
    Whose.ALL: "All on record",
}
ONLY: Mapping[Only, str] = {
    Only.FLOWERING: "In flower or bud",
    Only.QUARANTINE: "In quarantine",
    Only.UNSEEN: "Not looked at for three weeks",
    Only.OLD_MEDIUM: "Not repotted for two years",
}
_AMONG: Mapping[Whose, str] = {
    Whose.GROWING: "growing here",
    Whose.LEFT: "that left the collection",
    Whose.ALL: "on record",
}
NO_PLANTS = (
    "No plant is on record yet. Here all of them will stand in one table: what they "
    "are, where they stand, when they were looked at, fed and repotted."
)


def count_line(rows: Sequence[Entry], among: int, picked: int) -> str:
    """Say how many plants are shown, how many flower, how many are selected."""
    shown = len(rows)
    said = words.plants(shown)
    if shown != among:
        said = f"{shown or 'None'} of {words.plants(among)}"
    flowers = sum(1 for entry in rows if entry.line.flowering in IN_FLOWER)
    parts = [said]
    if flowers:
        parts.append(f"{flowers} in flower")
    if picked > 1:
        parts.append(f"{picked} selected")
    return "; ".join(parts)


def nothing_line(view: ViewDraft, named: Sequence[str], elsewhere: int) -> str:
    """Say what was looked for and not found.

    ``named`` are the filters in words, ``elsewhere`` the plants that hold what was
    typed and are not shown for those filters.
    """
    about = f"No plant {_AMONG[view.whose]}"
    said = []
    if view.find.strip():
        about += (
            f" has “{view.find.strip()}” in its tag, name, kind, place, notes, signs, "
            "verdict, source or parentage"
        )
    else:
        about += " is of this view"
    if named:
        about += f", with {'; '.join(named)}"
    said.append(f"{about}.")
    if elsewhere and view.find.strip():
        have = "has" if elsewhere == 1 else "have"
        said.append(f"Without this view's filters {words.plants(elsewhere)} {have} it.")
    return " ".join(said)
