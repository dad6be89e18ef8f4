"""What each harness does with any bytes: a refusal of ours is right, all else a crash.

A harness takes bytes and gives nothing. What it checks beside *no crash* is what must
hold for any input: nothing typed is lost, what was cut no longer tells, numbers are
finite.
"""

from __future__ import annotations

import math
import tempfile
from contextlib import suppress
from functools import cache
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING

from growdesk.domain import facts_file, units, water_units
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import GrowdeskError
from growdesk.domain.facts_kinds import read_kind_table
from growdesk.domain.injector import Meaning, parse_ratio
from growdesk.domain.label_layouts import read_layout
from growdesk.domain.meter import parse_reading_ms_per_cm
from growdesk.domain.name_runs import Form
from growdesk.domain.quick_mix import parse_wish
from growdesk.domain.recipe_file import parse_recipe
from growdesk.domain.wanted_text import parse_wanted
from growdesk.services import (
    backup_zip,
    csv_form,
    folder_reading,
    intake_survey,
    kinds,
    logger_survey,
    logger_times,
    names,
)
from growdesk.services.collection_export import MANIFEST
from growdesk.services.exported_views import by_number
from growdesk.services.intake_reading import Rows, understood
from growdesk.services.logger_reading import days_of
from growdesk.services.logger_text import read_text
from growdesk.services.view_form import text_of, view_of, without_place
from growdesk.store import backup_manifest, exif_block, jpeg_parts, photo_place, seal
from tests.conftest import TODAY

if TYPE_CHECKING:
    from collections.abc import Callable

_MOST_TEXT = 400
_MOST_ROWS = 60


def text_in(data: bytes, most: int = _MOST_TEXT) -> str:
    """Give bytes as a person's text, lone surrogates too."""
    try:
        return data.decode("utf-8", "surrogatepass")[:most]
    except UnicodeDecodeError:
        return data.decode("utf-8", "replace")[:most]


@cache
def file_for(name: str) -> Path:
    """Give a file of this process to write an input to."""
    return Path(tempfile.mkdtemp(prefix="growdesk-fuzz-")) / name


def a_name(data: bytes) -> None:
    """Read a plant's name: never refused, and no letter of it lost."""
    text = text_in(data)
    names.told(text)
    names.sort_key_of(text)
    names.offered(text)
    for form in Form:
        names.runs_of(text, form)
    typed = "".join(run.text for run in names.runs_of(text, Form.TYPED))
    assert _letters(typed) == _letters(text), (typed, text)


def _letters(text: str) -> str:
    """Give what must stay; an x between two names is set as the sign it means."""
    return "".join(each for each in text.casefold() if each.isalnum() and each != "x")


AMOUNTS: tuple[Callable[[str], float], ...] = (
    *(units.parse_volume_l, units.parse_mass_g, units.parse_density_g_per_ml),
    *(units.parse_ec_ms_per_cm, units.parse_temperature_c),
    *(units.parse_strength_mg_per_l, parse_reading_ms_per_cm),
    lambda text: units.parse_target(text).strength_mg_per_l,
    *(water_units.parse_alkalinity_mg_per_l, water_units.parse_hardness_mg_per_l),
    lambda text: water_units.parse_ion_mg_per_l(text, "Ca"),
    lambda text: water_units.parse_ion_mg_per_l(text, "SO4"),
)


def an_amount(data: bytes) -> None:
    """Read an amount with its unit, as the first byte says which."""
    text = text_in(data[1:], 80)
    read = AMOUNTS[data[0] % len(AMOUNTS)] if data else AMOUNTS[0]
    with suppress(GrowdeskError):
        assert math.isfinite(read(text))


ANALYSES: tuple[Callable[[str], object], ...] = (
    *(parse_analysis, parse_wanted, parse_wish, read_layout),
    lambda text: parse_ratio(text, None),
    lambda text: parse_ratio(text, next(iter(Meaning))),
)


def an_analysis(data: bytes) -> None:
    """Read an analysis, what is wanted, a ratio or a layout."""
    text = text_in(data[1:], 200)
    with suppress(GrowdeskError):
        (ANALYSES[data[0] % len(ANALYSES)] if data else parse_analysis)(text)


