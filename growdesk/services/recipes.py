"""The recipes of a collection: kept, copied, put in use, and said where they hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from msgspec.structs import replace
from sqlalchemy import or_, select

from growdesk.domain.errors import InputError
from growdesk.domain.facts_fields import Range
from growdesk.domain.speech import tr
from growdesk.domain.wanted_text import LEAST_N
from growdesk.services import checking, shelf
from growdesk.services.ledger import written
from growdesk.services.named_rows import name_of, put_in_use, refuse_second
from growdesk.services.plant_rows import tag_order
from growdesk.services.recipe_drafts import read_views
from growdesk.services.recipe_look import look_at, recipe_of
from growdesk.services.recipe_uses import checked_uses, names_of, put_uses
from growdesk.services.recipe_values import RecipeBoard
from growdesk.services.standing import growing, here
from growdesk.services.water_rows import waters
from growdesk.store.schema import (
    PlaceRow,
    PlantRow,
    RecipePartRow,
    RecipeRow,
    RecipeUseRow,
    WaterRow,
)

if TYPE_CHECKING:
    from growdesk.services.ledger import Ledger
    from growdesk.services.recipe_values import (
        PartDraft,
        RecipeDraft,
        RecipeLook,
        RecipeView,
    )
    from growdesk.services.values import Written
    from growdesk.store.journal import Writing
    from growdesk.store.session import Session

STRENGTH = Range(1, 1000)
_SHARE = Range(0.0001, 100_000)
_WANTED = Range(0, 10_000)


class Recipes:
    """The recipes of one collection."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger

    def all(self) -> tuple[RecipeView, ...]:
        """Give all recipes, the one in use first, then by name."""
        with self._ledger.reading() as session:
            return read_views(session)

    def board(self) -> RecipeBoard:
        """Give all recipes with the tins, waters, plants and places to choose from."""
        with self._ledger.reading() as session:
            used = select(RecipeUseRow.plant_id)
            plants = session.execute(
                select(PlantRow.id, PlantRow.tag).where(
                    here(), or_(growing(), PlantRow.id.in_(used))
                )
            )
            places = session.execute(select(PlaceRow.id, PlaceRow.name))
            return RecipeBoard(
                recipes=read_views(session),
                tins=shelf.tins(session),
                waters=waters(session),
                plants=tuple(
                    sorted(
                        ((i, tag) for i, tag in plants), key=lambda p: tag_order(p[1])
                    )
                ),
                places=tuple(
                    sorted(((i, n) for i, n in places), key=lambda p: p[1].casefold())
                ),
            )

    def look(
        self, draft: RecipeDraft, strength_ppm_n: float, water_id: int | None = None
    ) -> RecipeLook:
        """Give what a litre of a recipe holds; nothing is written.

        Without ``water_id`` it is mixed with its own water, else the one in use.
        """
        checking.number("strength", strength_ppm_n, STRENGTH)
        with self._ledger.reading() as session:
            kept = shelf.read_unrecorded(session)
        return look_at(_checked_numbers(draft), kept, strength_ppm_n, water_id)

    def add(self, draft: RecipeDraft) -> Written:
        """Keep a new recipe."""
        kept = _checked_numbers(draft)
        title = tr("Recipe {name} added").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            self._check(writing.session, kept, None)
            recipe_id = writing.insert(RecipeRow, _values(kept))
            problems = self._put(writing, recipe_id, kept)
        return written(writing, title, (recipe_id,), problems)

    def change(self, recipe_id: int, draft: RecipeDraft) -> Written:
        """Change a recipe, what it is made of and where it holds."""
        kept = _checked_numbers(draft)
        title = tr("Recipe {name} changed").format(name=kept.name)
        with self._ledger.writing(title) as writing:
            name_of(writing.session, RecipeRow, recipe_id, "recipe")
            self._check(writing.session, kept, recipe_id)
            writing.update(RecipeRow, recipe_id, _values(kept))
            problems = self._put(writing, recipe_id, kept)
        return written(writing, title, (recipe_id,), problems)

    def copy(self, recipe_id: int) -> Written:
        """Make a copy that holds nowhere yet and is not in use."""
        with self._ledger.reading() as session:
            name = name_of(session, RecipeRow, recipe_id, "recipe")
            views = {view.recipe_id: view for view in read_views(session)}
        title = tr("Recipe {name} copied").format(name=name)
        taken = {view.draft.name.casefold() for view in views.values()}
        copied = replace(
            views[recipe_id].draft, name=_free_name(name, taken), in_use=False, uses=()
        )
        with self._ledger.writing(title) as writing:
            new_id = writing.insert(RecipeRow, _values(copied))
            _put_parts(writing, new_id, copied.parts)
        return written(writing, title, (new_id,))

    def remove(self, recipe_id: int) -> Written:
        """Take a recipe away; where it held is told, and goes by what else is said."""
        with self._ledger.reading() as session:
            name = name_of(session, RecipeRow, recipe_id, "recipe")
            held = names_of(session, recipe_id)
        title = tr("Recipe {name} removed").format(name=name)
        gone = {"in_use": False, "gone_on": self._ledger.today()}
        with self._ledger.writing(title) as writing:
            writing.update(RecipeRow, recipe_id, gone)
        problems = (
            (tr("It held for {list}.").format(list="; ".join(held)),) if held else ()
        )
        return written(writing, title, (), problems)

    def use(self, recipe_id: int) -> Written:
        """Feed by this recipe wherever nothing narrower is said."""
        with self._ledger.reading() as session:
            name = name_of(session, RecipeRow, recipe_id, "recipe")
            title = tr("Recipe {name} in use").format(name=name)
        with self._ledger.writing(title) as writing:
            put_in_use(writing, RecipeRow, recipe_id)
        return written(writing, title, (recipe_id,))

    def _check(self, session: Session, kept: RecipeDraft, own: int | None) -> None:
        """Refuse a name taken, and what could not be mixed."""
        refuse_second(session, RecipeRow, kept.name, own, "recipe")
        if kept.water_id is not None and not session.scalar(
            select(WaterRow.id).where(
                WaterRow.id == kept.water_id, WaterRow.gone_on.is_(None)
            )
        ):
            hint = tr("Choose another, or the water in use.")
            raise InputError("water", kept.water_id, tr("is not there any more"), hint)
        there = shelf.read_unrecorded(session)
        recipe = recipe_of(kept, there)
        if not any(part.product.mg_per_g().get("N") for part in recipe.parts):
            hint = tr("Add a product that holds nitrogen.")
            raise InputError("parts", kept.name, tr("brings no nitrogen"), hint)

    def _put(
        self, writing: Writing, recipe_id: int, kept: RecipeDraft
    ) -> tuple[str, ...]:
        """Write parts and uses; give a line on each use taken from another recipe."""
        _put_parts(writing, recipe_id, kept.parts)
        if kept.in_use:
            put_in_use(writing, RecipeRow, recipe_id)
        uses = checked_uses(writing.session, kept.uses)
        return put_uses(writing, recipe_id, uses)


