"""What a long-lived collection shows is what one opened this moment shows.

    python -m tests.services.freshness --runs 300 --steps 60 --seed 1

Random use cases, by a seed, of one that writes and of one that only reads beside it
(another process to it: all it learns, it learns from the file). Each keeps days of its
own; after a step some of what they show is held against a collection just opened.
"""

from __future__ import annotations

import argparse
import random
import tempfile
from collections import Counter
from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import InputError
from growdesk.domain.facts import (
    CareKind,
    Flowering,
    Health,
    Look,
    Medium,
    NewGrowths,
    Overrule,
    Pot,
    Reading,
    RootTips,
    Verdict,
)
from growdesk.domain.holding import Descent, Status
from growdesk.domain.measuring import Tool, ToolKind
from growdesk.domain.night import Expected
from growdesk.domain.stocktaking import Good, Sort, What
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services import begun_day, emptying
from growdesk.services.bench_values import BenchDraft
from growdesk.services.bloom_values import BloomDraft
from growdesk.services.care_values import CareDraft
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.plant_values import Dividing, Leaving, ManyChanges
from growdesk.services.recipe_values import PartDraft, RecipeDraft
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.services.ticking import Repot
from growdesk.services.values import (
    DayView,
    Line,
    PlaceDraft,
    PlantDetail,
    PlantDraft,
    TinDraft,
    Unjudged,
    WaterDraft,
)
from growdesk.services.watering_day import WateringDay
from tests.conftest import TODAY
from tests.quick_store import quick_store

if TYPE_CHECKING:
    from collections.abc import Callable

DAY = timedelta(days=1)
KINDS = ("cattleya", "catasetum", "phalaenopsis", "vanda", "paphiopedilum", "oncidium")
PLANTS = 7
FEW = 3, 2, 2
"""So many plants are judged at once here, at first, and in each step."""
SHOWN = (
    *("day", "day", "day", "steps", "steps", "steps"),
    *("plant", "week", "roster", "calendar", "sheet", "worth"),
)
NO_JUG = {"letter": None, "jug_ppm_n": None, "outside_band": False}


class BrokenError(Exception):
    """Thrown inside a block, so that nothing of it is kept."""


