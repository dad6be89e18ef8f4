"""Say a piece of care in one plain line."""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.facts import CareKind
from growdesk.domain.quantity_words import small_text
from growdesk.domain.speech import tr
from growdesk.ui import words

if TYPE_CHECKING:
    from growdesk.services.values import CareView


def care_line(care: CareView) -> str:
    """Give what was given or done, without its note."""
    said = _SAID.get(care.what, _plain)(care)
    return said[:1].upper() + said[1:]


def _poured(care: CareView) -> str:
    parts = [words.CARE[care.what]]
    if care.strength_ppm_n is not None:
        parts.append(words.strength(care.strength_ppm_n))
    if care.volume_l is not None:
        parts.append(words.volume(care.volume_l))
    if care.ec_ms_per_cm is not None:
        parts.append(f"{words.number(care.ec_ms_per_cm)} mS/cm")
    return ", ".join(parts)


def _rained(care: CareView) -> str:
    if care.rain_mm is None:
        return tr("rained on")
    return tr("rained on, {rain}").format(rain=small_text(care.rain_mm))


def _repotted(care: CareView) -> str:
    into = []
    if care.medium is not None:
        into.append(words.sign(care.medium))
    if care.pot_volume_l is not None:
        into.append(
            tr("a pot of {pot_volume_l}").format(
                pot_volume_l=words.volume(care.pot_volume_l)
            )
        )
    if not into:
        return words.CARE[care.what]
    return tr("repotted into {list}").format(list=", ".join(into))


def _moved(care: CareView) -> str:
    if care.from_place and care.to_place:
        said = tr("moved from {from_place} to {to_place}")
    elif care.from_place:
        said = tr("moved from {from_place}")
    elif care.to_place:
        said = tr("moved to {to_place}")
    else:
        return words.CARE[care.what]
    return said.format(from_place=care.from_place, to_place=care.to_place)


def _treated(care: CareView) -> str:
    said = (
        tr("treated, {product}").format(product=care.product)
        if care.product
        else words.CARE[care.what]
    )
    if care.repeat_on is None:
        return said
    again = words.short_day(care.repeat_on)
    return tr("{treated}; again on {day}").format(treated=said, day=again)


def _plain(care: CareView) -> str:
    return words.CARE[care.what]


_SAID = {
    CareKind.FEED: _poured,
    CareKind.CLEAR_WATER: _poured,
    CareKind.FLUSH: _poured,
    CareKind.RAIN: _rained,
    CareKind.REPOT: _repotted,
    CareKind.MOVE: _moved,
    CareKind.TREAT: _treated,
}
