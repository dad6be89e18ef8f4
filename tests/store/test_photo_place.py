"""Where a photo was taken is found in every form of file, and stays out of a copy.

What a copy still holds is read by Pillow, which had no hand in cutting it.
"""

from __future__ import annotations

import io
import os
import struct
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from PIL import Image, PngImagePlugin, features
from PIL.TiffImagePlugin import ImageFileDirectory_v2

from growdesk.store import pictures
from growdesk.store.exif_block import BrokenBlockError, says_where, without_place
from growdesk.store.photo_place import tells_place
from growdesk.store.photos import Cleaned, clean_copy, examine, put
from growdesk.store.pictures import UnreadableError

TODAY = date(2026, 11, 25)
XMP = (
    b'<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF><rdf:Description '
    b'exif:GPSLatitude="47,22.5N" xmp:Rating="3"/></rdf:RDF></x:xmpmeta>'
)
PLAIN_XMP = XMP.replace(b'exif:GPSLatitude="47,22.5N" ', b"")
CITY = b"\x1c\x02\x5a\x00\x06Nowhen"
WIDE = (96, 64)
Make = Callable[[str], Path]


def camera(*, gps: bool = True, turned: int = 6, note: bool = True) -> Image.Exif:
    """Give what a phone writes: turn, day, maker's note, latitude and longitude."""
    exif = Image.Exif()
    exif[0x0112] = turned
    exif[0x010F] = "Nobody"
    detail = exif.get_ifd(0x8769)
    detail[0x9003] = "2025:06:07 08:09:10"
    if note:
        detail[0x927C] = b"SECRET NOTE OF THE MAKER"
    if gps:
        exif.get_ifd(0x8825).update(
            {
                0: b"\x02\x03\x00\x00",
                1: "N",
                2: (47.0, 22.0, 30.5),
                3: "E",
                4: (8, 30, 1),
            }
        )
    return exif