def a_table(data: bytes) -> None:
    """Survey a table and read its rows, as everything it could be."""
    with suppress(GrowdeskError):
        found = intake_survey.of_table(csv_form.read_table(data, "t.csv"), "t.csv")
        understood(found, found.choices, _MOST_ROWS)
        for _ in islice(Rows(found, found.choices).read(), _MOST_ROWS):
            pass
    with suppress(GrowdeskError):
        table = csv_form.read_table(data, "t.csv", trimmed=False)
        rows = [cells for _, cells in table.rows if any(cells)][:_MOST_ROWS]
        again = csv_form.read_table(
            csv_form.write_table(("head",), rows), "u.csv", trimmed=False
        )
        assert [cells for _, cells in again.rows] == rows


def a_loggers_file(data: bytes) -> None:
    """Survey a logger's file and read its days."""
    path = file_for("logger.csv")
    path.write_bytes(data)
    with suppress(GrowdeskError):
        file = read_text(path)
        found = logger_survey.of_text(file)
        days_of(file, found.choices, TODAY)


def facts(data: bytes) -> None:
    """Read a facts file, its kinds, and the same as a recipe."""
    with suppress(GrowdeskError):
        read = facts_file.parse_json(text_in(data, 10_000), "f.json")
        with suppress(GrowdeskError):
            facts_file.read_facts(read)
        with suppress(GrowdeskError):
            read_kind_table(read, kinds.table())
        parse_recipe(read)


def a_view(data: bytes) -> None:
    """Read a saved view; what is read is written and read the same."""
    text = text_in(data, 2_000)
    by_number(text, lambda _name: 1)
    without_place(text, 1)
    with suppress(GrowdeskError):
        view = view_of("v", text)
        assert view_of("v", text_of(view)) == view


def dates(data: bytes) -> None:
    """Read a cell as day and time, in every order."""
    text = text_in(data, 80)
    moment = logger_times.moment(text)
    if moment is None or not moment.day_text:
        return
    for order in logger_times.DayOrder:
        on = logger_times.day(moment.day_text, order)
        if on is not None:
            logger_times.at(on, moment.clock)
    logger_times.orders({moment.day_text, "3.4.2025"})


def a_place_in_a_photo(data: bytes) -> None:
    """Look for a place in any bytes and cut it out."""
    tells = photo_place.tells_place(data)
    jpeg_parts.scans_of(data)
    with suppress(photo_place.CannotCutError):
        cut = photo_place.cut_place(data)
        if tells and photo_place.tells_place(cut):
            photo_place.cut_place(cut)  # which is then drawn anew, and never a crash


def an_exif_block(data: bytes) -> None:
    """Blank the place in an EXIF block: as long as it was, and telling none."""
    block = data if exif_block.START.match(data) else b"II*\x00" + data
    with suppress(exif_block.TooTangledError):
        told = exif_block.says_where(block)
        with suppress(exif_block.BrokenBlockError):
            cut = exif_block.without_place(block)
            assert len(cut) == len(block)
            assert told or cut != b""


def a_list_of_files(data: bytes) -> None:
    """Read the lists of files of a backup, an export and a seal."""
    folder = file_for("growdesk.json").parent
    for name in (backup_manifest.MANIFEST, MANIFEST, seal.SEAL_NAME):
        (folder / name).write_bytes(data)
    with suppress(GrowdeskError):
        backup_manifest.read_manifest(folder)
    with suppress(GrowdeskError):
        folder_reading.read_folder(folder)
    seal.read_seal(folder)


def a_packed_backup(data: bytes) -> None:
    """Read what a packed backup says of itself."""
    path = file_for("backup.zip")
    path.write_bytes(data)
    with suppress(GrowdeskError):
        backup_zip.read_manifest(path)


HARNESSES: dict[str, Callable[[bytes], None]] = {
    "names": a_name,
    "amounts": an_amount,
    "analyses": an_analysis,
    "tables": a_table,
    "loggers": a_loggers_file,
    "facts": facts,
    "views": a_view,
    "dates": dates,
    "places": a_place_in_a_photo,
    "exif": an_exif_block,
    "lists": a_list_of_files,
    "packed": a_packed_backup,
}
