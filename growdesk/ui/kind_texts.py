"""Give the words of the kinds' browser: what backs a field, what would change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.season_factor import MOL_PER_FC_DAY
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.services.kind_values import (
        FieldView,
        KindEffect,
        KindView,
        Turned,
    )

_MOST_TOLD = 4
_LIGHTS = frozenset({"light_low_fc", "light_high_fc"})
FROM_MEMORY = "from memory"


def row_title(view: KindView) -> str:
    """Give a kind as the list has it, with the corrections counted."""
    count = view.corrected
    mark = f", {words.counted(count, 'correction', 'corrections')}" if count else ""
    return f"{view.title}{mark}"


def under(view: KindView) -> str:
    """Give the line under a kind's title."""
    if view.plant_id is not None:
        return f"as it holds for {view.tag} alone"
    if not view.plants:
        return f"{view.key} · no plant of yours"
    return f"{view.key} · {words.plants(view.plants)} of yours"


def value(field: FieldView) -> str:
    """Give a field's value; midday light also as the day's sum, as a place has it."""
    if field.name not in _LIGHTS:
        return field.text
    day = float(field.cell) * MOL_PER_FC_DAY
    return f"{field.text}, about {words.number(day, 1)} mol a day"


def save(view: KindView) -> str:
    """Say whom a correction would be saved for."""
    if view.plant_id is not None:
        return f"Save for {view.tag} only"
    if view.plants < 2:
        return "Save for the kind"
    return f"Save for all {view.plants} plants"


def backing(field: FieldView, *, of_plant: bool) -> str:
    """Say what a field stands on, where that has to be said."""
    if field.corrected:
        below = "its kind" if of_plant else "shipped"
        said = f"yours; {below}: {field.below_text}"
        return f"{said}. “{field.note}”" if field.note else said
    return FROM_MEMORY if field.from_memory else ""


def effect_line(effect: KindEffect, view: KindView) -> str:
    """Say what a correction would change today."""
    if not effect.plants:
        return "No plant of yours is of this kind, so nothing changes today."
    whose = view.tag or f"your {words.plants(effect.plants)} of this kind"
    if not effect.turned:
        return f"Today it changes nothing for {whose}."
    told = [_turn(each) for each in effect.turned[:_MOST_TOLD]]
    more = len(effect.turned) - len(told)
    if more:
        told.append(f"and {more} more")
    if view.plant_id is not None:
        return f"Today it takes {told[0]}."
    of = words.plants(effect.plants)
    return f"Today it changes {len(effect.turned)} of {of}: {'; '.join(told)}."


def _turn(turned: Turned) -> str:
    before, after = words.VERDICT[turned.before], words.VERDICT[turned.after]
    if turned.before is not turned.after:
        return f"{turned.tag} from {before.lower()} to {after.lower()}"
    return (
        f"{turned.tag}'s own strength from {words.strength(turned.before_ppm_n)} "
        f"to {words.strength(turned.after_ppm_n)}"
    )
