"""Write down where a recipe holds: plants, places, seasons, any of them together."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.speech import mark, tr
from growdesk.services.recipe_drafts import use_of
from growdesk.store.schema import PlaceRow, PlantRow, RecipeRow, RecipeUseRow

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from growdesk.domain.seasons import MonthDay
    from growdesk.services.recipe_values import UseDraft
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

_LEAP_YEAR = 2024
_TAGS = select(PlantRow.id, PlantRow.tag)
_PLACES = select(PlaceRow.id, PlaceRow.name)
_SEASON_HINT = mark('Write month and day, for instance "11-01" until "02-28".')


def checked_uses(session: Session, uses: Sequence[UseDraft]) -> tuple[UseDraft, ...]:
    """Give the uses once each; refuse one that says nothing or names what is gone."""
    named = {use.plant_id for use in uses if use.plant_id is not None}
    plants = set(
        session.scalars(
            select(PlantRow.id).where(
                PlantRow.binned_on.is_(None), PlantRow.id.in_(named)
            )
        )
    )
    places = set(session.scalars(select(PlaceRow.id)))
    for use in uses:
        if use.plant_id is None and use.place_id is None and use.season is None:
            hint = tr("Name a plant, a place or a season, or put the recipe in use.")
            raise InputError("uses", "", tr("says nowhere"), hint)
        for what, key, there in (
            (tr("A plant"), use.plant_id, plants),
            (tr("A place"), use.place_id, places),
        ):
            if key is not None and key not in there:
                hint = tr("It was removed; take it out here too.")
                raise InputError("uses", what, tr("is not there any more"), hint)
        for day in use.season or ():
            _check_day(day)
    return tuple(dict.fromkeys(uses))


def put_uses(
    writing: Writing, recipe_id: int, uses: Sequence[UseDraft]
) -> tuple[str, ...]:
    """Write where a recipe holds; the very same word is taken from other recipes.

    Gives a line on each taken one. What stands already keeps its place.
    """
    rows = writing.session.execute(
        select(RecipeUseRow.__table__, RecipeRow.name, RecipeRow.gone_on)
        .join(RecipeRow, RecipeRow.id == RecipeUseRow.recipe_id)
        .order_by(RecipeUseRow.id)
    ).all()
    own = {use_of(row): row.id for row in rows if row.recipe_id == recipe_id}
    gone = [row_id for use, row_id in own.items() if use not in uses]
    writing.delete_many(RecipeUseRow, gone)
    new = [use for use in uses if use not in own]
    taken = [
        row
        for row in rows
        if row.recipe_id != recipe_id and row.gone_on is None and use_of(row) in new
    ]
    named = _names(writing.session, map(use_of, taken))
    writing.delete_many(RecipeUseRow, [row.id for row in taken])
    writing.insert_many(RecipeUseRow, [_values(recipe_id, use) for use in new])
    return tuple(
        tr("{said} was fed by {name} until now.").format(said=said, name=row.name)
        for row, said in zip(taken, named, strict=True)
    )


def names_of(session: Session, recipe_id: int) -> list[str]:
    """Give in words where a recipe holds."""
    rows = session.execute(
        select(RecipeUseRow.__table__)
        .where(RecipeUseRow.recipe_id == recipe_id)
        .order_by(RecipeUseRow.id)
    )
    return _names(session, map(use_of, rows))


def use_words(tag: str, place: str, season: tuple[MonthDay, MonthDay] | None) -> str:
    """Give where a recipe holds as a person reads it; empty texts are not named."""
    said = ", ".join(filter(None, (tag, place)))
    if season is None:
        return said
    days = tr("{first} to {last}").format(
        first=day_text(season[0]), last=day_text(season[1])
    )
    return f"{said}, {days}" if said else days


def day_text(day: MonthDay) -> str:
    """Give a day of the year as it is typed and kept, ``09-15``."""
    return f"{day[0]:02}-{day[1]:02}"


def _names(session: Session, uses: Iterable[UseDraft]) -> list[str]:
    wanted = list(uses)
    if not wanted:
        return []
    named = {use.plant_id for use in wanted if use.plant_id is not None}
    of_these = _TAGS.where(PlantRow.id.in_(named))
    tags = {row[0]: row[1] for row in session.execute(of_these)}
    places = {row[0]: row[1] for row in session.execute(_PLACES)}
    return [
        use_words(
            tags.get(use.plant_id or 0, ""),
            places.get(use.place_id or 0, ""),
            use.season,
        )
        for use in wanted
    ]


def _values(recipe_id: int, use: UseDraft) -> dict[str, object]:
    season = use.season
    return {
        "recipe_id": recipe_id,
        "plant_id": use.plant_id,
        "place_id": use.place_id,
        "from_day": None if season is None else day_text(season[0]),
        "until_day": None if season is None else day_text(season[1]),
    }


def _check_day(day: MonthDay) -> None:
    try:
        date(_LEAP_YEAR, *day)
    except ValueError:
        raise InputError(
            "uses", f"{day[0]}-{day[1]}", tr("is no day of the year"), tr(_SEASON_HINT)
        ) from None