class Freshness:
    """A collection that is written, one that reads it, and chance."""

    def __init__(self, folder: Path, seed: int) -> None:
        self.folder = folder
        self.clock = FixedClock(TODAY)
        self.chance = random.Random(seed)  # noqa: S311 -- actions, not secrets
        self.c = Collection.open(folder, self.clock, create=True)
        self._stock()
        self.beside = Collection.open_to_read(folder, self.clock)
        self.done: Counter[str] = Counter()
        self.refused: Counter[str] = Counter()
        self.compared: Counter[str] = Counter()
        self.told: list[str] = []
        self._days = {
            each: [WateringDay(each.ledger) for _ in range(3)]
            for each in (self.c, self.beside)
        }
        self._acts = {
            name.removeprefix("do_"): getattr(self, name)
            for name in dir(self)
            if name.startswith("do_")
        }

    def close(self) -> None:
        """Let go of both."""
        self.beside.close()
        self.c.close()

    def run(self, steps: int, *, likely: float = 0.6) -> None:
        """Do so many things and compare after most of them."""
        for number in range(steps):
            name = self.chance.choice([*self._acts, *["undo"] * 3, *["look", "tick"]])
            self._try(name)
            if self.chance.random() < likely or number == steps - 1:
                self.compare()

    def compare(self, what: str = "") -> None:
        """Hold what both show of something against a collection just opened."""
        what = what or self.chance.choice(SHOWN)
        if what == "steps":
            self._compare_steps()
            return
        on = self._any_day()
        which = self.chance.randrange(3)
        plant = self._growing()
        ask: dict[str, Callable[[Collection, WateringDay], object]] = {
            "day": lambda _c, d: d.view(on),
            "plant": lambda _c, d: d.detail(
                plant, on, d.view(on) if self._seen else None
            ),
            "week": lambda _c, d: d.week(on),
            "roster": lambda c, _d: (c.roster.read(on), c.roster.noted()),
            "calendar": lambda c, _d: c.calendar.jobs(
                on - 30 * DAY, on + 200 * DAY, on
            ),
            "sheet": lambda c, _d: c.sheet.week(on),
            "worth": lambda _c, d: d.worth(on),
        }
        self._seen = self.chance.random() < 0.5
        fresh = Collection.open_to_read(self.folder, self.clock)
        true = ask[what](fresh, fresh.day)
        fresh.close()
        for each, days in self._days.items():
            shown = ask[what](each, days[which])
            if isinstance(shown, PlantDetail) and shown.jug_waits:
                assert isinstance(true, PlantDetail)
                shown = replace(
                    shown,
                    letter=true.letter,
                    jug_ppm_n=true.jug_ppm_n,
                    outside_band=true.outside_band,
                    jug_waits=False,
                )
            who = "writing" if each is self.c else "reading"
            assert shown == true, (what, str(on), who, self.told)
            self.compared[what] += 1

    def _compare_steps(self) -> None:
        """Go some steps towards a day, and hold what is judged against the whole."""
        on = self.today - self.chance.choice([0, 0, 0, 1]) * DAY
        which = self.chance.randrange(3)
        steps = self.chance.choice([1, 2, 3, 99])
        fresh = Collection.open_to_read(self.folder, self.clock)
        true = fresh.day.view(on)
        fresh.close()
        lines = {each.plant_id: each for each in true.lines}
        for each, days in self._days.items():
            told = "steps", str(on), "writing" if each is self.c else "reading"
            for _ in range(steps):
                found = days[which].by_steps(on, [self._growing()])
                if isinstance(found, DayView):
                    assert found == true, (*told, self.told)
                    self.compared["steps, whole"] += 1
                    break
                ids = [line.plant_id for line in found.lines]
                assert ids == list(lines), (*told, self.told)
                for line in found.lines:
                    of = lines[line.plant_id]
                    if isinstance(line, Line):
                        assert line == replace(of, **NO_JUG), (*told, self.told)
                    else:
                        said = [
                            getattr(of, name) for name in Unjudged.__struct_fields__
                        ]
                        assert [
                            getattr(line, n) for n in Unjudged.__struct_fields__
                        ] == said
                self.compared["steps, part"] += 1

    def _try(self, name: str) -> None:
        self.told.append(name)
        self.done[name] += 1
        try:
            self._acts[name]()
        except InputError:
            self.refused[name] += 1

    def _stock(self) -> None:
        c = self.c
        self.tin = c.mixing.add_tin(TinDraft("Blue tin", "20-20-20")).ids[0]
        self.water = c.waters.add(WaterDraft("rain", 0.1)).ids[0]
        self.places = [
            c.places.add(PlaceDraft("East sill")).ids[0],
            c.places.add(PlaceDraft("Yard", "garden", outdoors=True)).ids[0],
        ]
        self.bench = c.benches.add(self.places[0], BenchDraft("Top")).ids[0]
        for _ in range(PLANTS):
            self.do_plant()
            self.do_look()
        entry = EntryDraft(Good(Sort.TIN, self.tin), TODAY - 9 * DAY, What.COUNTED, 5.0)
        c.stocktaking.write(entry)

    @property
    def today(self) -> date:
        return self.clock.day

    def _any_day(self) -> date:
        far = [0, 0, 0, 0, -1, -3, 1, 3, 7, 12]
        return self.today + self.chance.choice(far) * DAY

    def _lately(self) -> date:
        return self.today - self.chance.choice([0, 0, 0, 1, 2, 5, 20, 400, 800]) * DAY

    def _growing(self) -> int:
        found = [number for number, draft in self.c.plants.all() if is_here(draft)]
        return self.chance.choice(found) if found else self.c.plants.all()[0][0]

    def _some(self) -> list[int]:
        return list({self._growing() for _ in range(self.chance.choice([1, 2, 4]))})

    def _place(self) -> int:
        return self.chance.choice(self.places)

    def do_look(self) -> None:
        """Record what is seen, also of long ago."""
        pick = self.chance.choice
        seen = Look(
            self._lately(),
            pick([None, NewGrowths(extending=1), NewGrowths(0, 0, 0, 2)]),
            root_tips=pick([None, *RootTips]),
            longest_new_root_mm=pick([None, 10.0, 90.0]),
            flowering=pick([None, frozenset({Flowering.OPEN})]),
            pot=pick([None, *Pot]),
            health=pick([None, None, frozenset(), *(frozenset({h}) for h in Health)]),
            runoff_ec_ms_per_cm=pick([None, None, 0.4, 3.0]),
        )
        self.c.looks.record(self._growing(), seen, pick(["", "a note"]))

    def _a_look(self) -> int:
        found = self.c.day.detail(self._growing(), self.today).looks
        if not found:
            raise InputError("look", "", "there is none", "")
        return self.chance.choice(found).look_id

    def do_look_changed(self) -> None:
        self.c.looks.change(self._a_look(), Look(self._lately(), pot=Pot.WET), "other")

    def do_look_gone(self) -> None:
        self.c.looks.delete(self._a_look())

    def do_tick(self) -> None:
        self.c.day.tick(self._some(), self.chance.choice([self.today, self._any_day()]))

    def do_untick(self) -> None:
        self.c.day.untick(self._some(), self._any_day())

    def do_pass_by(self) -> None:
        self.c.day.pass_by(self._some(), self.today)

    def do_give(self) -> None:
        what = self.chance.choice([CareKind.FEED, CareKind.FLUSH, CareKind.CLEAR_WATER])
        self.c.day.give(self._some(), self._lately(), what, None)

    def do_care(self) -> None:
        draft = CareDraft(self._lately(), CareKind.TREAT, note="scale", product="soap")
        self.c.care.add(self._some(), draft)

    def do_care_gone(self) -> None:
        found = self.c.day.detail(self._growing(), self.today).care
        self.c.care.remove([each.care_id for each in found[:2]])

    def do_repot(self) -> None:
        done = Repot(self._lately(), 2.0, self.chance.choice(list(Medium)))
        self.c.day.repot(self._some(), done)

    def do_plant(self) -> None:
        kind = self.chance.choice(KINDS)
        draft = PlantDraft(
            self.c.plants.next_tag() if self.c.plants.all() else "A1",
            f"{kind} one",
            kind,
            self._place(),
            pot_volume_l=self.chance.choice([None, 0.5, 3.0]),
        )
        self.c.plants.add(draft)

    def do_change(self) -> None:
        plant = self._growing()
        pick = self.chance.choice
        fields: dict[str, object] = pick(
            [
                {"tag": f"X{self.chance.randrange(12)}"},
                {"kind": pick(KINDS)},
                {"bench": pick([None, 1, 2, 9])},
                {"place_id": self._place(), "bench_id": None},
                {"bench_id": self.bench, "place_id": self.places[0]},
                {"pot_volume_l": pick([None, 0.4, 5.0])},
                {"repotted_on": self._lately()},
                {"feed_interval_days": pick([None, 3, 20])},
                {"ignores_rest": True},
                {"acquired_on": self._lately()},
                {"quarantine_until": self.today + 3 * DAY},
                {"slow_release_until": self.today + DAY},
            ]
        )
        self.c.plants.change(plant, replace(self.c.plants.get(plant), **fields))

    def do_change_many(self) -> None:
        medium = self.chance.choice(list(Medium))
        self.c.plants.change_many(self._some(), ManyChanges({"medium": medium}, "n"))

    def do_overrule(self) -> None:
        until = self.today + self.chance.choice([0, 1, 9]) * DAY
        word = Overrule(self.chance.choice(list(Verdict)[:4]), "it sulks", until)
        self.c.plants.overrule(self._some(), self.chance.choice([None, word, word]))

    def do_move(self) -> None:
        self.c.plants.move(self._some(), self._place())

    def do_along(self) -> None:
        self.c.benches.put(self.places[0], self.bench, self._some())

    def do_places_in_turn(self) -> None:
        self.c.benches.order_places(self.chance.sample(self.places, len(self.places)))

    def do_glass(self) -> None:
        at = self.chance.random() < 0.5
        self.c.benches.change(self.bench, BenchDraft("Top", at_glass=at))

    def do_place(self) -> None:
        place = self._place()
        draft = next(v.draft for v in self.c.places.all() if v.place_id == place)
        name = f"Place {self.chance.randrange(9)}"
        self.c.places.change(place, replace(draft, name=name))

    def do_leave(self) -> None:
        gone = Leaving(self.chance.choice([Status.SOLD, Status.LOST]), self.today)
        self.c.plants.leave([self._growing()], gone)

    def do_back(self) -> None:
        left = [n for n, draft in self.c.plants.all() if not is_here(draft)]
        if left:
            self.c.plants.back(left)

    def do_divide(self) -> None:
        tag = self.c.plants.next_tag()
        plant = self._growing()
        how = Dividing(self.today, Descent.DIVISION, (tag,), "", self._place())
        self.c.plants.divide(plant, how)

    def do_bin(self) -> None:
        if len(self.c.plants.all()) > 4:
            self.c.plants.remove([self._growing()])

    def do_from_bin(self) -> None:
        for entry in self.c.bin.view().entries[:1]:
            self.c.bin.put_back(entry.key)

    def do_empty_bin(self) -> None:
        if self.chance.random() < 0.3:
            emptying.empty(self.c)

    def do_undo(self) -> None:
        for _ in range(self.chance.choice([1, 1, 1, 3])):
            self.c.history.undo()

    def do_redo(self) -> None:
        for _ in range(self.chance.choice([1, 1, 4])):
            self.c.history.redo()

    def do_undo_and_other(self) -> None:
        """Undo a thing, and do another under the number it had."""
        self.c.history.undo()
        self.chance.choice([self.do_look, self.do_overrule, self.do_move])()

    def do_together(self) -> None:
        """Do several things as one, and look at the day in between."""
        with self.c.ledger.together("several"):
            for _ in range(3):
                name = self.chance.choice(["look", "tick", "give", "change", "house"])
                with suppress(InputError):
                    self._acts[name]()
                on, kept = self._any_day(), self._days[self.c][0]
                assert kept.view(on) == WateringDay(self.c.ledger).view(on), self.told

    def do_together_in_vain(self) -> None:
        """Look at the day amid things of which nothing is kept."""
        with suppress(BrokenError), self.c.ledger.together("nothing"):
            with suppress(InputError):
                self.do_overrule()
            self.do_look()
            for each in self._days[self.c]:
                each.view(self.today)
            raise BrokenError

    def do_house(self) -> None:
        house = self.c.settings.house()
        pick = self.chance.choice
        changes: dict[str, object] = pick(
            [
                {"jugs": pick([1, 2, 3])},
                {"full_strength_ppm_n": pick([90.0, 150.0])},
                {"watering_weekdays": pick([(2, 5), (1,), (0, 3, 6)])},
                {"latitude": pick([50.0, -35.0])},
                {"least_interval_days": pick([3, 6])},
            ]
        )
        self.c.settings.save_house(replace(house, **changes))

    def do_word(self) -> None:
        self.c.settings.set_word("name", self.chance.choice(["Ours", "The bench"]))

    def do_kind(self) -> None:
        field = {"light_low_fc": self.chance.choice(["900", "2100"])}
        self.c.kinds.correct(self.chance.choice(KINDS), field)

    def do_kind_of_plant(self) -> None:
        field = {"light_low_fc": self.chance.choice(["900", "2100"])}
        self.c.kinds.correct_for_plant(self._growing(), field)

    def do_tin(self) -> None:
        name = f"Tin {self.chance.randrange(99)}"
        draft = TinDraft(name, self.chance.choice(["15-5-15", "10-30-20"]))
        self.c.mixing.add_tin(draft)

    def do_tin_changed(self) -> None:
        draft = TinDraft("Blue tin", self.chance.choice(["20-20-20", "12-4-8"]))
        self.c.mixing.change_tin(self.tin, draft)

    def do_water(self) -> None:
        ec = self.chance.choice([0.05, 0.9, 1.6])
        self.c.waters.change(self.water, WaterDraft("tap", ec))

    def do_recipe(self) -> None:
        name = f"House {self.chance.randrange(99)}"
        made = self.c.recipes.add(RecipeDraft(name, (PartDraft(self.tin, 1.0),)))
        self.c.recipes.use(made.ids[0])

    def do_counted(self) -> None:
        good = self.chance.choice([Good(Sort.TIN, self.tin), Good(Sort.WATER, 1)])
        amount = self.chance.choice([0.5, 5.0, 500.0])
        self.c.stocktaking.write(EntryDraft(good, self.today, What.COUNTED, amount))

    def do_tool(self) -> None:
        name = f"spoon {self.chance.randrange(99)}"
        tool = Tool(ToolKind.SPOON, name, 0.5, None, ((self.tin, 4.0),))
        self.c.measures.add_tool(tool)

    def do_vessel(self) -> None:
        name = f"Jug {self.chance.randrange(99)}"
        self.c.measures.add_vessel(Vessel(VesselKind.JUG, name, 3.0))

    def do_reading(self) -> None:
        low = self.chance.choice([2.0, 14.0, 19.0])
        self.c.readings.write(self._place(), Reading(self._lately(), low))

    def do_night(self) -> None:
        low = self.chance.choice([-2.0, 8.0])
        self.c.nights.expect(self.today, {self._place(): Expected(low, 20.0)})

    def do_rain(self) -> None:
        self.c.rain.fell([self.places[1]], self._lately(), 30.0)

    def do_bloom(self) -> None:
        self.c.blooms.add(self._growing(), BloomDraft(None, self._lately(), None, 3))

    def do_mark(self) -> None:
        self.c.hindsight.mark(self._growing(), self.today, Verdict.KEEP_DRY)

    def do_job(self) -> None:
        lines = self.c.calendar.jobs(self.today - 30 * DAY, self.today + 90 * DAY)
        meant = [x for x in lines if not x.settled and not x.forecast]
        if not meant:
            return
        line = self.chance.choice(meant)
        if line.closed is None:
            self.c.calendar.done(line)
        else:
            self.c.calendar.reopen(line)

    def do_midnight(self) -> None:
        self.clock.day += self.chance.choice([1, 1, 1, 3, 7]) * DAY


