"""Walk through a watering day of the demo without a screen, and print it in words.

It lays the demo in a throw-away folder, tells the day, does part of the round, records
a look, takes it back, and opens the collection again to see that all is kept. It stops
with one line where anything is not as it should be. ``--on DATE`` sets the day.
"""

from __future__ import annotations

import argparse
import tempfile
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec.structs import replace

from growdesk.domain.errors import GrowdeskError
from growdesk.domain.facts import RootTips, Verdict
from growdesk.services.clock import FixedClock, SystemClock
from growdesk.services.collection import Collection
from growdesk.services.demo import lay_demo
from growdesk.services.values import DoneKind

if TYPE_CHECKING:
    from growdesk.services.values import DayView, Line

HEADINGS = {
    Verdict.FEED: "Feed",
    Verdict.CLEAR_WATER: "Clear water",
    Verdict.FLUSH: "Flush",
    Verdict.KEEP_DRY: "Keep dry",
    Verdict.LOOK_FIRST: "Look first",
}
ARGUED_ABOUT = ("A1", "A3", "E1", "E2")
IDLE_IN_BLOOM = "A3"


def must(told: str, *, holds: bool) -> None:
    """Stop the tour where something is not as told."""
    if not holds:
        raise SystemExit(f"The tour stops: {told}.")


def tell_day(view: DayView) -> None:
    """Print the day's list by verdict, and the jugs."""
    print(f"Watering day {view.on:%A %d %B %Y}: {len(view.lines)} plants")
    for verdict, heading in HEADINGS.items():
        lines = [line for line in view.lines if line.verdict is verdict]
        print(f"\n{heading} ({len(lines)})")
        for line in lines:
            print(f"  {_line(line)}")
    print("\nJugs")
    for jug in view.mix.jugs:
        doses = " and ".join(
            f"{each.amount:.1f} {each.unit} of {each.product.name}"
            for each in jug.doses
        )
        print(
            f"  {jug.letter}: {jug.strength_ppm_n} ppm N, {jug.volume_l:.1f} L,"
            f" {doses or 'no tin set'}, for {', '.join(jug.tags)}"
        )
    for step in view.mix.ladder:
        print(f"  {step}")
    print(f"  Clear water: {view.mix.clear_l:.1f} L, flush: {view.mix.flush_l:.1f} L")


def _line(line: Line) -> str:
    strength = ""
    if line.strength_ppm_n is not None:
        strength = f"  {line.letter} {line.strength_ppm_n:g} ppm N"
    return f"{line.tag:3} {line.name:36} {line.short_reason}{strength}"


def tell_reasons(collection: Collection, on: date) -> None:
    """Print the sentences of the plants a grower would argue about."""
    for tag in ARGUED_ABOUT:
        detail = collection.day.detail(_plant(collection, tag), on)
        print(f"\n{tag} {detail.draft.name}")
        for told in detail.told:
            print(f"  {told.sentence}")
        for sentence in detail.would_change:
            print(f"  {sentence}")


def do_part_of_the_round(collection: Collection, on: date) -> tuple[int, ...]:
    """Tick three fed plants, pass one by, and give the numbers of the ticked."""
    view = collection.day.view(on)
    fed = [line for line in view.lines if line.verdict is Verdict.FEED]
    clear = [line for line in view.lines if line.verdict is Verdict.CLEAR_WATER]
    ticked = tuple(line.plant_id for line in fed[:3])
    print(f"\n{collection.day.tick(ticked, on).title}.")
    print(f"{collection.day.pass_by([clear[0].plant_id], on).title}.")
    after = {line.plant_id: line for line in collection.day.view(on).lines}
    for plant_id in ticked:
        done = after[plant_id].done
        cared = done is not None and done.kind is DoneKind.CARED
        must(f"{after[plant_id].tag} was not ticked off", holds=cared)
    passed = after[clear[0].plant_id].done
    by = passed is not None and passed.kind is DoneKind.PASSED_BY
    must(f"{clear[0].tag} was not passed by", holds=by)
    return ticked


def look_again(collection: Collection, on: date) -> None:
    """Record a green root tip on a plant that was idle, and take the look back."""
    plant_id = _plant(collection, IDLE_IN_BLOOM)
    before = collection.day.detail(plant_id, on)
    look = replace(collection.looks.start(plant_id, on), root_tips=RootTips.RUNNING)
    print(
        f"\n{collection.looks.record(plant_id, look, 'Green tips after all.').title}."
    )
    after = collection.day.detail(plant_id, on)
    print(f"  {IDLE_IN_BLOOM} before: {HEADINGS[before.verdict]}")
    print(
        f"  {IDLE_IN_BLOOM} now: {HEADINGS[after.verdict]}. {after.strength_sentence}"
    )
    must("a running root tip brought no feed", holds=after.verdict is Verdict.FEED)
    collection.history.undo()
    back = collection.day.detail(plant_id, on)
    must("undo did not bring the verdict back", holds=back.verdict is before.verdict)
    print(f"  After undo: {HEADINGS[back.verdict]}")


def _plant(collection: Collection, tag: str) -> int:
    plant_id = collection.plants.find(tag)
    if plant_id is None:
        raise SystemExit(f"The tour stops: there is no plant {tag}.")
    return plant_id


def walk(folder: Path, on: date) -> None:
    """Take the whole tour in a folder."""
    clock = FixedClock(on)
    collection = Collection.open(lay_demo(folder, on), clock)
    try:
        must("a fresh demo has a history", holds=collection.history.view().undo is None)
        view = collection.day.view(on)
        tell_day(view)
        found = {line.verdict for line in view.lines}
        must("a verdict is missing", holds=found == set(Verdict))
        tell_reasons(collection, on)
        ticked = do_part_of_the_round(collection, on)
        look_again(collection, on)
    finally:
        collection.close()
    again = Collection.open(folder, clock)
    try:
        done = [line.plant_id for line in again.day.view(on).lines if line.done]
    finally:
        again.close()
    must("ticks were lost at closing", holds=set(ticked) <= set(done))
    print(f"\nClosed and opened again: {len(done)} plants are ticked off or passed by.")


def main() -> None:
    """Read the day and take the tour."""
    parser = argparse.ArgumentParser(description="Walk through the demo's day.")
    parser.add_argument("--on", type=date.fromisoformat, default=SystemClock().today())
    on: date = parser.parse_args().on
    with tempfile.TemporaryDirectory() as folder:
        try:
            walk(Path(folder) / "demo", on)
        except GrowdeskError as error:
            raise SystemExit(error.line()) from error


if __name__ == "__main__":
    main()
