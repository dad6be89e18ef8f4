"""Words for house rules on their page: a value with its unit, what a change would do.

Only display; what would change is judged by the services.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec.structs import replace

from growdesk.domain.day_words import WEEKDAYS, month_day_text
from growdesk.domain.facts import Verdict
from growdesk.domain.phrases import inside, listed
from growdesk.domain.quantity_words import figure_text, turns, unit_shown
from growdesk.domain.speech import fixed, tr
from growdesk.services.values import SettingKind
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from growdesk.services.rule_effects import HouseEffect, Outcome, PlantEffect
    from growdesk.services.values import Setting

_APART = frozenset({"glass_colder_c", "glass_hotter_c"})
NAMED = 4
"""How many plants are named before the rest is counted."""


def typed(setting: Setting, value: float | None) -> str:
    """Give a number as it is written on the page: a share in per cent."""
    if value is not None and setting.kind is SettingKind.SHARE:
        return words.number(value * 100, 2)
    if value is None or not turns(setting.unit):
        return words.number(value, 4)
    return figure_text(value, setting.unit, apart=is_apart(setting))


def is_apart(setting: Setting) -> bool:
    """Tell whether a rule holds how far two temperatures are apart."""
    return setting.key in _APART


def value(setting: Setting, given: Any) -> str:
    """Give a rule's value with its unit."""
    if given is None:
        return tr("the kind's own")
    if setting.kind is SettingKind.BOOL:
        return tr("yes") if given else tr("no")
    if setting.kind is SettingKind.DAY:
        return month_day_text(*given)
    if setting.kind is SettingKind.WEEKDAYS:
        return listed([WEEKDAYS[day] for day in given])
    gap = "" if setting.unit == "°" or not setting.unit else " "
    return f"{typed(setting, given)}{gap}{unit_shown(setting.unit)}"


def back(setting: Setting) -> str:
    """Say in full what goes back to the default."""
    bare = replace(setting, unit=setting.short_unit or setting.unit)
    short = value(bare, setting.default)
    return tr("Back to default, {short}").format(short=short)


def default(setting: Setting) -> str:
    """Say what holds unless the grower says otherwise, and where that is from."""
    return tr("Default {value}. {source}").format(
        value=value(setting, setting.default), source=setting.source
    )


def effect(told: HouseEffect) -> str:
    """Say what proposed rules would change on their day."""
    day = words.near_day(told.on)
    if told.changes_nothing:
        return tr("On {day} nothing would change.").format(day=day)
    turned = [each for each in told.plants if each.turns]
    stronger = [each for each in told.plants if not each.turns and _fed_anew(each)]
    poured = len(told.plants) - len(turned) - len(stronger)
    parts = []
    if turned:
        parts.append(
            tr("{plants} would change: {list}").format(
                plants=words.plants(len(turned)),
                list=_named([_turn(each) for each in turned]),
            )
        )
    if stronger:
        parts.append(
            tr("{plants} would get another strength: {list}").format(
                plants=words.plants(len(stronger)),
                list=_named([_strength(each) for each in stronger]),
            )
        )
    if poured:
        parts.append(
            tr("{plants} would get another volume").format(plants=words.plants(poured))
        )
    if told.jugs_before != told.jugs_after:
        parts.append(_jugs(told))
    return tr("On {day}: {list}.").format(day=day, list=". ".join(parts))


def _fed_anew(each: PlantEffect) -> bool:
    return each.before.strength_ppm_n != each.after.strength_ppm_n


def _named(texts: Sequence[str]) -> str:
    named, more = texts[:NAMED], len(texts) - NAMED
    listed_all = "; ".join(named)
    if more <= 0:
        return listed_all
    return tr("{list}; and {more} more").format(list=listed_all, more=more)


def _turn(each: PlantEffect) -> str:
    if each.before.verdict is each.after.verdict:
        verdict = inside(words.VERDICT[each.before.verdict])
        before = f"{verdict} {words.WATER_SHORT[each.before.water]}"
        return _from_to(each, before, words.WATER_SHORT[each.after.water])
    return _from_to(each, _verdict(each.before), _verdict(each.after))


def _from_to(each: PlantEffect, before: str, after: str) -> str:
    """Give one change; its arrow never begins a line."""
    return f"{each.tag} {before} → {after}".replace(" → ", "\u00a0→ ").replace(
        " ppm", "\u00a0ppm"
    )


def _verdict(outcome: Outcome) -> str:
    said = inside(words.VERDICT[outcome.verdict])
    if outcome.verdict is Verdict.FEED:
        return f"{said} {words.strength(outcome.strength_ppm_n)}"
    return said


def _strength(each: PlantEffect) -> str:
    strength = each.before.strength_ppm_n
    before = "" if strength is None else fixed(strength, 0)
    return _from_to(each, before, words.strength(each.after.strength_ppm_n))


def _jugs(told: HouseEffect) -> str:
    before, after = (
        listed([str(strength) for strength in jugs])
        for jugs in (told.jugs_before, told.jugs_after)
    )
    if not after:
        return tr("No jug of feed would be mixed")
    if not before:
        return tr("Jugs of {after} ppm N would be mixed").format(after=after)
    return tr("Jugs of {after} ppm N instead of {before}").format(
        after=after, before=before
    )
