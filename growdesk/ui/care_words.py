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
    return said[0].upper() + said[1:]


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
    return (
        tr("repotted into {list}").format(list=", ".join(into)) if into else "repotted"
    )


def _moved(care: CareView) -> str:
    said = "moved"
    if care.from_place:
        said += tr(" from {from_place}").format(from_place=care.from_place)
    if care.to_place:
        said += tr(" to {to_place}").format(to_place=care.to_place)
    return said


def _treated(care: CareView) -> str:
    said = (
        tr("treated, {product}").format(product=care.product)
        if care.product
        else "treated"
    )
    if care.repeat_on is not None:
        said += tr("; again on {short_day}").format(
            short_day=words.short_day(care.repeat_on)
        )
    return said


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
