"""Draw the demo's pictures into demo/pictures: flowers, leads, roots, a bench.

Stylised, all of our own hand, none taken from anywhere. Run it after a change here, in
brush.py, drawn_flowers.py or drawn_plants.py; the files are committed, so that nobody
needs to draw them to see the demo.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

import drawn_flowers
import drawn_plants
from brush import Canvas, Colour
from PIL import ExifTags, Image

if TYPE_CHECKING:
    from collections.abc import Callable

HERE = Path(__file__).resolve().parent

PICTURES: dict[str, tuple[Callable[[Canvas], None], Colour, Colour]] = {
    "cattleya-flower": (drawn_plants.cattleya_flower, (196, 208, 196), (120, 138, 120)),
    "laelia-flower": (drawn_flowers.laelia_flower, (120, 140, 150), (60, 78, 84)),
    "laelia-flower-before": (
        drawn_flowers.laelia_flower, (168, 160, 148), (92, 88, 80)
    ),
    "moth-flower": (drawn_flowers.moth_spray, (96, 120, 132), (48, 62, 66)),
    "moth-spike": (drawn_plants.moth_spike, (214, 206, 190), (158, 146, 128)),
    "new-lead": (drawn_plants.new_lead, (206, 212, 200), (140, 146, 128)),
    "root-tips": (drawn_plants.root_tips, (190, 200, 196), (150, 150, 140)),
    "vanda-flower": (drawn_flowers.vanda_flower, (222, 220, 206), (150, 160, 140)),
    "slipper-flower": (drawn_flowers.slipper, (84, 100, 92), (40, 52, 46)),
    "oncidium-spray": (drawn_flowers.oncidium, (92, 112, 108), (46, 60, 54)),
    "catasetum-roots": (drawn_plants.catasetum_roots, (200, 202, 206), (150, 148, 140)),
    "clowesia-bare": (drawn_plants.clowesia, (206, 204, 196), (136, 130, 116)),
    "lycaste-flower": (drawn_plants.lycaste, (170, 188, 190), (104, 116, 108)),
    "nobile-flower": (drawn_flowers.nobile, (124, 146, 132), (66, 84, 72)),
    "cymbidium-spray": (drawn_flowers.cymbidium, (178, 192, 204), (118, 128, 132)),
    "masdevallia-flower": (drawn_flowers.masdevallia, (116, 134, 136), (58, 70, 66)),
    "new-fan": (drawn_plants.new_fan, (204, 214, 214), (164, 168, 164)),
    "rot-at-the-foot": (drawn_plants.rot, (204, 208, 206), (168, 170, 164)),
    "repotting-bench": (drawn_plants.repotting, (198, 206, 200), (160, 160, 148)),
}  # fmt: skip


TELLS_PLACE = "oncidium-spray"
"""The picture whose file says where it was taken: by the Fennel Yard, which is not."""


def _placed() -> Image.Exif:
    """Give what a phone writes of a place, for a spot in open water."""
    exif = Image.Exif()
    exif.get_ifd(ExifTags.IFD.GPSInfo).update(
        {1: "N", 2: (48.0, 12.0, 0.0), 3: "W", 4: (9.0, 30.0, 0.0)}
    )
    return exif


def draw(name: str, folder: Path) -> Path:
    """Draw one picture and give its file."""
    drawing, top, foot = PICTURES[name]
    canvas = Canvas(name, top, foot)
    drawing(canvas)
    path = folder / f"{name}.jpg"
    canvas.save(path, _placed() if name == TELLS_PLACE else None)
    return path


def main() -> None:
    """Draw all pictures, into their own folder or where told."""
    parser = argparse.ArgumentParser(description="Draw the demo's pictures.")
    parser.add_argument("--to", type=Path, default=HERE / "pictures")
    parser.add_argument("names", nargs="*", help="only these (default: all)")
    given = parser.parse_args()
    given.to.mkdir(parents=True, exist_ok=True)
    for name in given.names or PICTURES:
        path = draw(name, given.to)
        print(f"{path}: {path.stat().st_size // 1024} kB")


if __name__ == "__main__":
    main()
