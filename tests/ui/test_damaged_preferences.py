"""A damaged file of preferences never stops the start: it is as at first."""

from __future__ import annotations

import random
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from growdesk.ui import logger_memory, preferences, prints, roster_memory
from growdesk.ui import take_in_memory as tables
from growdesk.ui.dialogs import who_blooms
from tests.ui.driving import settle

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

HUGE, DEEP = "9" * 5_000, "[" * 100_000
WILD = (
    *("", "-1", "7", HUGE, "1e999", "nan", "true", "null", "[]", "{}", DEEP),
    *("\x00", "../../x", "a" * 5_000, "\u202e", "<b>x</b>", "%s", "{x}", "²", "٣"),
    *('{"columns": 7}', '{"widths": {"tag": 1e999}}', '{"widths": {"tag": "x"}}'),
    *('{"columns": [[]]}', '{"order": {}}', "A4 9x9 9999999x9999999 mm"),
)
KEYS = (
    *("light", "motion", "text-size", "collection-table", "logger-folder"),
    *("table-folder", "label-layout", who_blooms.BEGINS, "regional/language"),
    *("regional/decimal", "regional/days", "regional/week_begins", "regional/units"),
    *("regional/paper", "face", "record-tab", "mixing-tab", "mixing-open"),
    *("reasons-share", "geometry", "widths", prints._LAYOUT),
)


def _recall_all() -> None:
    preferences.kept_mode()
    preferences.kept_motion()
    preferences.kept_regional()
    preferences.kept_text_per_cent()
    roster_memory.recall()
    assert Path(logger_memory.folder()).is_dir()
    assert Path(tables.folder()).is_dir()
    prints.kept_layout()
    who_blooms._kept_month()


def test_no_value_that_was_kept_is_a_fault(told: Callable[[str], None]) -> None:
    kept = preferences.preferences()
    for value in WILD:
        for key in KEYS:
            kept.setValue(key, value)
        _recall_all()
    told(
        f"F16 preferences: {len(WILD)} wild values of {len(KEYS)} keys, all passed over"
    )


def _noise(file: Path) -> None:
    file.write_bytes(random.Random(5).randbytes(200_000))  # noqa: S311 -- no secret


def _folder(file: Path) -> None:
    file.unlink(missing_ok=True)
    file.mkdir()


def _wild(file: Path) -> None:
    lines = "".join(f"{key.replace('/', '%5C')}={HUGE}\n" for key in KEYS)
    file.write_text(f"[General]\n{lines}\n[size-of-X\nno end", encoding="utf-8")


def _of_another_kind(file: Path) -> None:
    lines = "".join(f"{key}=@Variant(\\0\\0\\0\\x7f\\0\\xff)\n" for key in KEYS)
    file.write_text(f"[General]\n{lines}geometry=@ByteArray(x)\n", encoding="utf-8")


QT_SAYS_SO = pytest.mark.qt_log_ignore("QVariant::load", extend=True)
HARMS = (_noise, _folder, _wild, pytest.param(_of_another_kind, marks=QT_SAYS_SO))


@pytest.mark.parametrize("harm", HARMS)
def test_a_window_comes_up_over_any_file_of_preferences(
    qtbot: QtBot,
    collection: Collection,
    show: Callable[[Collection], Window],
    harm: Callable[[Path], None],
) -> None:
    file = Path(preferences.preferences().fileName())
    file.parent.mkdir(parents=True, exist_ok=True)
    harm(file)
    _recall_all()
    window = show(collection)
    settle(qtbot, window)
    assert window.isVisible()
