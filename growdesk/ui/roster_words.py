"""Say in words what the table of all plants shows, and why it shows nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases, mark, tr, trn
from growdesk.services.roster_values import Only, Whose
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.services.roster_values import ViewDraft

WHOSE: Mapping[Whose, str] = Phrases(
    {
        Whose.GROWING: "Growing here",
        Whose.LEFT: "Left the collection",
        Whose.ALL: "All on record",
    }
)
ONLY: Mapping[Only, str] = Phrases(
    {
        Only.FLOWERING: "In flower or bud",
        Only.QUARANTINE: "In quarantine",
        Only.UNSEEN: "Not looked at for three weeks",
        Only.OLD_MEDIUM: "Not repotted for two years",
    }
)
ONLY_INSIDE: Mapping[Only, str] = Phrases(
    {
        Only.FLOWERING: "in flower or bud",
        Only.QUARANTINE: "in quarantine",
        Only.UNSEEN: "not looked at for three weeks",
        Only.OLD_MEDIUM: "not repotted for two years",
    }
)
_AMONG: Mapping[Whose, str] = Phrases(
    {
        Whose.GROWING: "No plant growing here is of this view{filters}.",
        Whose.LEFT: "No plant that left the collection is of this view{filters}.",
        Whose.ALL: "No plant on record is of this view{filters}.",
    }
)
_FOUND_AMONG: Mapping[Whose, str] = Phrases(
    {
        Whose.GROWING: (
            "No plant growing here has “{find}” in its tag, name, kind, place, notes, "
            "signs, verdict, source or parentage{filters}."
        ),
        Whose.LEFT: (
            "No plant that left the collection has “{find}” in its tag, name, kind, "
            "place, notes, signs, verdict, source or parentage{filters}."
        ),
        Whose.ALL: (
            "No plant on record has “{find}” in its tag, name, kind, place, notes, "
            "signs, verdict, source or parentage{filters}."
        ),
    }
)
NO_PLANTS = mark(
    "No plant is on record yet. Here all of them will stand in one table: what they "
    "are, where they stand, when they were looked at, fed and repotted."
)


def count_line(shown: int, among: int, flowers: int, picked: int) -> str:
    """Say how many plants are shown, how many flower, how many are selected."""
    said = words.plants(shown)
    if shown != among:
        plants = words.plants(among)
        some = tr("{shown} of {plants}") if shown else tr("None of {plants}")
        said = some.format(shown=shown, plants=plants)
    parts = [said]
    if flowers:
        parts.append(tr("{flowers} in flower").format(flowers=flowers))
    if picked > 1:
        parts.append(tr("{picked} selected").format(picked=picked))
    return "; ".join(parts)


def nothing_line(view: ViewDraft, named: Sequence[str], elsewhere: int) -> str:
    """Say what was looked for and not found.

    ``named`` are the filters in words, ``elsewhere`` the plants that hold what was
    typed and are not shown for those filters.
    """
    find = view.find.strip()
    among = _FOUND_AMONG if find else _AMONG
    filters = tr(", with {list}").format(list="; ".join(named)) if named else ""
    said = [among[view.whose].format(find=find, filters=filters)]
    if elsewhere and find:
        said.append(
            trn(
                "Without this view's filters {count} plant has it.",
                "Without this view's filters {count} plants have it.",
                elsewhere,
            ).format(count=elsewhere)
        )
    return " ".join(said)
