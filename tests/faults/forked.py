"""Work done in a forked process that is killed in the middle of it.

The process that forks has loaded growdesk and done the work once, so that a kill costs
milliseconds. What the child said before it was killed is read to the last whole line.
"""

from __future__ import annotations

import json
import os
import select
import signal
import time
import traceback
from typing import TYPE_CHECKING, Any

from msgspec import Struct

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

Word = dict[str, Any]
_MOST_S = 60.0


class Heard(Struct, frozen=True):
    """What a child said, and whether it was killed before it came to its end."""

    words: tuple[Word, ...]
    was_killed: bool

    def all_of(self, key: str) -> list[Any]:
        """Give what was said under a key, in order."""
        return [word[key] for word in self.words if key in word]


class ChildFailedError(AssertionError):
    """The work itself went wrong, which is no kill's fault."""


def killed(
    work: Callable[[Callable[..., None]], object], delay_s: float, after: str = ""
) -> Heard:
    """Fork, let the child work, and kill it a while after it said a word.

    ``work`` is handed ``say(key=value)``, which returns once the word has been sent.
    Without ``after`` the time runs from the fork.
    """
    child, reading = begun(work)
    try:
        raw = _heard(reading, child, delay_s, after)
    finally:
        os.close(reading)
    _, status = os.waitpid(child, 0)
    return _words(raw, status)


def _words(raw: bytes, status: int) -> Heard:
    words = tuple(json.loads(line) for line in raw.split(b"\n")[:-1])
    for word in words:
        if "failed" in word:
            raise ChildFailedError(word["failed"])
    return Heard(words, os.WIFSIGNALED(status))


def begun(work: Callable[[Callable[..., None]], object]) -> tuple[int, int]:
    """Fork a child that works; give its number, and where what it says is read."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _work(work, writing)
    os.close(writing)
    return child, reading


def at_once(works: Sequence[Callable[[Callable[..., None]], object]]) -> list[Heard]:
    """Fork a child for each work, let them begin at once, and wait for their end."""
    waiting, go = os.pipe()
    children: list[tuple[int, int]] = []
    for work in works:
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            os.close(go)
            os.read(waiting, 1)
            _work(work, writing)
        os.close(writing)
        children.append((child, reading))
    os.close(waiting)
    os.close(go)
    return [_to_its_end(child, reading) for child, reading in children]


def _to_its_end(child: int, reading: int) -> Heard:
    raw = b""
    while block := os.read(reading, 1 << 16):
        raw += block
    os.close(reading)
    _, status = os.waitpid(child, 0)
    return _words(raw, status)


def _heard(reading: int, child: int, delay_s: float, after: str) -> bytes:
    """Listen until it is time, kill, and listen to what is left in the pipe."""
    started = time.monotonic()
    until = None if after else started + delay_s
    mark = f'"{after}":'.encode()
    raw = b""
    while True:
        now = time.monotonic()
        wait = _MOST_S - (now - started) if until is None else until - now
        if wait <= 0:
            break
        ready, _, _ = select.select([reading], [], [], wait)
        if not ready:
            break
        if not (block := os.read(reading, 1 << 16)):
            break
        raw += block
        if until is None and mark in raw:
            until = time.monotonic() + delay_s
    os.kill(child, signal.SIGKILL)
    while block := os.read(reading, 1 << 16):
        raw += block
    return raw


def _work(work: Callable[[Callable[..., None]], object], writing: int) -> None:
    """Be the child: work, say so, and never come back into the parent's code."""

    def say(**word: object) -> None:
        os.write(writing, json.dumps(word).encode() + b"\n")

    try:
        work(say)
        say(ended=True)
    except BaseException:  # noqa: BLE001 -- told to the parent, which raises it
        say(failed=traceback.format_exc())
    finally:
        os._exit(0)
