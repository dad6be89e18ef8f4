"""JSON that means harm: facts, exports, views and preferences, each in one plain line.

Memory is held by the limits of bytes; what a damaged file of preferences says is
passed over, for the window must always start.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import TYPE_CHECKING

import pytest

from growdesk.commands import reading
from growdesk.domain.errors import GrowdeskError, InputError
from growdesk.services import folder_reading, transfer
from growdesk.services.exported_views import by_number
from growdesk.services.view_form import view_of, without_place

if TYPE_CHECKING:
    from pathlib import Path

    from growdesk.services.collection import Collection

Told = Callable[[str], None]
DEEP = 100_000
PLANT = '{"plants": [{"tag": "A1", %s}]}'
FACTS: dict[str, tuple[bytes, str]] = {
    "deep lists": (b'{"plants": ' + b"[" * DEEP, "nested too deeply"),
    "deep, and closed": (b"[" * DEEP + b"]" * DEEP, "nested too deeply"),
    "deep objects": (b'{"plants": ' + b'{"a":' * DEEP, "nested too deeply"),
    "deep inside": (
        (PLANT % ('"pot_volume_l": ' + "[" * 900 + "]" * 900)).encode(),
        "plant A1, pot_volume_l",
    ),
    "NaN": ((PLANT % '"pot_volume_l": NaN').encode(), "NaN"),
    "Infinity": ((PLANT % '"pot_volume_l": -Infinity').encode(), "Infinity"),
    "1e999": ((PLANT % '"pot_volume_l": 1e999').encode(), "pot_volume_l"),
    "100 000 digits": (
        (PLANT % ('"pot_volume_l": ' + "9" * 100_000)).encode(),
        "number that is too long",
    ),
    "4 000 digits": (
        (PLANT % ('"pot_volume_l": ' + "9" * 4_000)).encode(),
        "pot_volume_l",
    ),
    "a key twice": (b'{"plants": [], "plants": []}', "plants"),
    "a list": (b"[]", "facts"),
    "a number": (b"7", "facts"),
    "null": (b"null", "facts"),
    "a text for a list": (b'{"plants": "all"}', "plants"),
    "a list for a plant": (b'{"plants": [[1]]}', "plant"),
    "a number for a tag": (b'{"plants": [{"tag": 7}]}', "tag"),
    "a truth for a number": ((PLANT % '"pot_volume_l": true').encode(), "pot_volume_l"),
    "an unknown field": ((PLANT % '"\\u202epot": 1').encode(), "A1"),
    "half a sign": ((PLANT % '"name": "\\ud800"').encode(), "name"),
    "NUL in a name": ((PLANT % '"name": "a\\u0000b"').encode(), "name"),
    "1 MB in a name": (
        (PLANT % ('"name": "' + "x" * 1_000_000 + '"')).encode(),
        "name",
    ),
    "not UTF-8": (b'{"plants": [{"tag": "\xff"}]}', "is not UTF-8 text"),
    "UTF-16": ('{"plants": []}'.encode("utf-16"), "is not UTF-8 text"),
    "half a file": (b'{"plants": [{"tag": "A1"', "is not JSON at line 1"),
    "two files": (b'{"plants": []}{"plants": []}', "is not JSON at line 1"),
    "comments": (b'// mine\n{"plants": []}', "is not JSON at line 1"),
    "NUL": (b'{"plants": []}\x00', "is not JSON at line 1"),
    "nothing": (b"", "is not JSON at line 1"),
    "60 MB": (b" " * 60_000_000, "is too large"),
}


def test_every_hostile_facts_file_is_one_line(tmp_path: Path, told: Told) -> None:
    path = tmp_path / "facts.json"
    wrong = {}
    for name, (content, must_say) in FACTS.items():
        path.write_bytes(content)
        with pytest.raises(InputError) as caught:
            reading.facts(str(path))
        line = caught.value.line()
        if must_say not in line or "\n" in line or len(line) > 1_500:
            wrong[name] = line
        if not caught.value.hint:
            wrong[name] = "no way out"
    assert wrong == {}
    path.write_bytes(b'\xef\xbb\xbf{"plants": []}')
    assert reading.facts(str(path))[1] == ()
    told(f"F16 facts files: {len(FACTS)} hostile ones, each refused in a line")


MANIFESTS: dict[str, bytes] = {
    "deep": b"[" * DEEP,
    "a list": b"[]",
    "null": b"null",
    "1e999": b'{"growdesk_export": 1, "schema": 1e999, "files": {}}',
    "NaN": b'{"growdesk_export": 1, "schema": NaN, "files": {}}',
    "digits": b'{"growdesk_export": 1, "schema": ' + b"9" * 9_000 + b', "files": {}}',
    "files as a list": b'{"growdesk_export": 1, "schema": 1, "files": [1, 2]}',
    "files as a text": b'{"growdesk_export": 1, "schema": 1, "files": "all"}',
    "rows as infinity": b'{"growdesk_export": 1, "schema": 1, "files": {%s}}',
    "not UTF-8": b'{"\xff',
    "2 MB": b" " * 2_000_000,
    "0 bytes": b"",
}


def test_every_hostile_list_of_an_export_is_one_line(
    collection: Collection, tmp_path: Path, told: Told
) -> None:
    folder = tmp_path / "export"
    transfer.export(collection, folder)
    manifest = folder / "growdesk.json"
    files = json.loads(manifest.read_bytes())["files"]
    endless = {name: {"rows": "@", "sha256": "0"} for name in files}
    for content in MANIFESTS.values():
        whole = json.dumps(endless).replace('"@"', "1e999")[1:-1].encode()
        manifest.write_bytes(content.replace(b"%s", whole))
        with pytest.raises(GrowdeskError) as caught:
            folder_reading.read_folder(folder)
        assert "\n" not in caught.value.line()
    told(
        f"F17 exports: {len(MANIFESTS)} hostile lists of files, each refused in a line"
    )


VIEWS = (
    *("[" * DEEP, "[]", "7", "null", '"x"', "", "{", "{}", '{"version": 1e999}'),
    *('{"version": NaN}', '{"version": 1, "find": 7}', '{"version": 1, "find": ""}'),
    *('{"version": 1, "columns": {"a": 1}, "find": ""}', '{"version": []}'),
    '{"version": ' + "9" * 5_000 + "}",
    '{"version": 1, "place": 1e999}',
)


def test_no_hostile_view_is_more_than_a_line(told: Told) -> None:
    for text in VIEWS:
        with pytest.raises(InputError) as caught:
            view_of("Mine <b>", text)
        assert "\n" not in caught.value.line()
        assert without_place(text, 1) is None
        by_number(text, lambda _name: 1)
    told(f"F15 views: {len(VIEWS)} damaged ones, each refused in a line")
