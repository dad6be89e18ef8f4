"""What a grower does in a collection, drawn by chance: the work that is killed.

Each act writes by one call of a service; what a service refuses is no act.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace
from PIL import Image

from growdesk.domain.errors import InputError
from growdesk.domain.facts import CareKind, Flowering, Look, NewGrowths, RootTips
from growdesk.services import transfer
from growdesk.services.care_values import CareDraft
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.ticking import Repot
from growdesk.services.values import PlaceDraft, PlantDraft, TinDraft, WaterDraft
from tests.faults.content import state

if TYPE_CHECKING:
    import random
    from collections.abc import Callable
    from pathlib import Path

    from tests.faults.content import State

TODAY = date(2026, 5, 20)
_SEEN = TODAY - timedelta(days=3)
_KINDS = ("cattleya", "cattleya", "catasetum", "cattleya", "phalaenopsis", "cattleya")


class Grower(Struct, frozen=True):
    """Who acts: an open collection, a place for files of others, and chance."""

    collection: Collection
    scratch: Path
    chance: random.Random
    serial: str

    @property
    def plants(self) -> list[int]:
        """Give the numbers of the plants."""
        return [plant_id for plant_id, _ in self.collection.plants.all()]

    def some(self) -> list[int]:
        """Give one, two or three plants."""
        known = self.plants
        return self.chance.sample(known, min(len(known), self.chance.randint(1, 3)))

    def day(self) -> date:
        """Give today or a day shortly before."""
        return TODAY - timedelta(days=self.chance.randint(0, 4))

    def name(self, what: str) -> str:
        """Give a name that nothing had before."""
        return f"{what}{self.serial}-{self.chance.getrandbits(48):012x}"


def prepare(folder: Path) -> State:
    """Make the small collection that work begins with; give what an empty one is."""
    made = Collection.open(folder, FixedClock(TODAY), create=True)
    empty = state(folder)
    place = made.places.add(PlaceDraft("East sill")).ids[0]
    made.mixing.add_tin(TinDraft("Green tin", "20-20-20"))
    made.waters.add(WaterDraft("rain"))
    for number, kind in enumerate(_KINDS):
        tag, name = f"A{number}", f"{kind} {number}"
        draft = PlantDraft(tag, name, kind, place, pot_volume_l=1.2)
        plant = made.plants.add(draft).ids[0]
        look = Look(
            _SEEN,
            new_growths=NewGrowths(extending=1),
            root_tips=RootTips.RUNNING,
            flowering=frozenset({Flowering.OPEN}),
        )
        made.looks.record(plant, look)
    made.close()
    return empty


def tick(who: Grower) -> object:
    day = who.collection.day
    how = who.chance.randrange(5)
    if how == 0:
        return day.untick(who.some(), who.day())
    if how == 1:
        return day.pass_by(who.some(), TODAY)
    if how == 2:
        return day.give(who.some(), who.day(), CareKind.FEED, 100.0)
    return day.tick(who.some(), TODAY)


def note(who: Grower) -> object:
    c, words = who.collection, "x" * who.chance.randint(1, 6_000)
    plant = who.chance.choice(who.plants)
    how = who.chance.randrange(4)
    if how == 0:
        return c.looks.record(plant, Look(who.day()), words)
    if how == 1:
        treat = CareDraft(who.day(), CareKind.TREAT, note=words, product="Soap")
        return c.care.add(who.some(), treat)
    if how == 2:
        known = dict(c.plants.all())
        return c.plants.change(plant, replace(known[plant], note=words))
    return c.day.repot([plant], Repot(who.day(), note=words))


def photo(who: Grower) -> object:
    pictures = [_picture(who) for _ in range(who.chance.randint(1, 2))]
    plant = who.chance.choice(who.plants)
    if who.chance.randrange(2):
        return who.collection.looks.record(plant, Look(who.day()), "", pictures)
    return who.collection.photos.add(plant, pictures)


def back(who: Grower) -> object:
    history = who.collection.history
    how = who.chance.randrange(5)
    if how < 2 and len(who.plants) > 3:
        return history.undo()
    if how == 2:
        return history.redo()
    return note(who) if how == 3 else tick(who)


def table(who: Grower) -> object:
    path = who.scratch / f"{who.name('t')}.csv"
    if who.chance.randrange(2):
        tags = [draft.tag for _, draft in who.collection.plants.all()]
        lines = [
            f"{who.chance.choice(tags)},{who.day().isoformat()},feed,{words}"
            for words in range(who.chance.randint(1, 60))
        ]
        path.write_text("\n".join(["tag,on,what,note", *lines]) + "\n")
    else:
        lines = [
            f"{who.name('T')},Cattleya {words},cattleya,{who.name('Hall')}"
            for words in range(who.chance.randint(1, 4))
        ]
        path.write_text("\n".join(["tag,name,kind,place", *lines]) + "\n")
    survey = transfer.survey_of(path)
    return transfer.take(who.collection.ledger, survey, transfer.choose(survey)).written


def _picture(who: Grower) -> Path:
    path = who.scratch / f"{who.name('p')}.jpg"
    side = who.chance.randint(16, 160)
    Image.frombytes("L", (side, side), who.chance.randbytes(side * side)).save(path)
    return path


WORKS: dict[str, tuple[Callable[[Grower], object], ...]] = {
    "ticks": (tick,),
    "notes": (note,),
    "photos": (photo,),
    "undo": (back,),
    "csv": (table,),
    "mixed": (tick, note, photo, back, table),
}


def act(who: Grower, work: str) -> str:
    """Do one thing of a work; give its name, or nothing where it was refused."""
    chosen = who.chance.choice(WORKS[work])
    try:
        did = chosen(who)
    except InputError:
        return ""
    return "" if did is None else chosen.__name__
