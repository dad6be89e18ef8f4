"""Small inputs that a harness begins with: good ones, and some that were crashes."""

from __future__ import annotations

import io
import json
import struct
import zipfile

_GPS = struct.pack("<HHII", 0x8825, 4, 1, 26)
_INSIDE = struct.pack("<H", 1) + struct.pack("<HHII", 2, 5, 3, 44)
_BLOCK = b"II*\x00\x08\x00\x00\x00\x01\x00" + _GPS + bytes(4) + _INSIDE + bytes(40)
_SEGMENT = b"Exif\x00\x00" + _BLOCK
_JPEG = (
    b"\xff\xd8\xff\xe1"
    + struct.pack(">H", len(_SEGMENT) + 2)
    + _SEGMENT
    + b"\xff\xda\x00\x02\x00\xff\xd9"
)
_XMP = b'<x:xmpmeta exif:GPSLatitude="47,2N"></x:xmpmeta>'
_PLANT = {"tag": "A1", "pot_volume_l": 1.5, "looks": [{"on": "2026-01-20"}]}
_VIEW = {
    "version": 1,
    "find": "",
    "columns": ["tag"],
    "order": "tag",
    "place": None,
    "downwards": False,
    "whose": "growing",
    "kind": None,
    "verdict": None,
    "only": [],
}
_MANIFEST = {
    "program": "growdesk",
    "form": 1,
    "made_at": "2026-11-26T16:40:12+00:00",
    "number": 1,
    "why": "daily",
    "schema": 4,
    "mark": 1,
    "rows": {"plant": 1},
    "files": [{"name": "collection.sqlite", "sha256": "0" * 64, "bytes": 1}],
    "lacking": [],
    "digest": "0" * 64,
    "growdesk_export": 1,
}


def _zip() -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as packed:
        packed.writestr("manifest.json", json.dumps(_MANIFEST))
        packed.writestr("collection.sqlite", b"x")
    return out.getvalue()


SEEDS: dict[str, tuple[bytes, ...]] = {
    "names": (
        b"Cattleya intermedia var. alba 'Aquinii' AM/AOS",
        b"Rlc. Golden Tang (Rlc. Tang \xc3\x97 C. (a x b)) = X",
        "× Brassocattleya (Brassavola × C.) ‘Kühn’ sp. nov.".encode(),
    ),
    "amounts": (
        b"\x001 1/2 tsp",
        b"\x0115,5 g",
        b"\x077 150 ppm N",
        b"\x08\xc2\xb0dH 12",
    ),
    "analyses": (
        *(b"\x0020-20-20", b"\x0013-3-15 + 8 Ca + 2 MgO", b"\x0112-1-12:4:2"),
        *(b"\x0220 mL", b"\x03A4 3x8 64x34 mm", b"\x041:100", b"\x051 %"),
    ),
    "tables": (
        b"tag;name;Topf (ml)\nA1;Vanda;1.250,5\n",
        b'tag,on,what\n"A1",3.4.2025,fed\n',
        "tag,name\nA1,'=1\n".encode("utf-16"),
    ),
    "loggers": (
        b"Serial 1\nTime;Temp \xc2\xb0C;RH %\n2026-03-01 10:00;21,5;60\n",
        b"Date,Time,Celsius\n3/4/2026,10:30 PM,20.5\n",
    ),
    "facts": (
        json.dumps({"plants": [_PLANT]}).encode(),
        json.dumps({"house": {"latitude": 48}, "kinds": {}, "plants": []}).encode(),
        json.dumps({"name": "m", "wanted": "3:1:2", "products": []}).encode(),
    ),
    "views": (json.dumps(_VIEW).encode(),),
    "dates": (
        *(b"2026-03-01T10:00:00Z", b"3.4.2025 22:15", b"4/3/25 10:15:01 PM"),
        *(b"1750000000", b"25. M\xc3\xa4rz 2026"),
    ),
    "places": (
        _JPEG,
        b"\x89PNG\r\n\x1a\n\x00\x00\x00\x08eXIf" + _BLOCK[:8] + bytes(4),
        b"\x00\x00\x00\x18ftypheic" + _BLOCK + _XMP,
        b"RIFF\x64\x00\x00\x00WEBPEXIF\x50\x00\x00\x00" + _BLOCK,
        _BLOCK,
    ),
    "exif": (_BLOCK, b"MM\x00*\x00\x00\x00\x08\x00\x00\x00\x00\x00\x00"),
    "lists": (json.dumps(_MANIFEST).encode(),),
    "packed": (_zip(),),
}
