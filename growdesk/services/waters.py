"""Keep the waters at hand: tap, rain, RO and blends of two of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import asdict, replace
from sqlalchemy import or_, select

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.speech import plain, tr
from growdesk.domain.water_analysis import BLEND, ION_FIELDS, KINDS
from growdesk.domain.water_blend import Aim, blend, reach
from growdesk.domain.water_units import MOST_MG_PER_L
from growdesk.services import checking, water_rows
from growdesk.services.ledger import written
from growdesk.services.named_rows import GONE, put_in_use
from growdesk.services.values import WaterDraft
from growdesk.store.schema import RecipeRow, StockRow, WaterRow

if TYPE_CHECKING:
    from collections.abc import Mapping

    from growdesk.domain.water_analysis import WaterAnalysis
    from growdesk.domain.water_blend import Blend
    from growdesk.services.ledger import Ledger
    from growdesk.services.values import WaterView, Written
    from growdesk.store.session import Session

_EC = Range(0, 10)
_CAPACITY = Range(0, 10_000, above=True)
_AMOUNTS = {
    "alkalinity_mg_per_l": Range(0, MOST_MG_PER_L["alkalinity"]),
    "hardness_mg_per_l": Range(0, MOST_MG_PER_L["hardness"]),
    **{field: Range(0, MOST_MG_PER_L[ion]) for ion, field in ION_FIELDS.items()},
}
_NO_BLEND = {
    "first_id": None,
    "second_id": None,
    "first_share": None,
    "aim": None,
    "aim_value": None,
}


class Waters:
    """The waters of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[WaterView, ...]:
        """Give all waters, the one in use first; blends with what they hold."""
        with self._ledger.reading() as session:
            return water_rows.waters(session)

    def add(self, draft: WaterDraft) -> Written:
        """Add a water; the first one is in use."""
        title = tr("Water {called} added").format(called=_called(draft))
        with self._ledger.writing(title) as writing:
            kept = _checked(draft, None, writing.session)
            there = select(WaterRow.id).where(WaterRow.gone_on.is_(None)).limit(1)
            first = writing.session.scalar(there) is None
            row_id = writing.insert(WaterRow, {**asdict(kept), "in_use": False})
            if first or kept.in_use:
                put_in_use(writing, WaterRow, row_id)
        return written(writing, title, (row_id,))

    def change(self, water_id: int, draft: WaterDraft) -> Written:
        """Change a water; blends that are made with it follow."""
        title = tr("Water {called} changed").format(called=_called(draft))
        with self._ledger.writing(title) as writing:
            _named(writing.session, water_id)
            kept = _checked(draft, water_id, writing.session)
            writing.update(WaterRow, water_id, asdict(kept))
            if kept.in_use:
                put_in_use(writing, WaterRow, water_id)
        return written(writing, title, (water_id,))

    def remove(self, water_id: int) -> Written:
        """Take a water away; one that a blend, recipe or stock is made with stays."""
        with self._ledger.reading() as session:
            name = _named(session, water_id)
            _refuse_used(session, water_id, name)
        title = tr("Water {name} removed").format(name=name)
        off = {"in_use": False, "gone_on": self._ledger.today()}
        with self._ledger.writing(title) as writing:
            writing.update(WaterRow, water_id, off)
        return written(writing, title)

    def use(self, water_id: int) -> Written:
        """Mix with this water from now on."""
        with self._ledger.reading() as session:
            title = tr("Water {named} in use").format(named=_named(session, water_id))
        with self._ledger.writing(title) as writing:
            put_in_use(writing, WaterRow, water_id)
        return written(writing, title, (water_id,))


def _called(draft: WaterDraft) -> str:
    return _or_kind((draft.name or "").strip(), draft.kind.strip())


def _or_kind(name: str | None, kind: str) -> str:
    return name or KINDS.get(kind.casefold(), kind)


def _named(session: Session, water_id: int) -> str:
    there = (WaterRow.id == water_id, WaterRow.gone_on.is_(None))
    row = session.execute(select(WaterRow.name, WaterRow.kind).where(*there)).first()
    if row is None:
        raise InputError("water", water_id, tr("is not there any more"), tr(GONE))
    return _or_kind(row.name, row.kind)


def _refuse_used(session: Session, water_id: int, name: str) -> None:
    """Refuse to take a water away that something else is made with."""
    blends = _blends_of(session, water_id)
    if blends:
        problem = tr("is part of the blend {blends}").format(blends=blends[0])
        raise InputError(
            "water", name, problem, tr("Remove or change the blend first.")
        )
    for table, problem, hint in (
        (
            RecipeRow,
            tr("is the water of the recipe {used}"),
            tr("Give the recipe another first."),
        ),
        (
            StockRow,
            tr("is the water of the stock solution {used}"),
            tr("Give the stock solution another first."),
        ),
    ):
        used = session.scalar(
            select(table.name)
            .where(table.water_id == water_id, table.gone_on.is_(None))
            .limit(1)
        )
        if used is not None:
            raise InputError("water", name, problem.format(used=used), hint)


