"""F7, F24: damaged places and flipped bits: each noticed for what it is, none a fault.

After the fault list of the engineering findings: what is random is drawn from a seed
that is kept, so that a failure comes again.
"""

from __future__ import annotations

import random
import shutil
import sqlite3
from collections import Counter
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.domain.errors import DamagedError, GrowdeskError
from growdesk.services.check_values import Sort
from growdesk.services.clock import FixedClock
from growdesk.services.collection import Collection
from growdesk.services.full_check import look_through
from growdesk.services.long_work import quietly
from growdesk.services.rescuing import rescue
from growdesk.services.values_behind import behind_file
from growdesk.store.form import check_form
from growdesk.store.history_proof import prove
from growdesk.store.witness import differences
from tests.conftest import TODAY
from tests.faults.damage_bench import lay, rows_of

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.faults.damage_bench import Rows

FILE = "collection.sqlite"
SEED = 7
PLACES, FLIPS = 300, 500
LENGTHS = (1, 16, 512, 4096)
SHARE = 0.99
NOW = FixedClock(TODAY).now()


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("damage")
    lay(at / "collection", at)
    return at / "collection"


def test_f7_a_damaged_place_is_noticed_and_what_can_be_read_is_saved(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    chance = random.Random(SEED)  # noqa: S311 -- a test
    clean, want = (laid / FILE).read_bytes(), rows_of(laid / FILE)
    folder, into = tmp_path / "harmed", tmp_path / "saved"
    shutil.copytree(laid, folder)
    noticed: Counter[str] = Counter()
    saved = present = 0
    for number in range(PLACES):
        length = LENGTHS[number % len(LENGTHS)]
        at = chance.randrange(len(clean) - length)
        data = bytearray(clean)
        data[at : at + length] = chance.randbytes(length)
        how = classified(folder, bytes(data), want)
        noticed[how] += 1
        if how not in {"open", "check"}:
            continue
        digest = sha256(data).hexdigest()
        made = rescue(folder, into, NOW)
        assert sha256((folder / FILE).read_bytes()).hexdigest() == digest
        got = rows_of(into / FILE)
        saved += sum(got.get(key) == row for key, row in want.items())
        present += len(want)
        assert not [line for line in made.lines if "stands there;" in line]
        shutil.rmtree(into)
    told(
        f"F7 damaged places: {PLACES} (seed {SEED}), {noticed['open']} noticed on open,"
        f" {noticed['check']} by the check, {noticed['seal']} changed content seen by"
        f" the seal alone, {noticed['harmless']} harmless, 0 tracebacks; rows saved"
        f" {saved} of {present} ({saved / present:.3%}), 0 originals touched"
    )
    assert noticed["seal"] == 0
    assert saved >= SHARE * present


def classified(folder: Path, data: bytes, want: object) -> str:
    """Say by what a damaged file is noticed; anything but a plain line fails."""
    for name in ("collection.seal", f"{FILE}-journal"):
        (folder / name).unlink(missing_ok=True)
    (folder / FILE).write_bytes(data)
    try:
        Collection.open_to_read(folder, FixedClock(TODAY)).close()
    except GrowdeskError:
        return "open"
    if look_through(folder).damage:
        return "check"
    return "harmless" if rows_of(folder / FILE) == want else "seal"


def test_f24_a_flipped_bit_that_changes_an_entry_is_noticed(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    chance = random.Random(SEED)  # noqa: S311 -- a test
    clean, want = (laid / FILE).read_bytes(), rows_of(laid / FILE)
    file = tmp_path / "flipped.sqlite"
    full = [at for at, byte in enumerate(clean) if byte]
    noticed: Counter[str] = Counter()
    changed = 0
    for _ in range(FLIPS):
        at, bit = chance.choice(full), 1 << chance.randrange(8)
        data = bytearray(clean)
        data[at] ^= bit
        file.write_bytes(data)
        how = flipped(file)
        noticed[how] += 1
        if how in {"history", "nobody"}:
            stands = told_by(file)
            changed += stands != want
            assert how == "history" or stands in (want, None), (at, bit)
    told(
        f"F24 flipped bits in bytes that hold something: {FLIPS} (seed {SEED}),"
        f" {noticed['quick']} noticed by the"
        f" quick check, {noticed['form']} more as no form of ours, also on opening,"
        f" {noticed['integrity']} more by the integrity check,"
        f" {noticed['history']} more by the history as witness ({changed} of them"
        f" changed an entry), {noticed['nobody']} by the seal alone (no entry changed),"
        f" {FLIPS} by the seal"
    )
    assert noticed["history"] > FLIPS // 10


def told_by(file: Path) -> Rows | None:
    """Give the rows as they can be read; none where a reading says it is damaged."""
    try:
        return rows_of(file)
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return None


def flipped(file: Path) -> str:
    """Say which look is the first to notice; the seal sees every one."""
    try:
        with closing(sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)) as opened:
            opened.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
            looks = {
                "quick": _quick,
                "form": _form,
                "integrity": _integrity,
                "history": _history,
            }
            return next((how for how, look in looks.items() if look(opened)), "nobody")
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        return "quick"


def _quick(opened: sqlite3.Connection) -> bool:
    return bool(opened.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok")


def _form(opened: sqlite3.Connection) -> bool:
    try:
        check_form(opened, Path(FILE))
    except GrowdeskError:
        return True
    return False


def _integrity(opened: sqlite3.Connection) -> bool:
    found = opened.execute("PRAGMA integrity_check(1)").fetchone()[0]
    return found != "ok" or bool(opened.execute("PRAGMA foreign_key_check").fetchone())


def _history(opened: sqlite3.Connection) -> bool:
    proof = prove(opened, quietly)
    told = proof.damaged or proof.missing or proof.disordered
    return bool(told) or any(True for _ in differences(opened, quietly))


def test_f10_photos_gone_cut_or_emptied_are_listed_and_the_rest_goes_on(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    folder = tmp_path / "photos"
    shutil.copytree(laid, folder)
    photos = sorted((folder / "photos").glob("*/*"))
    photos[0].unlink()
    photos[1].write_bytes(photos[1].read_bytes()[:-7])
    photos[2].write_bytes(b"")
    found = look_through(folder).damage
    assert [each.sort for each in found] == [Sort.PHOTO] * 3
    assert sum("is gone" in each.sentence for each in found) == 1
    made = rescue(folder, tmp_path / "saved", NOW)
    assert (made.photos, made.photos_lost, made.lost) == (1, 3, 0)
    told("F10 photos: 1 gone, 1 cut, 1 emptied, 3 listed with their plant, 1 whole")


def test_a_flipped_bit_in_what_the_tables_are_like_is_told_by_every_look(
    laid: Path, tmp_path: Path, told: Callable[[str], None]
) -> None:
    """A comma less is a column less: SQLite finds nothing wrong with that."""
    chance = random.Random(SEED)  # noqa: S311 -- a test
    folder = tmp_path / "flipped"
    shutil.copytree(laid, folder)
    clean = (laid / FILE).read_bytes()
    begins = clean.index(b"CREATE TABLE water")
    commas = [at for at in range(begins, begins + 600) if clean[at] == ord(",")]
    others = [begins + chance.randrange(600) for _ in range(40)]
    seen = 0
    for at in [*commas, *others]:
        data = bytearray(clean)
        data[at] ^= 0x40 if at in commas else 1 << chance.randrange(8)
        (folder / FILE).write_bytes(data)
        try:
            found = look_through(folder).damage
        except DamagedError:
            seen += 1
            continue
        behind = behind_file(folder / FILE)
        assert bool(found) or at not in commas
        assert bool(behind) or at not in commas
        seen += bool(found)
    told(
        f"F24 bits of what the tables are like: {len(commas) + len(others)} (seed"
        f" {SEED}), {len(commas)} of them a column less; {seen} told by the check, 0"
        " faults"
    )
