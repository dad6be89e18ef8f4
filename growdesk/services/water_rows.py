"""Waters as rows, and what a blend holds, reckoned anew from its two each time.

A blend's row keeps its two waters and what its share is reckoned from, never what it
holds, so that it follows when one of the two changes.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.water_analysis import BLEND, CONSERVED, WaterAnalysis
from growdesk.domain.water_blend import Aim, Blend, blend, of_share
from growdesk.services.values import WaterDraft, WaterView
from growdesk.store.schema import WaterRow

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from growdesk.store.session import Session

HELD = ("ec_ms_per_cm", *CONSERVED)
"""What a blend's row does not keep."""
_DRAFT = WaterDraft.__struct_fields__
_ANALYSIS = frozenset(WaterAnalysis.__struct_fields__) - {"key"}


class Made(Struct, frozen=True):
    """A water as it now is; ``blend`` is there where it is one of two others."""

    draft: WaterDraft
    blend: Blend | None = None


def waters(session: Session) -> tuple[WaterView, ...]:
    """Give all waters, the one in use first; blends with what they hold."""
    rows, drafts = _read(session)
    found = []
    for row in rows:
        if row.gone_on is None:
            now = made(drafts[row.id], drafts)
            found.append(WaterView(row.id, now.draft, now.blend))
    return tuple(found)


def blended(session: Session) -> dict[int, tuple[tuple[int, float], ...]]:
    """Give the two waters of each blend with their shares, of those gone too."""
    _rows, drafts = _read(session)
    found: dict[int, tuple[tuple[int, float], ...]] = {}
    for key, draft in drafts.items():
        blend = made(draft, drafts).blend
        if blend is not None and draft.first_id and draft.second_id:
            first = blend.first_share
            found[key] = ((draft.first_id, first), (draft.second_id, 1 - first))
    return found


def _read(session: Session) -> tuple[Sequence[Any], dict[int, WaterDraft]]:
    rows = session.execute(
        select(WaterRow.__table__).order_by(WaterRow.in_use.desc(), WaterRow.id),
    ).all()
    return rows, {
        row.id: WaterDraft(**{name: getattr(row, name) for name in _DRAFT})
        for row in rows
    }


def made(draft: WaterDraft, drafts: Mapping[int, WaterDraft]) -> Made:
    """Give a water as it is now; a blend follows its two.

    Where what a blend aims at is no longer known of both, its last share holds.
    """
    first, second = _part(draft.first_id, drafts), _part(draft.second_id, drafts)
    if draft.kind != BLEND or first is None or second is None:
        return Made(draft)
    try:
        found = blend(first, second, Aim(draft.aim or Aim.SHARE), draft.aim_value or 0)
    except InputError:
        found = of_share(first, second, draft.first_share or 0.0)
    return Made(with_held(draft, found), found)


def with_held(draft: WaterDraft, found: Blend) -> WaterDraft:
    """Give a blend's draft with what it holds and the share of its first water."""
    return replace(
        draft,
        first_share=found.first_share,
        ec_ms_per_cm=found.water.ec_ms_per_cm,
        alkalinity_mg_per_l=found.water.alkalinity_mg_per_l,
        hardness_mg_per_l=found.water.hardness_mg_per_l,
        ca_mg_per_l=found.water.ca_mg_per_l,
        mg_mg_per_l=found.water.mg_mg_per_l,
        k_mg_per_l=found.water.k_mg_per_l,
        na_mg_per_l=found.water.na_mg_per_l,
        cl_mg_per_l=found.water.cl_mg_per_l,
        so4_mg_per_l=found.water.so4_mg_per_l,
        no3_mg_per_l=found.water.no3_mg_per_l,
    )


def water_analysis(water: WaterDraft, water_id: int | None) -> WaterAnalysis:
    """Give a water as mixing takes it."""
    known = {name: getattr(water, name) for name in _ANALYSIS}
    return WaterAnalysis(**known | {"name": water.name or "", "key": water_id})


def _part(
    water_id: int | None, drafts: Mapping[int, WaterDraft]
) -> WaterAnalysis | None:
    draft = None if water_id is None else drafts.get(water_id)
    if draft is None or draft.kind == BLEND:
        return None
    return water_analysis(draft, water_id)
