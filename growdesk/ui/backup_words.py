"""Say backups as rows and sentences: when, why, how much, and how they stand."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from growdesk.domain.speech import Phrases, fixed, mark, tr, trn
from growdesk.services.backup_values import Lies, Why
from growdesk.ui import words

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import date
    from pathlib import Path

    from growdesk.services.backup_look import Compared, Held
    from growdesk.services.backup_values import Backable, BackupsView
    from growdesk.services.restoring import Restored

NOTHING = mark(
    "There is no backup yet. growdesk makes one by itself each day that something is"
    " written."
)
WHY: Mapping[Why, str] = Phrases(
    {
        Why.DAILY: "by itself, for the day",
        Why.BY_HAND: "made by hand",
        Why.BEFORE_FORM: "before a newer growdesk",
        Why.BEFORE_RESTORE: "before one was brought back",
        Why.BEFORE_EMPTYING: "before the bin was emptied",
    },
    "why a backup was made",
)
ASIDE = mark("what was here before, set aside")
_MB = 1e6


def when_text(at: datetime, today: date) -> str:
    """Say when: "today 16:40", "Tuesday 24 November, 16:40"."""
    local = at.astimezone()
    time, days = local.strftime("%H:%M"), (today - local.date()).days
    if days == 0:
        return tr("today {time}").format(time=time)
    if days == 1:
        return tr("yesterday {time}").format(time=time)
    is_near = local.year == today.year and days > 0
    day = words.near_day(local.date()) if is_near else words.long_day(local.date())
    return tr("{day}, {time}").format(day=day, time=time)


def why_text(entry: Backable) -> str:
    """Say what it was made for, and where it lies if elsewhere."""
    if entry.why is None:
        return tr(ASIDE)
    if entry.lies is Lies.SECOND:
        return tr("{why}; in the second place").format(why=WHY[entry.why])
    return WHY[entry.why]


def row(entry: Backable, today: date) -> tuple[str, ...]:
    """Give the cells of one: when, why, whether it is whole, plants, photos, size."""
    return (
        when_text(entry.made_at, today),
        why_text(entry),
        state_text(entry),
        "" if entry.plants is None else str(entry.plants),
        "" if entry.photos is None else str(entry.photos),
        tr("{megabytes} MB").format(megabytes=fixed(entry.length_bytes / _MB, 1)),
    )


def state_text(entry: Backable) -> str:
    """Say whether it is whole; of what was set aside nobody has seen to that."""
    if entry.problem:
        return tr("not whole")
    if entry.lies is not Lies.ASIDE:
        return tr("whole")
    return tr("cannot be read") if entry.plants is None else tr("not read through")


def standing(view: BackupsView, today: date) -> str:
    """Say when the last was made, when the next is due, and of the second place."""
    return " ".join((*_last(view, today), *_second(view, today)))


def _last(view: BackupsView, today: date) -> tuple[str, ...]:
    if view.last_at is None:
        return (tr(NOTHING),)
    last = tr("The last backup was made {when}.").format(
        when=when_text(view.last_at, today)
    )
    due = (
        tr("The next one is due now.")
        if view.is_due
        else tr("The next one is due on the first day on which something has changed.")
    )
    return last, due


def _second(view: BackupsView, today: date) -> tuple[str, ...]:
    if view.second is None and view.last_at is None:
        return ()
    if view.second is None:
        return (
            tr("They lie on this disk alone; choose a second place on another one."),
        )
    place = view.second.chosen
    if not view.is_second_there:
        return (tr("The second place is not there: {place}.").format(place=place),)
    if view.second.copied_at is None:
        return (
            tr("Nothing lies in the second place yet: {place}.").format(place=place),
        )
    return (
        tr("Last copied to the second place {when}: {place}.").format(
            when=when_text(view.second.copied_at, today), place=place
        ),
    )


def held_text(entry: Backable) -> str:
    """Say how many plants and photos it holds; nothing where that is not known."""
    if entry.plants is None or entry.photos is None:
        return ""
    plants = trn("{count} plant", "{count} plants", entry.plants)
    photos = trn("{count} photo", "{count} photos", entry.photos)
    return tr("It holds {plants} and {photos}.").format(
        plants=plants.format(count=entry.plants),
        photos=photos.format(count=entry.photos),
    )


def question(entry: Backable | None, name: str, plants: int, beside: Path) -> str:
    """Say exactly what bringing one back does, and what stays; lines apart."""
    becomes = (
        tr("The collection becomes as it is in {name}.")
        if entry is None
        else tr("The collection becomes as it was: {name}.")
    )
    lines = [
        f"{becomes.format(name=name)} {tr('What was entered since is not in it.')}"
    ]
    if entry is not None and (held := held_text(entry)):
        lines.append(held)
    if entry is not None and entry.problem:
        lines.append(tr("It is not whole: {problem}").format(problem=entry.problem))
    lines.append(
        trn(
            "What is there now, with {count} plant, is kept whole in {folder} and can"
            " be brought back from this list in the same way.",
            "What is there now, with {count} plants, is kept whole in {folder} and can"
            " be brought back from this list in the same way.",
            plants,
        ).format(count=plants, folder=beside)
    )
    lines.append(
        tr(
            "All backups stay. The one chosen is read through before anything changes;"
            " where its records are damaged, nothing does."
        )
    )
    return "\n\n".join(lines)


def done_text(back: Restored, today: date) -> str:
    """Say what was brought back, and where the one before it lies."""
    when = when_text(datetime.fromisoformat(back.made_at), today)
    said = [
        trn(
            "Brought back as of {when}: {count} plant.",
            "Brought back as of {when}: {count} plants.",
            back.plants,
        ).format(when=when, count=back.plants)
    ]
    if back.set_aside is not None:
        said.append(
            tr("The collection before it is kept in {folder}.").format(
                folder=back.set_aside
            )
        )
    return " ".join((*said, *back.problems))


def compared_row(each: Compared) -> tuple[str, str, str, str]:
    """Give the cells of one plant: tag, name, in the backup, now."""
    shown = each.now or each.then
    name = "" if shown is None else shown.name
    now = _side(each.now, name) if each.differs else tr("the same")
    return each.tag, name, _side(each.then, name), now


def whole_row(row: tuple[str, str, str, str]) -> str:
    """Say a row of plants whole, where its cells have too little room."""
    tag, name, then, now = row
    said = tr("{tag} {name}. In the backup: {then}. Now: {now}.")
    return said.format(tag=tag, name=name, then=then, now=now)


def compared_text(all_of_them: tuple[Compared, ...]) -> str:
    """Say in how many plants a backup differs from now."""
    differ = sum(each.differs for each in all_of_them)
    if not differ:
        return tr("All plants have the same name and as many records in both.")
    return trn(
        "{count} plant differs; it stands first.",
        "{count} plants differ; they stand first.",
        differ,
    ).format(count=differ)


def _side(held: Held | None, name: str) -> str:
    if held is None:
        return tr("not there")
    counts = _counts(held)
    if held.name != name:
        return tr("{name}: {counts}").format(name=held.name, counts=counts)
    return counts


def _counts(held: Held) -> str:
    """Say how many records a plant has, leaving out those of which there are none."""
    told = (
        (held.looks, trn("{count} look", "{count} looks", held.looks)),
        (
            held.care,
            trn("{count} entry of care", "{count} entries of care", held.care),
        ),
        (held.photos, trn("{count} photo", "{count} photos", held.photos)),
    )
    parts = [said.format(count=count) for count, said in told if count]
    return ", ".join(parts) or tr("no records yet")
