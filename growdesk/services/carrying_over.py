"""Carries a whole collection over: from its folder to a server, or back to a folder.

Rows go with their numbers, bin, history and what was undone, all in one transaction and
held against each other afterwards; photos go first, each held against its name. What it
came from is left as it was.
"""

from __future__ import annotations

import os
import shutil
from contextlib import closing, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import Struct
from sqlalchemy import select

from growdesk.domain.errors import DamagedError, InputError
from growdesk.domain.speech import tr, trn
from growdesk.services.check_values import Sort
from growdesk.services.full_check import look_through
from growdesk.services.long_work import quietly
from growdesk.services.server_copy import copy_rows
from growdesk.services.whereabouts import OnServer, called, check_photos_folder
from growdesk.store.carrying import carry, is_empty
from growdesk.store.folder_names import FILE_NAME
from growdesk.store.photos import photo_path, whole_content
from growdesk.store.pictures import UnreadableError
from growdesk.store.schema import ActionRow, PhotoRow, PlantRow
from growdesk.store.store import Store
from growdesk.store.trouble import plainly
from growdesk.store.whole_files import (
    PART,
    PRIVATE,
    make_folder,
    sync_all,
    sync_folder,
    write_whole,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from growdesk.services.check_values import FullCheck
    from growdesk.services.clock import Clock
    from growdesk.services.long_work import Step
    from growdesk.services.whereabouts import Where


class CarriedOver(Struct, frozen=True):
    """What went over, and in plain lines what of the photos could not."""

    called: str
    plants: int
    rows: int
    actions: int
    photos: int
    problems: tuple[str, ...]


def carry_over(
    source: Where, target: Where, clock: Clock, step: Step = quietly
) -> CarriedOver:
    """Carry a collection into an empty place; one of the two is on a server.

    Raises InputError where the target holds something, DamagedError where the source
    is not whole; then nothing is carried. A stop leaves the target as it was.
    """
    if isinstance(source, Path) and isinstance(target, OnServer):
        return _to_server(source, target, clock, step)
    if isinstance(source, OnServer) and isinstance(target, Path):
        return _to_folder(source, target, clock, step)
    hint = tr("From a folder name a server, from a server name a folder.")
    raise InputError("--to", called(target), tr("is no server to carry it to"), hint)


def _to_server(folder: Path, target: OnServer, clock: Clock, step: Step) -> CarriedOver:
    from growdesk.services.servers import open_server  # noqa: PLC0415 -- it loads a driver

    check_photos_folder(target.folder)
    with closing(Store.open(folder, clock.now)) as store:
        _refuse_damaged(look_through(folder, step, is_open=True), called(folder))
        with closing(open_server(target, clock, create=True)) as server:
            made: list[Path] = []
            try:
                with server.reading() as session:
                    _refuse_full(session.connection(), target)
                with store.reading() as session:
                    came = session.connection()
                    named = _named(came)
                    photos, problems = _photos(named, folder, target.folder, made, step)
                    with server.unrecorded() as into:
                        there = into.connection()
                        _refuse_full(there, target)
                        carried = carry(came, there, step)
            except BaseException:
                _take_away(made)
                raise
    rows = {name: each.rows for name, each in carried.items()}
    return _done(target, rows, photos, problems)


def _to_folder(source: OnServer, folder: Path, clock: Clock, step: Step) -> CarriedOver:
    from growdesk.services.servers import open_server  # noqa: PLC0415 -- ditto

    folder = folder.absolute()
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise _holds(folder)
    new = folder.with_name(f".{folder.name}.{os.getpid()}{PART}")
    with plainly(folder):
        make_folder(folder.parent)
        make_folder(new, PRIVATE)
        try:
            with (
                closing(open_server(source, clock, create=False)) as server,
                server.reading() as session,
            ):
                came = session.connection()
                named = _named(came)
                rows = copy_rows(came, new / FILE_NAME, step)
            photos, problems = _photos(named, source.folder, new, [], step)
            _refuse_damaged(look_through(new, step), called(source))
            sync_all(new)
            with suppress(FileNotFoundError):
                folder.rmdir()
            new.rename(folder)
            sync_folder(folder.parent)
        except BaseException:
            shutil.rmtree(new, ignore_errors=True)
            raise
    return _done(folder, rows, photos, problems)


def _done(
    target: Where, rows: dict[str, int], photos: int, problems: Sequence[str]
) -> CarriedOver:
    return CarriedOver(
        called(target),
        rows[PlantRow.__tablename__],
        sum(rows.values()),
        rows[ActionRow.__tablename__],
        photos,
        tuple(problems),
    )


def _holds(target: Where) -> InputError:
    hint = tr("Name an empty one; nothing was carried over.")
    return InputError("--to", called(target), tr("holds something already"), hint)


def _refuse_full(there: Connection, target: Where) -> None:
    if not is_empty(there):
        raise _holds(target)


def _refuse_damaged(found: FullCheck, name: str) -> None:
    """Refuse to carry what is not whole; photos that are gone are told one by one."""
    worse = [each for each in found.damage if each.sort is not Sort.PHOTO]
    if worse:
        raise DamagedError(
            tr("The collection {name} is damaged. {problem}").format(
                name=name, problem=worse[0].sentence
            ),
            tr("Look it through first: growdesk check. Nothing was carried over."),
        )


def _named(rows: Connection) -> list[tuple[str, str]]:
    """Give digest and ending of all photos that rows name."""
    asked = select(PhotoRow.sha256, PhotoRow.ext).distinct().order_by(PhotoRow.sha256)
    return [(sha256, ext) for sha256, ext in rows.execute(asked)]


def _photos(
    named: Sequence[tuple[str, str]],
    source: Path,
    target: Path,
    made: list[Path],
    step: Step,
) -> tuple[int, list[str]]:
    """Copy photos; give how many are there, and what is not.

    A server is asked nothing meanwhile: it cuts off who is silent in a transaction.
    """
    lost = 0
    for done, (sha256, ext) in enumerate(named):
        step(done, len(named))
        lies, goes = (photo_path(each, sha256, ext) for each in (source, target))
        if _is_whole(goes):
            continue
        try:
            content = whole_content(lies)
        except UnreadableError:
            lost += 1
            continue
        with plainly(goes):
            make_folder(goes.parent)
            write_whole(goes, content)
        made.append(goes)
    if not lost:
        return len(named), []
    line = trn(
        "{count} photo is gone or damaged, and stays so: look it up with growdesk"
        " check.",
        "{count} photos are gone or damaged, and stay so: look them up with growdesk"
        " check.",
        lost,
    )
    return len(named) - lost, [line.format(count=lost)]


def _is_whole(path: Path) -> bool:
    try:
        whole_content(path)
    except UnreadableError:
        return False
    return True


def _take_away(made: Sequence[Path]) -> None:
    for path in made:
        with suppress(OSError):
            path.unlink()