def _blends_of(session: Session, water_id: int) -> list[str]:
    """Give the names of the blends that are made with a water."""
    rows = session.execute(
        select(WaterRow.name, WaterRow.kind)
        .where(
            or_(WaterRow.first_id == water_id, WaterRow.second_id == water_id),
            WaterRow.gone_on.is_(None),
        )
        .order_by(WaterRow.id)
    )
    return [_or_kind(row.name, row.kind) for row in rows]


def _checked(draft: WaterDraft, water_id: int | None, session: Session) -> WaterDraft:
    """Give a water as it is kept; of a blend nothing is kept that follows from it."""
    name = checking.line("name", draft.name or "", checking.NAME)
    kept = replace(
        draft,
        kind=checking.needed_text(
            "kind", draft.kind, tr("Say tap, rain, RO or blend.")
        ),
        name=name or None,
        note=checking.text("note", draft.note),
        capacity_l=checking.number("capacity_l", draft.capacity_l, _CAPACITY),
    )
    if kept.kind == BLEND:
        return _checked_blend(kept, water_id, session)
    amounts = {
        field: checking.number(field, getattr(draft, field), allowed)
        for field, allowed in _AMOUNTS.items()
    }
    ec = checking.number("ec_ms_per_cm", draft.ec_ms_per_cm, _EC)
    whole = asdict(kept) | amounts | _NO_BLEND | {"ec_ms_per_cm": ec}
    return WaterDraft(**whole)


def _checked_blend(
    draft: WaterDraft, water_id: int | None, session: Session
) -> WaterDraft:
    first, second = _two_of(draft, water_id, session)
    aim = _aim(draft.aim)
    if draft.aim_value is None:
        raise InputError(
            "aim_value", "", tr("is empty"), tr("Give what the blend aims at.")
        )
    found = blend(first, second, aim, draft.aim_value)
    if not found.reached:
        raise _unreached(found)
    made = {"aim": aim.value, "first_share": found.first_share}
    return WaterDraft(**asdict(draft) | dict.fromkeys(water_rows.HELD) | made)


def _two_of(
    draft: WaterDraft, water_id: int | None, session: Session
) -> tuple[WaterAnalysis, WaterAnalysis]:
    """Give the two waters of a blend; a blend of blends is refused."""
    for whole in _blends_of(session, water_id) if water_id is not None else ():
        problem = tr(
            "cannot be: this water is itself part of the blend {whole}"
        ).format(whole=whole)
        raise InputError("kind", BLEND, problem, tr("A blend is made of two waters."))
    views = {view.water_id: view.draft for view in water_rows.waters(session)}
    first = _part("first_id", draft.first_id, views)
    second = _part("second_id", draft.second_id, views)
    if first.key == second.key:
        problem = tr("is both of the two")
        raise InputError("second_id", second.called, problem, tr("Choose two waters."))
    return first, second


def _part(
    field: str, part_id: int | None, drafts: Mapping[int, WaterDraft]
) -> WaterAnalysis:
    part = None if part_id is None else drafts.get(part_id)
    if part is None:
        raise InputError(field, "", tr("is empty"), tr("Choose one of your waters."))
    if part.kind == BLEND:
        problem = tr("is a blend itself")
        raise InputError(field, _called(part), problem, tr("Choose a tap, rain or RO."))
    return water_rows.water_analysis(part, part_id)


def _unreached(found: Blend) -> InputError:
    """Refuse an aim that two waters cannot make, with what comes nearest."""
    low, high = reach(found.first, found.second, found.aim)
    nearest = found.first if found.first_share >= 1 else found.second
    unit = "mS/cm" if found.aim is Aim.EC else "mg/L"
    return InputError(
        "aim_value",
        f"{plain(found.aim_value)} {unit}",
        tr("cannot be had from these two, which hold {low} to {high}").format(
            low=plain(float(f"{low:.3g}")), high=plain(float(f"{high:.3g}"))
        ),
        tr("All {called} comes nearest.").format(called=nearest.called),
    )


def _aim(typed: str | None) -> Aim:
    try:
        return Aim(typed or Aim.SHARE)
    except ValueError:
        raise InputError(
            "aim",
            typed,
            tr("is nothing a blend aims at"),
            tr("Say share, alkalinity or ec."),
        ) from None
