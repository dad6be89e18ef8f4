"""All that is shown of one plant on one day: verdict, reasons, looks, care, photos."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from msgspec import Struct
from msgspec.structs import replace
from sqlalchemy import select

from growdesk.domain import salt_words, wording
from growdesk.domain.case import Case
from growdesk.domain.change import would_change
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.judging import judge
from growdesk.domain.kind_words import corrected_told
from growdesk.domain.kinds import Habit
from growdesk.domain.rungs import strength_rungs
from growdesk.domain.speech import tr
from growdesk.domain.worth_looking import outlived
from growdesk.domain.worth_words import faded
from growdesk.services import bloom_rows, day_rows, photo_rows
from growdesk.services.left_words import last_word
from growdesk.services.look_words import signs_line
from growdesk.services.planning import pour_l
from growdesk.services.plant_kin import kin_of
from growdesk.services.plant_rows import get_draft
from growdesk.services.values import CareView, LookView, PlantDetail
from growdesk.store.mapping import look_of, medium_of, word
from growdesk.store.schema import CareRow, LookRow

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date
    from pathlib import Path

    from growdesk.domain.facts import House
    from growdesk.services.known import Known
    from growdesk.services.values import Line, PhotoView
    from growdesk.store.session import Session


class Served(Struct, frozen=True):
    """A plant as it stands on a day, the house it is judged under, and its line.

    ``waits`` where its line does not say its jug yet.
    """

    known: Known
    house: House
    line: Line
    waits: bool = False


def detail_of(session: Session, folder: Path, served: Served, on: date) -> PlantDetail:
    """Give a plant as the detail pane shows it."""
    known, house = served.known, served.house
    plant, kind, is_known = known.plant, known.kind, known.kind_known
    judgement = judge(plant, kind, house, on, kind_known=is_known, tells_salts=True)
    old_sign = outlived(judgement, plant, kind, house)
    photos = photo_rows.views(session, folder, known.plant_id)
    ancestors, descendants = kin_of(session, known.plant_id)
    pours_l = pour_l(plant, judgement, house)
    case = Case(plant, kind, house, on, is_known)
    salts = salt_words.salt_lines(case, judgement, pours_l)
    looks = look_views(session, known.plant_id, photos)
    seen = [view.look for view in looks]
    return PlantDetail(
        plant_id=known.plant_id,
        draft=get_draft(session, known.plant_id),
        kind_title=tr(kind.title),
        kind_known=is_known,
        place=plant.place.name,
        on=on,
        verdict=judgement.verdict,
        water=judgement.water,
        strength=judgement.strength,
        volume_l=judgement.volume_l,
        told=wording.tell(judgement),
        strength_sentence=wording.strength_sentence(judgement),
        strength_rungs=strength_rungs(judgement),
        would_change=would_change(plant, kind, house, on, kind_known=is_known),
        advice=tr(kind.advice),
        looks=looks,
        care=_care(session, known.plant_id),
        photos=photos,
        done=day_rows.done_on(session, on).get(known.plant_id),
        kind_key=kind.key,
        monopodial=kind.habit is Habit.MONOPODIAL,
        kind_corrected=corrected_told(kind),
        old_sign="" if old_sign is None else faded(old_sign, on),
        pour_l=pours_l,
        salts=salts,
        salts_assume=salt_words.assumed_line(case, judgement, salts),
        letter=served.line.letter,
        jug_ppm_n=served.line.jug_ppm_n,
        outside_band=served.line.outside_band,
        bench_name=known.bench_name,
        ancestors=ancestors,
        descendants=descendants,
        blooms=bloom_rows.of_plant(session, known.plant_id, seen, on),
        jug_waits=served.waits,
    )


def as_left(detail: PlantDetail) -> PlantDetail:
    """Give a plant that is not here any more: its records, and its last word."""
    draft = detail.draft
    return replace(
        detail,
        verdict=Verdict.KEEP_DRY,
        water=Water.NONE,
        strength=None,
        volume_l=None,
        told=(),
        strength_sentence="",
        strength_rungs=(),
        would_change=(),
        done=None,
        old_sign="",
        pour_l=None,
        salts=(),
        salts_assume="",
        left=last_word(draft.status, draft.left_on, draft.left_why),
    )


def look_views(
    session: Session, plant_id: int, photos: tuple[PhotoView, ...]
) -> tuple[LookView, ...]:
    """Give the looks of a plant, newest first, each with its photos among these."""
    rows = session.execute(
        select(LookRow.__table__)
        .where(LookRow.plant_id == plant_id)
        .order_by(LookRow.day.desc(), LookRow.id.desc())
    )
    of_look: dict[int, list[PhotoView]] = {}
    for photo in photos:
        if photo.look_id is not None:
            of_look.setdefault(photo.look_id, []).append(photo)
    return tuple(_look_view(row, of_look.get(row.id, ())) for row in rows)


def _look_view(row: Any, photos: Iterable[PhotoView]) -> LookView:
    look = look_of(row)
    return LookView(row.id, look, row.note, signs_line(look), tuple(photos))


def _care(session: Session, plant_id: int) -> tuple[CareView, ...]:
    rows = session.execute(
        select(CareRow.__table__)
        .where(CareRow.plant_id == plant_id)
        .order_by(CareRow.day.desc(), CareRow.id.desc())
    )
    return tuple(
        CareView(
            care_id=row.id,
            on=row.day,
            what=word(CareKind, row.what),
            strength_ppm_n=row.strength_ppm_n,
            volume_l=row.volume_l,
            note=row.note,
            ec_ms_per_cm=row.ec_ms_per_cm,
            product=row.product,
            repeat_on=row.repeat_on,
            rain_mm=row.rain_mm,
            medium=medium_of(row),
            pot_volume_l=row.pot_volume_l,
            from_place=row.from_place,
            to_place=row.to_place,
        )
        for row in rows
    )
