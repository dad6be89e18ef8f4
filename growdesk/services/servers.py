"""Opens a collection on a server, its photos in a folder that all who use it share.

Which folder that is: the one named now, else the one that is remembered for the server
on this machine, else one of this machine alone, of which a line then tells.
"""

from __future__ import annotations

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import select

from growdesk.domain.errors import InputError
from growdesk.domain.server_address import read_address
from growdesk.domain.speech import tr
from growdesk.services import servers_known
from growdesk.services.whereabouts import OnServer, check_photos_folder
from growdesk.store.photos import photo_path
from growdesk.store.schema import PhotoRow
from growdesk.store.server import ServerStore
from growdesk.store.whole_files import PRIVATE, make_folder

if TYPE_CHECKING:
    from growdesk.domain.server_address import ServerAddress
    from growdesk.services.clock import Clock


def find_server(
    text: str, photos: str | None = None, named: str = "--collection"
) -> OnServer:
    """Read an address as typed, and find the folder of its photos.

    Raises InputError for what is no address, and for a folder that cannot be meant.
    """
    return at(read_address(text, named), photos)


def at(address: ServerAddress, photos: str | None) -> OnServer:
    """Find the folder of the photos of an address; a text that is empty names none."""
    if not photos:
        folder = servers_known.photos_for(address)
        return OnServer(address, folder or servers_known.own_folder(address))
    folder = Path(photos).absolute()
    check_photos_folder(folder)
    if not folder.exists():
        hint = tr("Make it first, or connect its drive.")
        raise InputError("photos", photos, tr("is not there"), hint)
    return OnServer(address, folder)


def open_server(where: OnServer, clock: Clock, *, create: bool) -> ServerStore:
    """Open a server, brought up to date; where nothing is made yet, only as told.

    Before its form is changed a backup of it is kept in the folder of its photos.
    """
    is_own = where.folder == servers_known.own_folder(where.address)
    if is_own:
        make_folder(where.folder, PRIVATE)
    store = ServerStore.open(
        where.address.url,
        where.folder,
        clock.now,
        create=create,
        before_form=partial(_keep_before, where, clock),
    )
    store.notice = _notice(where, is_own=is_own) or _lacking(store, where)
    if not is_own:
        servers_known.remember(where)
    return store


def _notice(where: OnServer, *, is_own: bool) -> str:
    if is_own:
        return tr(
            "The photos of {place} are kept on this computer only, in {folder}, until a"
            " shared folder is named with --photos FOLDER."
        ).format(place=where.address.called, folder=where.folder)
    if not where.folder.is_dir():
        return tr(
            "The folder of the photos, {folder}, is not there now: no photo is shown,"
            " and no backup is made, until its drive is connected."
        ).format(folder=where.folder)
    return ""


def _lacking(store: ServerStore, where: OnServer) -> str:
    """Say that none of the newest photos lies in the folder: it may be another one."""
    newest = select(PhotoRow.sha256, PhotoRow.ext).order_by(PhotoRow.id.desc()).limit(3)
    with store.reading() as session:
        photos = session.execute(newest).all()
    if not photos or any(photo_path(where.folder, *each).exists() for each in photos):
        return ""
    return tr(
        "The newest photos of {place} are not in {folder}. Look whether that is the"
        " folder which the other computers name, before a photo is added."
    ).format(place=where.address.called, folder=where.folder)


def _keep_before(where: OnServer, clock: Clock, form: int) -> None:
    """Keep a backup of a server's older form, while nobody can write there."""
    from growdesk.services.server_backup import keep_before_form  # noqa: PLC0415 -- seldom

    keep_before_form(where, form, clock.now())