def _checked_numbers(draft: RecipeDraft) -> RecipeDraft:
    """Give a recipe as it is kept; shares solved for are none of the grower's."""
    name = checking.needed_text(
        "name", draft.name, tr("Write what you call it."), checking.NAME
    )
    wanted = draft.wanted
    if wanted is not None:
        for amount in (wanted.n, wanted.p, wanted.k, wanted.ca, wanted.mg):
            checking.number("wanted", amount, _WANTED)
        if wanted.n < LEAST_N:
            hint = tr('Write for instance "3:1:2:1:0.5".')
            raise InputError("wanted", wanted.n, tr("wants no nitrogen"), hint)
    tins = [part.tin_id for part in draft.parts]
    if len(tins) != len(set(tins)):
        raise InputError("parts", name, tr("names a tin twice"), tr("Name each once."))
    return replace(
        draft,
        name=name,
        parts=tuple(
            replace(part, share=None if wanted else _share(part))
            for part in draft.parts
        ),
        note=checking.text("note", draft.note),
    )


def _share(part: PartDraft) -> float:
    if part.share is None:
        hint = tr("Give the parts by weight, for instance 2 and 1.")
        raise InputError("parts", tr("A tin"), tr("has no share"), hint)
    return checking.number("parts", part.share, _SHARE) or 0.0


def _values(draft: RecipeDraft) -> dict[str, object]:
    wanted = draft.wanted
    return {
        "name": draft.name,
        "in_use": draft.in_use,
        "water_id": draft.water_id,
        "wanted_n": wanted and wanted.n,
        "wanted_p": wanted and wanted.p,
        "wanted_k": wanted and wanted.k,
        "wanted_ca": wanted and wanted.ca,
        "wanted_mg": wanted and wanted.mg,
        "note": draft.note,
    }


def _put_parts(writing: Writing, recipe_id: int, parts: tuple[PartDraft, ...]) -> None:
    rows = writing.session.execute(
        select(RecipePartRow.id, RecipePartRow.tin_id, RecipePartRow.share)
        .where(RecipePartRow.recipe_id == recipe_id)
        .order_by(RecipePartRow.id)
    ).all()
    wanted = [(part.tin_id, part.share) for part in parts]
    if [(row.tin_id, row.share) for row in rows] == wanted:
        return
    writing.delete_many(RecipePartRow, [row.id for row in rows])
    writing.insert_many(
        RecipePartRow,
        [
            {"recipe_id": recipe_id, "tin_id": tin_id, "share": share}
            for tin_id, share in wanted
        ],
    )


def _free_name(name: str, taken: set[str]) -> str:
    """Give a name for a copy that no recipe has."""
    base = tr("{name}, copy").format(name=name[: checking.NAME - 12])
    numbered = (f"{base} {number}" for number in range(2, len(taken) + 3))
    return next(n for n in (base, *numbered) if n.casefold() not in taken)