def is_here(draft: PlantDraft) -> bool:
    """Tell whether a plant grows here."""
    return draft.status is Status.GROWING


def main() -> None:
    """Run what was asked for and print the counts."""
    asks = argparse.ArgumentParser(description=__doc__)
    asks.add_argument("--runs", type=int, default=100)
    asks.add_argument("--steps", type=int, default=60)
    asks.add_argument("--seed", type=int, default=1)
    asked = asks.parse_args()
    done: Counter[str] = Counter()
    refused: Counter[str] = Counter()
    compared: Counter[str] = Counter()
    wrong = 0
    begun_day.AT_ONCE, begun_day.FIRST, begun_day.STEP = FEW
    with quick_store(), tempfile.TemporaryDirectory() as made:
        for seed in range(asked.seed, asked.seed + asked.runs):
            run = Freshness(Path(made) / str(seed), seed)
            try:
                run.run(asked.steps)
            except AssertionError as error:
                wrong += 1
                print(f"seed {seed}: {str(error)[-1500:]}")  # noqa: T201
            run.close()
            done += run.done
            refused += run.refused
            compared += run.compared
    print(  # noqa: T201
        f"{asked.runs} sequences, {done.total()} actions, {compared.total()}"
        f" comparisons, {wrong} wrong\n{dict(compared)}\n{dict(done)}\n"
        f"refused: {dict(refused)}"
    )


if __name__ == "__main__":
    main()
