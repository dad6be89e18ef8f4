"""Opens a zip that anybody may have made, so that it can do no harm by being read.

What is read at once is bounded, and so is what its members unpack to; only plain files
are taken, in the two ways of packing whose output can be bounded. All that is wrong
with it becomes one plain line.
"""

from __future__ import annotations

import errno
import io
import stat
import struct
import zipfile
import zlib
from contextlib import contextmanager
from typing import TYPE_CHECKING, BinaryIO

from typing_extensions import override

from growdesk.domain.errors import DamagedError, ForeignError
from growdesk.domain.speech import mark, tr

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

ANOTHER = mark("Bring back another backup; the collection was left as it is.")
OTHER = mark("Choose the file that growdesk backup made.")
_ZIP_MAGIC = b"PK\x03\x04"
_UNREADABLE = (
    zipfile.BadZipFile,
    NotImplementedError,
    RuntimeError,
    EOFError,
    ValueError,
    OverflowError,
    struct.error,
    zlib.error,
)
"""All that reading a damaged zip has been seen to raise."""
_MOST_AT_ONCE_BYTES = 25_000_000
"""The longest list of members that is read: some hundred thousand photos."""
_MOST_MEMBERS = 120_000
_LISTED = b"PK\x01\x02"
_MOST_RATIO = 200
_ENCRYPTED = 0x1
_PACKED = {zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED}


class _Frugal(io.RawIOBase):
    """A file that gives no more at once than the longest list of members."""

    def __init__(self, file: BinaryIO, length_bytes: int) -> None:
        super().__init__()
        self._file = file
        self._length_bytes = length_bytes

    @override
    def seekable(self) -> bool:
        return True

    @override
    def readable(self) -> bool:
        return True

    @override
    def seek(self, offset: int, whence: int = 0) -> int:
        return self._file.seek(offset, whence)

    @override
    def tell(self) -> int:
        return self._file.tell()

    @override
    def read(self, size: int | None = -1) -> bytes:
        wanted = self._length_bytes - self.tell() if size is None or size < 0 else size
        if wanted > _MOST_AT_ONCE_BYTES:
            raise zipfile.BadZipFile
        given = self._file.read(max(wanted, 0))
        if given.count(_LISTED) > _MOST_MEMBERS:
            raise zipfile.BadZipFile
        return given


@contextmanager
def opened(source: Path) -> Iterator[zipfile.ZipFile]:
    """Give an open zip whose members are safe to read, or say what it is instead."""
    try:
        with source.open("rb") as file:
            length_bytes = file.seek(0, io.SEEK_END)
            with zipfile.ZipFile(_Frugal(file, length_bytes)) as packed:
                _refuse_unsafe(packed, source, length_bytes)
                yield packed
    except _UNREADABLE as error:
        raise _told(source) from error
    except OSError as error:
        if error.errno != errno.EINVAL:
            raise
        raise _told(source) from error


def _told(source: Path) -> DamagedError | ForeignError:
    with source.open("rb") as file:
        begins = file.read(len(_ZIP_MAGIC))
    if begins == _ZIP_MAGIC:
        message = tr("{source} is cut short or damaged.").format(source=source)
        return DamagedError(message, tr(ANOTHER))
    return ForeignError(
        tr("{source} is not a growdesk backup.").format(source=source), tr(OTHER)
    )


def _refuse_unsafe(packed: zipfile.ZipFile, source: Path, length_bytes: int) -> None:
    """Refuse links, locked and doubtful members, and more than the file can hold."""
    members = packed.infolist()
    if any(info.flag_bits & _ENCRYPTED for info in members):
        raise DamagedError(
            tr("{source} is locked with a password.").format(source=source),
            tr("Unpack it, and pack its files again without one."),
        )
    for info in members:
        if not _is_plain(info) or info.header_offset > length_bytes:
            raise DamagedError(
                tr("{source} holds something that is no plain file.").format(
                    source=source
                ),
                tr(ANOTHER),
            )
        if info.file_size > _MOST_RATIO * max(info.compress_size, 1):
            raise DamagedError(
                tr("{source} has the wrong length for {filename}.").format(
                    source=source, filename=info.filename
                ),
                tr(ANOTHER),
            )
    if sum(info.compress_size for info in members) > length_bytes:
        raise DamagedError(
            tr("{source} is cut short or damaged.").format(source=source), tr(ANOTHER)
        )


def _is_plain(info: zipfile.ZipInfo) -> bool:
    """Tell whether a member is a file packed as ours are, under its own name."""
    kind = stat.S_IFMT(info.external_attr >> 16)
    return (
        kind in {0, stat.S_IFREG}
        and info.filename != ""
        and not info.is_dir()
        and info.compress_type in _PACKED
        and info.orig_filename == info.filename
    )
