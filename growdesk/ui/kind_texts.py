"""Give the words of the kinds' browser: what backs a field, what would change."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain import speech
from growdesk.domain.season_factor import MOL_PER_FC_DAY
from growdesk.domain.speech import tr, trn
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
FROM_MEMORY = speech.mark("from memory")


def row_title(view: KindView) -> str:
    """Give a kind as the list has it, with the corrections counted."""
    count = view.corrected
    if not count:
        return view.title
    return trn(
        "{title}, {count} correction", "{title}, {count} corrections", count
    ).format(title=view.title, count=count)


def under(view: KindView) -> str:
    """Give the line under a kind's title."""
    if view.plant_id is not None:
        return tr("as it holds for {tag} alone").format(tag=view.tag)
    if not view.plants:
        return tr("{key} · no plant of yours").format(key=view.key)
    return tr("{key} · {plants} of yours").format(
        key=view.key, plants=words.plants(view.plants)
    )


def value(field: FieldView) -> str:
    """Give a field's value; midday light also as the day's sum, as a place has it."""
    if field.name not in _LIGHTS:
        return field.text
    day = float(field.cell) * MOL_PER_FC_DAY
    return tr("{text}, about {day} mol a day").format(
        text=field.text, day=words.number(day, 1)
    )


def save(view: KindView) -> str:
    """Say whom a correction would be saved for."""
    if view.plant_id is not None:
        return tr("Save for {tag} only").format(tag=view.tag)
    if view.plants < 2:
        return tr("Save for the kind")
    return tr("Save for all {plants} plants").format(plants=view.plants)


def backing(field: FieldView, *, of_plant: bool) -> str:
    """Say what a field stands on, where that has to be said."""
    if field.corrected:
        said = (
            tr("yours; its kind: {below_text}")
            if of_plant
            else tr("yours; shipped: {below_text}")
        ).format(below_text=field.below_text)
        return f"{said}. “{field.note}”" if field.note else said
    return tr(FROM_MEMORY) if field.from_memory else ""


def effect_line(effect: KindEffect, view: KindView) -> str:
    """Say what a correction would change today."""
    if not effect.plants:
        return tr("No plant of yours is of this kind, so nothing changes today.")
    whose = view.tag or tr("your {plants} of this kind").format(
        plants=words.plants(effect.plants)
    )
    if not effect.turned:
        return tr("Today it changes nothing for {whose}.").format(whose=whose)
    told = [_turn(each) for each in effect.turned[:_MOST_TOLD]]
    more = len(effect.turned) - len(told)
    if more:
        told.append(tr("and {more} more").format(more=more))
    if view.plant_id is not None:
        return tr("Today it takes {told}.").format(told=told[0])
    of = words.plants(effect.plants)
    return tr("Today it changes {count} of {of}: {list}.").format(
        count=len(effect.turned), of=of, list="; ".join(told)
    )


def _turn(turned: Turned) -> str:
    before = words.VERDICT_INSIDE[turned.before]
    after = words.VERDICT_INSIDE[turned.after]
    if turned.before is not turned.after:
        return tr("{tag} from {before} to {after}").format(
            tag=turned.tag, before=before, after=after
        )
    return tr("{tag}'s own strength from {before} to {after}").format(
        tag=turned.tag,
        before=words.strength(turned.before_ppm_n),
        after=words.strength(turned.after_ppm_n),
    )
