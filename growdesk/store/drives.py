"""What kind of drive a folder lies on, as far as locks on it are concerned.

Every collection is kept as a network drive needs it (no write-ahead log, no mapped
memory, a journal that is emptied and not deleted), so nothing is switched here. What a
network drive may lack is a lock that other computers see; that is what is told, where
the system lists its drives with how they were mounted (Linux).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from growdesk.domain.speech import tr

if TYPE_CHECKING:
    from pathlib import Path

_MOUNTS = "/proc/self/mountinfo"
_NETWORK = frozenset(
    {
        "9p",
        "afs",
        "beegfs",
        "ceph",
        "cifs",
        "coda",
        "davfs",
        "davfs2",
        "fuse.davfs2",
        "fuse.glusterfs",
        "fuse.rclone",
        "fuse.sshfs",
        "glusterfs",
        "lustre",
        "ncpfs",
        "nfs",
        "nfs4",
        "smb3",
        "smbfs",
        "vboxsf",
    }
)
_HERE_ONLY = frozenset(
    {"nolock", "local_lock=all", "local_lock=flock", "nobrl", "nolocks"}
)
_FORGETFUL = frozenset({"fuse.sshfs", "fuse.rclone", "fuse.davfs2", "davfs", "davfs2"})
"""Kinds whose locks no other computer sees, whatever they were mounted with."""


def drive_notice(folder: Path) -> str:
    """Say in a sentence where other computers are not kept out; nothing if they are."""
    kind, options = drive_of(folder)
    if kind in _FORGETFUL or (kind in _NETWORK and options & _HERE_ONLY):
        return tr(
            "The network drive of {folder} does not keep other computers out: open the"
            " collection on one computer at a time."
        ).format(folder=folder)
    return ""


def drive_of(folder: Path, mounts: str | None = None) -> tuple[str, frozenset[str]]:
    """Give the kind of file system and its options; nothing where they are unknown."""
    text = _read_mounts() if mounts is None else mounts
    at = folder.absolute()
    best, found = -1, ("", frozenset[str]())
    for line in text.splitlines():
        before, _, after = line.partition(" - ")
        fields, kinds = before.split(), after.split()
        if len(fields) < 6 or len(kinds) < 1:
            continue
        where = _plain(fields[4])
        if at.is_relative_to(where) and len(where) >= best:
            given = ",".join([fields[5], *kinds[2:]])
            best, found = len(where), (kinds[0], frozenset(given.split(",")))
    return found


def _plain(name: str) -> str:
    """Give a name of that list as it is: it writes four signs as octal numbers."""
    for sign in " \t\n\\":
        name = name.replace(f"\\{ord(sign):03o}", sign)
    return name


def _read_mounts() -> str:
    try:
        with open(_MOUNTS, encoding="utf-8", errors="surrogateescape") as file:  # noqa: PTH123 -- no path of ours
            return file.read()
    except OSError:
        return ""
