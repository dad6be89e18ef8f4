"""What is done to many plants at once asks no more of the database than of a few."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from sqlalchemy import event
from sqlalchemy.engine import Engine

from growdesk.domain.facts import CareKind, Medium, Overrule, Verdict
from growdesk.domain.holding import Descent
from growdesk.services.care_values import CareDraft
from growdesk.services.plant_values import Dividing
from growdesk.services.values import PlaceDraft, PlantDraft

if TYPE_CHECKING:
    from collections.abc import Callable

    from growdesk.services.collection import Collection
    from growdesk.services.values import Written


def counted(work: Callable[[], Written]) -> tuple[int, Written]:
    said: list[str] = []

    def note(*each: object) -> None:
        said.append(str(each[2]))

    event.listen(Engine, "before_cursor_execute", note)
    done = work()
    event.remove(Engine, "before_cursor_execute", note)
    return len(said), done


def asked(collection: Collection, size: int, today: date) -> list[int]:
    """Count the statements of each thing done to ``size`` plants."""
    place = collection.places.add(PlaceDraft(f"Place {size}")).ids[0]
    ids = tuple(
        collection.plants.add(PlantDraft(f"{size}-{n}", "", "cattleya", place)).ids[0]
        for n in range(size)
    )
    repot = CareDraft(today, CareKind.REPOT, medium=Medium.BARK)
    given, written = counted(lambda: collection.care.add(ids, repot))
    taken, _ = counted(lambda: collection.care.remove(written.ids))
    tags = tuple(f"{size}-{n} new" for n in range(size))
    piece = Dividing(today, Descent.DIVISION, tags, "", place)
    divided, _ = counted(lambda: collection.plants.divide(ids[0], piece))
    until = today + timedelta(days=9)
    dry = Overrule(Verdict.KEEP_DRY, "Away.", until)
    overruled, _ = counted(lambda: collection.plants.overrule(ids, dry))
    removed, _ = counted(lambda: collection.plants.remove(ids))
    emptied, _ = counted(lambda: collection.plants.remove(divided_of(collection, tags)))
    cleared, _ = counted(lambda: collection.places.remove(place))
    return [given, taken, divided, overruled, removed, emptied, cleared]


def divided_of(collection: Collection, tags: tuple[str, ...]) -> tuple[int, ...]:
    by_tag = {draft.tag: plant_id for plant_id, draft in collection.plants.all()}
    return tuple(by_tag[tag] for tag in tags)


def test_many_ask_no_more_than_a_few(collection: Collection, today: date) -> None:
    few = asked(collection, 2, today)
    assert min(few) > 0
    assert asked(collection, 30, today) == few