def drawn() -> Image.Image:
    """Give a picture whose every corner is of another colour."""
    image = Image.new("RGB", WIDE, "green")
    for number, colour in enumerate(("red", "blue", "white", "black")):
        at = (number % 2 * (WIDE[0] - 16), number // 2 * (WIDE[1] - 16))
        image.paste(colour, (*at, at[0] + 16, at[1] + 16))
    return image


@pytest.fixture(autouse=True)
def heic() -> None:
    """Have Pillow write and read HEIC and AVIF."""
    import pillow_heif

    pillow_heif.register_heif_opener()
    assert features.check("avif")


@pytest.fixture
def make(tmp_path: Path) -> Make:
    """Give a way to write the picture with a camera's words, by its ending."""

    def write(name: str) -> Path:
        path = tmp_path / name
        drawn().save(path, exif=camera().tobytes())
        return path

    return write


def left(path: Path) -> tuple[object, object, dict[int, object]]:
    """Give by Pillow what a file says: turn, day, place."""
    with Image.open(path) as image:
        exif = image.getexif()
        return (
            exif.get(0x0112),
            exif.get_ifd(0x8769).get(0x9003),
            dict(exif.get_ifd(0x8825)),
        )


def pixels(path: Path) -> bytes:
    with Image.open(path) as image:
        return image.convert("RGB").tobytes()


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif", "heic", "avif"])
def test_a_copy_tells_no_place_and_keeps_turn_day_and_pixels(
    make: Make, tmp_path: Path, ending: str
) -> None:
    source, target = make(f"photo.{ending}"), tmp_path / f"copy.{ending}"
    before = source.read_bytes()
    assert left(source)[2]
    assert tells_place(before)
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    turn, day, place = left(target)
    assert place == {}
    assert (turn, day) == left(source)[:2]
    assert day == "2025:06:07 08:09:10"
    assert pixels(target) == pixels(source)
    assert source.read_bytes() == before
    content = target.read_bytes()
    assert not tells_place(content)
    assert b"SECRET" not in content
    degrees = struct.pack("<II", 61, 2), struct.pack(">II", 61, 2)
    assert any(each in before for each in degrees)
    assert not any(each in content for each in degrees)


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif", "heic", "avif"])
def test_a_copy_of_a_file_without_a_place_is_the_file(
    tmp_path: Path, ending: str
) -> None:
    source, target = tmp_path / f"photo.{ending}", tmp_path / f"copy.{ending}"
    drawn().save(source, exif=camera(gps=False), xmp=PLAIN_XMP)
    assert clean_copy(source, target) is Cleaned.AS_IT_WAS
    assert target.read_bytes() == source.read_bytes()


def test_a_cleaned_copy_is_clean_once_and_for_all(make: Make, tmp_path: Path) -> None:
    once, twice = tmp_path / "once.jpg", tmp_path / "twice.jpg"
    clean_copy(make("photo.jpg"), once)
    assert clean_copy(once, twice) is Cleaned.AS_IT_WAS


@pytest.mark.parametrize("ending", ["jpg", "webp", "tif", "heic"])
def test_a_place_in_xmp_is_found_and_goes(tmp_path: Path, ending: str) -> None:
    source, target = tmp_path / f"photo.{ending}", tmp_path / f"copy.{ending}"
    words = ImageFileDirectory_v2()
    words[700], words.tagtype[700] = XMP, 1
    own = {"tiffinfo": words} if ending == "tif" else {"xmp": XMP}
    drawn().save(source, exif=camera(gps=False).tobytes(), **own)
    assert tells_place(source.read_bytes())
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert b"GPSLatitude" not in target.read_bytes()
    assert left(target)[:2] == left(source)[:2]
    assert pixels(target) == pixels(source)


def png(path: Path, key: str, value: str, *, packed: bool = False) -> Path:
    texts = PngImagePlugin.PngInfo()
    texts.add_itxt(key, value, zip=packed)
    texts.add_text("Title", "root tips")
    drawn().save(path, pnginfo=texts, exif=camera(gps=False))
    return path


@pytest.mark.parametrize("packed", [False, True])
def test_a_place_in_a_text_of_a_png_goes_and_its_title_stays(
    tmp_path: Path, packed: bool
) -> None:
    source = png(tmp_path / "a.png", "XML:com.adobe.xmp", XMP.decode(), packed=packed)
    target = tmp_path / "b.png"
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    with Image.open(target) as image:
        assert isinstance(image, PngImagePlugin.PngImageFile)
        assert image.text == {"Title": "root tips"}
    assert left(target)[1] == "2025:06:07 08:09:10"


def test_a_place_in_an_old_profile_of_a_png_is_drawn_anew_without_loss(
    tmp_path: Path,
) -> None:
    block = camera().tobytes()
    hexed = block.hex()
    texts = PngImagePlugin.PngInfo()
    texts.add_text(
        "Raw profile type exif", f"\nexif\n{len(block)}\n{hexed}\n", zip=True
    )
    source, target = tmp_path / "a.png", tmp_path / "b.png"
    drawn().save(source, pnginfo=texts)
    assert left(source)[2]
    assert clean_copy(source, target) is Cleaned.DRAWN_ANEW
    assert left(target) == (6, "2025:06:07 08:09:10", {})
    assert pixels(target) == pixels(source)


def with_segment(source: Path, marker: int, body: bytes) -> None:
    whole = source.read_bytes()
    segment = struct.pack(">BBH", 0xFF, marker, len(body) + 2) + body
    source.write_bytes(whole[:2] + segment + whole[2:])


def test_a_city_in_the_caption_of_a_jpeg_goes(tmp_path: Path) -> None:
    source, target = tmp_path / "a.jpg", tmp_path / "b.jpg"
    drawn().save(source, exif=camera(gps=False))
    with_segment(source, 0xED, b"Photoshop 3.0\x008BIM\x04\x04\x00\x00" + CITY)
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert b"Nowhen" not in target.read_bytes()
    assert pixels(target) == pixels(source)


def test_what_hangs_behind_a_jpeg_goes_where_it_tells_a_place(
    make: Make, tmp_path: Path
) -> None:
    second = make("second.jpg").read_bytes()
    film = b"\x00\x00\x00\x20ftypmp42 moov \xa9xyz\x00\x12\x15\xc7+47.3+008.5/"
    for number, behind in enumerate((second, film)):
        source, target = tmp_path / f"{number}.jpg", tmp_path / f"{number}-copy.jpg"
        drawn().save(source, exif=camera(gps=False))
        alone = len(source.read_bytes())
        source.write_bytes(source.read_bytes() + behind)
        assert clean_copy(source, target) is Cleaned.CUT_OUT
        assert len(target.read_bytes()) <= alone
        assert pixels(target) == pixels(source)


def test_what_hangs_behind_a_png_goes_where_it_tells_a_place(
    make: Make, tmp_path: Path
) -> None:
    source, target = tmp_path / "a.png", tmp_path / "b.png"
    drawn().save(source)
    alone = source.read_bytes()
    source.write_bytes(alone + make("second.jpg").read_bytes())
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert target.read_bytes() == alone


def test_both_pictures_of_an_mpo_are_looked_at_and_the_first_stays(
    tmp_path: Path,
) -> None:
    source, target = tmp_path / "a.mpo", tmp_path / "b.jpg"
    second = drawn().transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    drawn().save(source, save_all=True, append_images=[second], exif=camera())
    with Image.open(source) as image:
        assert image.format == "MPO"
        first = image.convert("RGB").tobytes()
    assert put(tmp_path, examine(source, TODAY)).ext == "jpg"
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert left(target)[2] == {}
    assert pixels(target) == first
    with Image.open(target) as image:
        assert image.format == "JPEG"


def test_a_progressive_jpeg_is_cut_to_the_same_picture(tmp_path: Path) -> None:
    source, target = tmp_path / "a.jpg", tmp_path / "b.jpg"
    drawn().save(source, progressive=True, exif=camera())
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert pixels(target) == pixels(source)


def test_a_gif_whose_words_tell_a_place_is_drawn_anew(tmp_path: Path) -> None:
    source, target = tmp_path / "a.gif", tmp_path / "b.gif"
    drawn().save(source, comment=XMP)
    assert clean_copy(source, target) is Cleaned.DRAWN_ANEW
    assert not tells_place(target.read_bytes())
    with Image.open(target) as image:
        assert image.size == WIDE


def test_a_place_that_will_not_go_leaves_no_copy(make: Make, tmp_path: Path) -> None:
    source, target = make("photo.jpg"), tmp_path / "copy.jpg"
    source.write_bytes(source.read_bytes()[:-40])
    with pytest.raises(UnreadableError, match=r"^photo.jpg tells where it was taken"):
        clean_copy(source, target)
    assert not target.exists()


@pytest.mark.parametrize("order", ["<", ">"])
def test_a_block_keeps_its_length_and_every_other_offset(order: str) -> None:
    exif = camera()
    exif.endian = order
    block = exif.tobytes()[6:]
    cut = without_place(block)
    assert len(cut) == len(block)
    again = Image.Exif()
    again.load(b"Exif\x00\x00" + cut)
    assert again[0x010F] == "Nobody"
    assert again.get_ifd(0x8769)[0x9003] == "2025:06:07 08:09:10"
    assert 0x927C not in again.get_ifd(0x8769)
    assert again.get_ifd(0x8825) == {}


def test_a_broken_block_is_no_place_and_not_cut() -> None:
    block = camera().tobytes()[6:]
    assert says_where(block)
    lost = block[:4] + struct.pack("<I" if block[:1] == b"I" else ">I", 1 << 30)
    assert not says_where(lost)
    with pytest.raises(BrokenBlockError):
        without_place(lost)
    round_about = b"II*\x00\x08\x00\x00\x00\x00\x00\x08\x00\x00\x00"
    assert not says_where(round_about)


def test_a_camera_that_found_no_satellite_tells_no_place() -> None:
    exif = camera(gps=False)
    exif.get_ifd(0x8825)[0] = b"\x02\x03\x00\x00"
    assert not says_where(exif.tobytes()[6:])


# -- taking in ----------------------------------------------------------------------


@pytest.mark.parametrize("ending", ["jpg", "png", "webp", "tif", "heic", "avif"])
def test_intake_knows_the_day_and_that_a_place_is_told(
    make: Make, tmp_path: Path, ending: str
) -> None:
    stored = put(tmp_path, examine(make(f"photo.{ending}"), TODAY))
    assert stored.taken_on == date(2025, 6, 7)
    assert stored.has_location
    assert stored.ext == ending


@pytest.mark.parametrize("turned", range(1, 9))
def test_every_turn_of_the_camera_comes_out_upright(
    tmp_path: Path, turned: int
) -> None:
    source = tmp_path / "a.jpg"
    drawn().save(source, exif=camera(turned=turned), quality=95)
    stored = put(tmp_path, examine(source, TODAY))
    upright = (64, 96) if turned >= 5 else WIDE
    assert (stored.width, stored.height) == upright
    small = Image.open(io.BytesIO(pictures.as_jpeg(source.read_bytes(), 320, 95)))
    assert small.size == upright
    red = {1: (0, 0), 2: (1, 0), 3: (1, 1), 4: (0, 1), 5: (0, 0), 6: (1, 0), 7: (1, 1)}
    across, down = red.get(turned, (0, 1))
    corner = (
        8 + across * (upright[0] - 16),
        8 + down * (upright[1] - 16),
    )
    colour = small.getpixel(corner)
    assert isinstance(colour, tuple)
    assert colour[0] > 200
    assert max(colour[1:]) < 60


def test_a_turned_heic_is_upright_once_and_not_twice(tmp_path: Path) -> None:
    source = tmp_path / "a.heic"
    drawn().save(source, exif=camera(turned=6).tobytes(), quality=95)
    assert b"irot" in source.read_bytes()
    stored = put(tmp_path, examine(source, TODAY))
    small = Image.open(io.BytesIO(pictures.as_jpeg(source.read_bytes(), 320, 95)))
    assert small.size == (stored.width, stored.height) == (64, 96)
    red = small.getpixel((56, 8))
    assert isinstance(red, tuple)
    assert red[0] > 200
    copy = tmp_path / "copy.heic"
    assert clean_copy(source, copy) is Cleaned.CUT_OUT
    assert pixels(copy) == pixels(source)


def test_only_the_first_picture_of_a_moving_one_is_shown(tmp_path: Path) -> None:
    source = tmp_path / "a.gif"
    others = [Image.new("RGB", WIDE, "blue")]
    Image.new("RGB", WIDE, "red").save(source, save_all=True, append_images=others)
    assert put(tmp_path, examine(source, TODAY)).ext == "gif"
    small = Image.open(io.BytesIO(pictures.as_jpeg(source.read_bytes(), 320, 90)))
    colour = small.getpixel((10, 10))
    assert isinstance(colour, tuple)
    assert colour[0] > 200


def test_a_heic_without_its_library_says_how_to_get_it(
    make: Make, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    source = make("photo.heic")
    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    with pytest.raises(UnreadableError, match=r"^photo.heic is a HEIC photo") as caught:
        put(tmp_path, examine(source, TODAY))
    assert "growdesk[heic]" in str(caught.value)
    assert str(caught.value).endswith("It was left out.")
    target = tmp_path / "copy.heic"
    assert clean_copy(source, target) is Cleaned.CUT_OUT
    assert left(target)[2] == {}


def test_the_day_of_the_file_is_kept_apart_from_the_cameras(tmp_path: Path) -> None:
    source = tmp_path / "a.png"
    drawn().save(source)
    noon = 1_750_000_000
    os.utime(source, (noon, noon))
    stored = put(tmp_path, examine(source, TODAY))
    assert stored.taken_on is None
    assert stored.file_day == date(2025, 6, 15)
    os.utime(source, (noon * 2, noon * 2))
    assert put(tmp_path, examine(source, TODAY)).file_day is None
