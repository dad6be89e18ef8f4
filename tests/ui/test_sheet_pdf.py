"""The sheet on paper: what stands on it, where, and how large."""

from __future__ import annotations

import io
import os
import subprocess
import sys
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

import pypdf
import pytest
from msgspec.structs import replace
from PySide6.QtCore import QLocale, QMarginsF
from PySide6.QtGui import QPageSize
from PySide6.QtPrintSupport import QPrinter

from growdesk.domain import cautions
from growdesk.domain.analysis import parse_analysis
from growdesk.domain.errors import InputError, StoreError
from growdesk.domain.facts import CareKind, Verdict, Water
from growdesk.domain.measuring import Measured
from growdesk.domain.product import Product
from growdesk.domain.vessels import Vessel, VesselKind
from growdesk.services.jug_values import JugFill
from growdesk.services.sheet_values import Sheet, SheetLine, SheetPlace, SheetRound
from growdesk.services.values import Done, DoneKind, Jug, MixPlan
from growdesk.ui import jug_words
from growdesk.ui.dialogs.pages import SheetPreview
from growdesk.ui.printing import paper, wording
from growdesk.ui.printing.marks import (
    FACES,
    MM,
    TAG,
    TEXT,
    Drawing,
    Frame,
    Mark,
    Modules,
    Picture,
    Rule,
    Words,
)
from growdesk.ui.printing.pages import LEFT_PT, NO_BENCH, RIGHT_PT, Page, lay_out
from growdesk.ui.printing.printer import print_sheet
from growdesk.ui.printing.rows import BOX_PT
from growdesk.ui.printing.searchable import spaces_as_spaces
from growdesk.ui.printing.setting import elide, line_pt, width_pt, wrap
from growdesk.ui.printing.sheet_pdf import pdf_bytes, write_pdf

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from pytestqt.qtbot import QtBot

pytestmark = pytest.mark.usefixtures("qapp")

WEDNESDAY = date(2026, 3, 11)
SATURDAY = date(2026, 3, 14)
A4_PT = (595.0, 842.0)

FED = SheetLine(
    tag="C3",
    name="Cattleya Old Whitey 'Bumper Crop'",
    verdict=Verdict.FEED,
    water=Water.THROUGH,
    letter="A",
    strength_ppm_n=150.0,
    volume_l=0.37,
    looked_on=date(2026, 3, 3),
    reason="new growth extending",
    until_looked=None,
    redecide=None,
    place="South window",
)
WEAK = replace(
    FED, tag="M1", name="Masdevallia", letter="B", strength_ppm_n=60.0, volume_l=0.11
)
CLEAR = replace(
    FED,
    tag="C9",
    name="Rhyncholaeliocattleya Hawaiian Festival 'Carmela'",
    verdict=Verdict.CLEAR_WATER,
    water=Water.IF_DRY,
    letter=None,
    strength_ppm_n=None,
    volume_l=0.4,
    reason="nothing moves",
)
FLUSHED = replace(
    CLEAR, tag="O2", verdict=Verdict.FLUSH, water=Water.THROUGH, reason="due"
)
DRY = replace(
    CLEAR,
    tag="K7",
    name="Catasetum fimbriatum",
    verdict=Verdict.KEEP_DRY,
    water=Water.NONE,
    volume_l=None,
    reason="bare, roots too short",
)
LOOK = replace(
    CLEAR,
    tag="P12",
    name="Phalaenopsis schilleriana",
    verdict=Verdict.LOOK_FIRST,
    reason="look too old",
    until_looked="clear water, if the pot is light",
    redecide="Root tip or new leaf seen → jug B 60 ppm N; nothing → clear, if light",
)
TIN = Product("Tin", parse_analysis("20-20-20"))
GREEN = Product("Green", parse_analysis("20-20-20"))
GREEN_LIQUID = Product("Green", parse_analysis("20-20-20", 1.25))
BARE = Jug("A", 150, 2.5, 0.2, ("C3",), (), None, None, ())


def weighed(product: Product, mass_g: float) -> tuple[Measured, ...]:
    return (Measured(product, mass_g, mass_g, mass_g, "g"),)


A = replace(
    BARE,
    recipe="Tin",
    doses=weighed(TIN, 1.88),
    ec_low_ms_per_cm=1.1,
    ec_high_ms_per_cm=1.4,
)
B = replace(
    A,
    letter="B",
    strength_ppm_n=60,
    volume_l=1.0,
    spare_l=0.1,
    tags=("M1",),
    doses=weighed(TIN, 0.3),
    ec_low_ms_per_cm=0.5,
    ec_high_ms_per_cm=0.7,
    warnings=("Rinse.",),
)
MIX = MixPlan(
    jugs=(A, B),
    ladder=("Mix 3 L at 150 ppm N in jug A, use 2.5 L of it.",),
    outside_band=("M1",),
    volume_unknown=("P12",),
    clear_l=0.8,
    flush_l=2.7,
    water="rain water",
    tin="Tin",
)
ROUND = SheetRound(
    on=WEDNESDAY,
    assumes=None,
    keep_dry=(DRY,),
    order_of_work=("Look at P12 before mixing.", "Suspect plants last: O2."),
    places=(
        SheetPlace("South window", (FED, CLEAR, DRY, LOOK)),
        SheetPlace("Cool porch", (WEAK, FLUSHED)),
    ),
    mix=MIX,
)
SHEET = Sheet(
    collection="Orchids of Lower Marling",
    week_of=date(2026, 3, 9),
    made_at=datetime(2026, 3, 11, 8, 0, tzinfo=UTC),
    rounds=(
        ROUND,
        replace(ROUND, on=SATURDAY, assumes="Holds if Wednesday 11 March was done."),
    ),
    cautions_short=tuple(cautions.SHORT),
    cautions_full=tuple(cautions.FULL),
)


def one_round(*lines: SheetLine) -> Sheet:
    """Give a sheet of one round with these plants in one place."""
    dry = tuple(line for line in lines if line.verdict is Verdict.KEEP_DRY)
    only = replace(ROUND, keep_dry=dry, places=(SheetPlace("Shelf", lines),))
    return replace(SHEET, rounds=(only,))


def read(content: bytes) -> pypdf.PdfReader:
    """Open a PDF's content."""
    return pypdf.PdfReader(io.BytesIO(content))


def texts(content: bytes) -> list[str]:
    """Give each page's text, line breaks as spaces."""
    return [" ".join(page.extract_text().split()) for page in read(content).pages]


def marks(pages: tuple[Page, ...]) -> Iterator[tuple[float, float, Mark]]:
    """Give every mark with its corner on the page."""
    for page in pages:
        for placed in page.placed:
            for mark in placed.marks:
                yield placed.x_pt, placed.y_pt, mark


def body_words(page: Page) -> list[str]:
    """Give the words of a page in the order they are drawn."""
    return [
        mark.text
        for placed in page.placed
        for mark in placed.marks
        if isinstance(mark, Words)
    ]


# What stands on the sheet


def test_each_page_says_which_of_how_many_it_is() -> None:
    pages = texts(pdf_bytes(SHEET, "A4"))
    assert len(pages) >= 2
    for number, text in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in text


def test_each_round_begins_a_page_and_heads_every_page_of_it() -> None:
    pages = texts(pdf_bytes(SHEET, "A4"))
    wednesday = [text for text in pages if text.startswith("Wednesday 11 March 2026")]
    saturday = [text for text in pages if text.startswith("Saturday 14 March 2026")]
    assert len(wednesday) + len(saturday) == len(pages)
    assert all("Holds if Wednesday 11 March was done." in text for text in saturday)
    assert not any("Holds if" in text for text in wednesday)
    made = "Made on Wednesday 11 March 2026, from what was recorded by then."
    assert sum(made in text for text in pages) == 2


def test_every_plant_stands_in_bench_order_in_each_round() -> None:
    pages = " ".join(texts(pdf_bytes(SHEET, "A4")))
    rounds = pages.split("Holds if Wednesday")
    for text in (rounds[0], " ".join(rounds[1:])):
        bench = text[text.index("tag and name") :]
        places = [bench.index(f" {tag} ") for tag in ("C3", "C9", "K7", "P12", "M1")]
        assert places == sorted(places)


def test_keep_dry_comes_first_and_again_as_a_barred_line() -> None:
    pages = texts(pdf_bytes(one_round(FED, DRY, replace(DRY, tag="K8")), "A4"))
    text = " ".join(pages)
    assert text.count("DO NOT WATER") == 2
    first = text.index("Keep dry: no water for 2 plants")
    assert first < text.index("K7") < text.index("K8") < text.index("Mix in this order")
    assert text.count("K7") == text.count("K8") == 2


def test_a_barred_line_has_a_heavy_frame_and_no_box_to_tick() -> None:
    boxed = _boxes(lay_out(one_round(FED), *A4_PT))
    barred = lay_out(one_round(DRY), *A4_PT)
    assert len(boxed) == 3
    assert _boxes(barred) == []
    heavy = [m for _, _, m in marks(barred) if isinstance(m, Rule) and m.thick_pt > 5]
    assert len(heavy) == 1


def test_boxes_are_four_millimetres_or_more() -> None:
    assert BOX_PT >= 4 * MM
    assert all(box.width_pt == box.height_pt == BOX_PT for box in _boxes_of_sheet())


def _boxes(pages: tuple[Page, ...]) -> list[Frame]:
    found = [m for _, _, m in marks(pages) if isinstance(m, Frame)]
    return [frame for frame in found if frame.width_pt == BOX_PT]


def _boxes_of_sheet() -> list[Frame]:
    found = _boxes(lay_out(SHEET, *A4_PT))
    assert len(found) == 2 * 5 * 3
    return found


def test_jugs_say_strength_weight_water_and_leave_a_blank_for_the_reading() -> None:
    text = " ".join(texts(pdf_bytes(one_round(FED), "A4")))
    assert "150 ppm N · 2.7 L, 200 mL of it to spare · 1 plant" in text
    assert "Weigh 1.88 g (Tin) into 2.7 L of rain water" in text
    reading = "read _________ mS/cm at _________ °C"
    assert f"EC at 25 °C: expect 1.10 to 1.40, {reading}" in text
    assert "Rinse." in text
    assert "Mix 3 L at 150 ppm N in jug A" in text
    assert "Clear water · 3.5 L of rain water" in text


def test_what_is_weighed_is_read_at_arms_length_and_a_hand_has_room_to_write() -> None:
    words = [
        (y, m)
        for _, y, m in marks(lay_out(one_round(FED), *A4_PT))
        if isinstance(m, Words)
    ]
    (weighed,) = (m for _, m in words if m.text.startswith("Weigh 1.88 g"))
    assert weighed.face == TAG
    at = next(i for i, (_, m) in enumerate(words) if "____" in m.text)
    above, blank = (y + m.y_pt for y, m in words[at - 1 : at + 1])
    assert blank - above >= line_pt(TEXT) + 4


def test_the_letter_stands_with_its_strength_and_the_volume_is_rounded() -> None:
    text = " ".join(texts(pdf_bytes(one_round(FED, WEAK), "A4")))
    assert "A 150 ppm N 350 mL" in text
    assert "B 60 ppm N 100 mL" in text


def test_look_first_says_what_holds_until_looked_and_how_to_decide() -> None:
    text = " ".join(texts(pdf_bytes(one_round(LOOK), "A4")))
    assert "LOOK FIRST" in text
    assert "Until then: clear water, if the pot is light" in text
    assert "→ jug B 60 ppm N; nothing → clear, if light" in text


def test_cautions_stand_on_each_page_and_the_block_once() -> None:
    pages = texts(pdf_bytes(SHEET, "A4"))
    for text in pages:
        assert all(line in text for line in cautions.SHORT)
    everything = " ".join(pages)
    for line in cautions.FULL:
        assert everything.count(line) == 1


def test_what_was_done_is_ticked() -> None:
    fed = Done(DoneKind.CARED, CareKind.FEED, 150.0, 0.4)
    watered = Done(DoneKind.CARED, CareKind.CLEAR_WATER, None, 0.4)
    passed = Done(DoneKind.PASSED_BY, None, None, None)
    assert wording.boxes_ticked(fed) == (True, False, False)
    assert wording.boxes_ticked(watered) == (False, True, False)
    assert wording.boxes_ticked(passed) == (False, False, True)
    plain = _crosses(one_round(FED))
    assert _crosses(one_round(replace(FED, done=fed))) == plain + 2


def _crosses(sheet: Sheet) -> int:
    found = [m for _, _, m in marks(lay_out(sheet, *A4_PT)) if isinstance(m, Rule)]
    return sum(m.x1_pt != m.x2_pt and m.y1_pt != m.y2_pt for m in found)


@pytest.mark.parametrize(
    ("jug", "expected"),
    [
        (
            replace(
                A,
                volume_l=0.5,
                spare_l=0.05,
                doses=(Measured(GREEN_LIQUID, 2.0, 2.0, 1.6, "mL"),),
            ),
            "Measure 1.6 mL (Green) into 550 mL of RO water",
        ),
        (
            replace(A, volume_l=20.0, spare_l=1.0, doses=weighed(GREEN, 21.04)),
            "Weigh 21 g (Green) into 21 L of RO water",
        ),
        (
            replace(BARE, volume_l=0.5, spare_l=0.05, recipe="Green"),
            "Into 550 mL of RO water: Green gives no weight. Write it here: ________",
        ),
    ],
)
def test_what_goes_into_a_jug(jug: Jug, expected: str) -> None:
    assert wording.weigh(jug, replace(MIX, water="RO")) == expected


def test_any_other_water_keeps_its_own_name() -> None:
    assert jug_words.water_name(replace(MIX, water="pond, sieved")) == "pond, sieved"
    assert jug_words.water_name(replace(MIX, water=None)) == "your water"


def test_without_a_tin_the_sheet_says_so_and_leaves_a_blank() -> None:
    bare = replace(
        MIX,
        tin=None,
        jugs=(replace(BARE, spare_l=0.0),),
    )
    sheet = one_round(FED)
    sheet = replace(sheet, rounds=(replace(sheet.rounds[0], mix=bare),))
    text = " ".join(texts(pdf_bytes(sheet, "A4")))
    assert "no tin is in use, so no weight" in text
    assert "read ____" in text


def test_a_round_without_feed_says_so() -> None:
    dry = replace(MIX, jugs=(), ladder=(), clear_l=0.0, flush_l=0.0)
    sheet = one_round(DRY)
    sheet = replace(sheet, rounds=(replace(sheet.rounds[0], mix=dry),))
    text = " ".join(texts(pdf_bytes(sheet, "A4")))
    assert "No feed to mix this round." in text
    assert "Clear water ·" not in text


# How it stands on the paper


@pytest.mark.parametrize(
    ("name", "size"), [("A4", (595, 842)), ("letter", (612, 792)), (" a4 ", (595, 842))]
)
def test_paper_has_its_size(name: str, size: tuple[int, int]) -> None:
    for page in read(pdf_bytes(SHEET, name)).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == size


def test_unknown_paper_is_refused_with_the_way_out() -> None:
    with pytest.raises(InputError, match="paper: 'A5' is not known") as caught:
        pdf_bytes(SHEET, "A5")
    assert "A4 or Letter" in caught.value.hint


@pytest.mark.parametrize(
    ("locale", "expected"),
    [
        ("en_US", paper.LETTER),
        ("en_CA", paper.LETTER),
        ("es_MX", paper.LETTER),
        ("en_GB", paper.A4),
        ("de_AT", paper.A4),
        ("en_AU", paper.A4),
        ("C", paper.A4),
    ],
)
def test_country_decides_between_a4_and_letter(
    locale: str, expected: QPageSize.PageSizeId
) -> None:
    assert paper.paper_of(QLocale(locale)) == expected


def test_no_type_is_smaller_than_eleven_points() -> None:
    assert min(face.size_pt for face in FACES) >= 11
    sizes: list[float] = []

    def note(
        text: str, cm: list[float], tm: list[float], _font: object, size: float
    ) -> None:
        if text.strip():
            sizes.append(abs(size * cm[3] * tm[3]))

    for page in read(pdf_bytes(SHEET, "A4")).pages:
        page.extract_text(visitor_text=note)
    assert sizes
    assert min(sizes) > 10.95


def test_black_on_white_without_fills() -> None:
    for page in read(pdf_bytes(SHEET, "A4")).pages:
        content = page.get_contents()
        assert content is not None
        colours = {
            tuple(float(str(value)) for value in operands[:3])
            for operands, operator in pypdf.generic.ContentStream(
                content, page.pdf
            ).operations
            if operator in (b"scn", b"SCN", b"rg", b"RG") and len(operands) >= 3
        }
        assert colours <= {(0.0, 0.0, 0.0), (1.0, 1.0, 1.0)}


def test_type_is_embedded() -> None:
    for page in read(pdf_bytes(SHEET, "A4")).pages:
        fonts = page["/Resources"]["/Font"]  # type: ignore[index]
        assert fonts
        for each in fonts.values():
            descendant = each.get_object()["/DescendantFonts"][0].get_object()
            assert "/FontFile2" in descendant["/FontDescriptor"].get_object()


def heavy(jugs: int) -> Sheet:
    """Give a round of forty plants with long names, two recipes and split jugs."""
    long = Product("A tin with a rather long name, for all of the year", TIN.analysis)
    doses = (*weighed(long, 12.3), *weighed(TIN, 4.5), *weighed(GREEN, 0.7))
    fills = (JugFill(2, 4.0, "jug", doses), JugFill(1, 2.2, "jug", doses))
    made = tuple(
        replace(
            A,
            letter="ABC"[number],
            doses=doses,
            recipe=f"Recipe {number % 2} of a long name, with magnesium, for winter",
            fills=fills if number else (),
            warnings=("Too strong for any pot of this jug by far.",) * 3,
        )
        for number in range(jugs)
    )
    mix = replace(MIX, jugs=made, short=("The tin is short by 3 g for this round.",))
    lines = tuple(replace(FED, tag=f"C{number}") for number in range(40))
    sheet = one_round(*lines)
    return replace(sheet, rounds=(replace(sheet.rounds[0], mix=mix),))


@pytest.mark.parametrize("size", [A4_PT, (612.0, 792.0)])
@pytest.mark.parametrize("jugs", [1, 3])
def test_forty_plants_and_heavy_jugs_hold_on_their_pages(
    size: tuple[float, float], jugs: int
) -> None:
    width, height = size
    pages = lay_out(heavy(jugs), width, height)
    for x, y, mark in marks(pages):
        left, right, low = _reach(mark)
        assert x + left >= 25 * MM - 5
        assert x + right <= width - RIGHT_PT + 5
        assert 0 < y + low < height - 20
    told = [text for page in pages for text in body_words(page)]
    for number in range(40):
        assert told.count(f"C{number}") == 1
    for letter in "ABC"[:jugs]:
        assert told.count(letter) == 1
    assert len(pages) <= 5


def test_left_margin_is_wide_and_nothing_leaves_the_page() -> None:
    long = replace(FED, tag="TAG-" * 12, name="Rhyncholaeliocattleya " * 12)
    sheet = one_round(FED, long, replace(DRY, tag="X" * 90), LOOK)
    sheet = replace(sheet, collection="A very long name of a collection " * 8)
    assert LEFT_PT >= 25 * MM
    for width, height in (A4_PT, (612.0, 792.0)):
        for x, y, mark in marks(lay_out(sheet, width, height)):
            left, right, low = _reach(mark)
            assert x + left >= 25 * MM - 5
            assert x + right <= width - RIGHT_PT + 5
            assert 0 < y + low < height - 20


def _reach(mark: Mark) -> tuple[float, float, float]:
    match mark:
        case Words(x_pt=x, y_pt=y, text=text, face=face):
            return x, x + width_pt(text, face), y
        case Rule(x1_pt=x1, x2_pt=x2, y2_pt=y):
            return min(x1, x2), max(x1, x2), y
        case Frame(x_pt=x, y_pt=y, width_pt=width, height_pt=height):
            return x, x + width, y + height
        case Modules(x_pt=x, y_pt=y, side_pt=side):
            return x, x + side, y + side
        case Drawing() | Picture():
            return mark.x_pt, mark.x_pt + mark.width_pt, mark.y_pt + mark.height_pt


def test_a_long_tag_is_whole_and_a_long_name_is_shortened() -> None:
    tag = "".join(f"{number}-" for number in range(30))
    line = replace(FED, tag=tag, name="Sophrolaeliocattleya " * 20)
    page = lay_out(one_round(line), *A4_PT)
    words = [mark.text for _, _, mark in marks(page) if isinstance(mark, Words)]
    assert tag in "".join(words)
    assert any(text.endswith("…") for text in words)


def test_where_a_dry_plant_stands_is_never_cut() -> None:
    bench = "the lower one of the two benches along the wall"
    line = replace(DRY, place="Small greenhouse", bench_name=bench)
    sheet_round = replace(SHEET.rounds[0], keep_dry=(line, DRY))
    page = lay_out(replace(SHEET, rounds=(sheet_round,)), *A4_PT)
    words = " ".join(m.text for _, _, m in marks(page) if isinstance(m, Words))
    head = words[words.index("Keep dry: no water") : words.index("Order of work")]
    for word in bench.split():
        assert word in head
    assert "…" not in head


def test_a_tray_is_counted_beside_its_name() -> None:
    line = replace(FED, name="Phalaenopsis", together="tray ×6")
    page = lay_out(one_round(line), *A4_PT)
    words = [mark for _, _, mark in marks(page) if isinstance(mark, Words)]
    assert "Phalaenopsis tray ×6" in "".join(mark.text for mark in words)
    slanted = [mark.text for mark in words if mark.face.italic]
    assert slanted == ["Phalaenopsis"]


def test_names_are_in_italics_and_found_in_the_pdf() -> None:
    content = pdf_bytes(one_round(FED, LOOK), "A4")
    (text,) = texts(content)[:1]
    assert "Cattleya Old Whitey ‘Bumper Crop’" in text
    assert "Phalaenopsis schilleriana" in text
    page = lay_out(one_round(FED, LOOK), *A4_PT)
    slanted = [
        mark.text
        for _, _, mark in marks(page)
        if isinstance(mark, Words) and mark.face.italic
    ]
    assert [each.strip() for each in slanted] == [
        "Cattleya",
        "Phalaenopsis schilleriana",
    ]


def test_a_place_that_runs_over_says_its_name_and_heads_again() -> None:
    lines = tuple(replace(FED, tag=f"T{number}") for number in range(60))
    pages = lay_out(one_round(*lines), *A4_PT)
    assert len(pages) >= 3
    for page in pages[1:-1]:
        found = body_words(page)
        assert "Shelf, continued" in found
        assert "tag and name" in found


def test_two_thousand_plants_all_stand_on_it() -> None:
    lines = tuple(
        replace((FED, CLEAR, DRY, LOOK)[number % 4], tag=f"T{number:04}")
        for number in range(2000)
    )
    tags = [
        mark.text
        for _, _, mark in marks(lay_out(one_round(*lines), *A4_PT))
        if isinstance(mark, Words) and mark.text.startswith("T0")
    ]
    assert {f"T{number:04}" for number in range(1000)} <= set(tags)
    content = pdf_bytes(one_round(*lines), "A4")
    assert len(read(content).pages) > 80


def test_a_heading_is_never_the_last_thing_on_a_page() -> None:
    for count in range(1, 30):
        lines = tuple(replace(FED, tag=f"T{number}") for number in range(count))
        sheet = one_round(*lines)
        places = (SheetPlace("First", lines), SheetPlace("Second", lines[:1]))
        sheet = replace(sheet, rounds=(replace(sheet.rounds[0], places=places),))
        for page in lay_out(sheet, *A4_PT):
            found = body_words(page)
            if "Second" in found:
                assert "T0" in found[found.index("Second") :]


def test_a_bench_has_a_small_heading_under_its_place() -> None:
    def on(bench: str, *lines: SheetLine) -> SheetPlace:
        stood = tuple(replace(line, bench_name=bench) for line in lines)
        return SheetPlace("South window", stood, bench, has_benches=True)

    places = (
        on("Top", FED, DRY),
        on("Low", CLEAR),
        on("", LOOK),
        SheetPlace("Cool porch", (WEAK,)),
    )
    sheet = one_round(FED)
    only = replace(sheet.rounds[0], places=places, order_of_work=())
    sheet = replace(sheet, rounds=(only,))
    found = [word for page in lay_out(sheet, *A4_PT) for word in body_words(page)]
    wanted = ("South window", "Top", "Low", NO_BENCH, "Cool porch")
    assert [word for word in found if word in wanted] == list(wanted)
    top, low = found.index("Top"), found.index("Low")
    assert "DO NOT WATER" in found[top:low], "the bar stands in its bench position"


def test_a_bench_that_runs_on_is_named_again() -> None:
    lines = tuple(
        replace(FED, tag=f"T{number}", bench_name="Top") for number in range(40)
    )
    place = SheetPlace("South window", lines, "Top", has_benches=True)
    sheet = one_round(*lines)
    sheet = replace(sheet, rounds=(replace(sheet.rounds[0], places=(place,)),))
    later = [body_words(page) for page in lay_out(sheet, *A4_PT)[1:]]
    named = [words for words in later if any("T1" in word[:2] for word in words)]
    assert named
    assert all("South window · Top, continued" in words for words in named)


# Words


@pytest.mark.parametrize(
    ("volume_l", "expected"),
    [
        (0.37, "350 mL"),
        (0.375, "400 mL"),
        (0.01, "50 mL"),
        (1.0, "1 L"),
        (1.23, "1.25 L"),
        (12.0, "12 L"),
        (None, "___ mL"),
    ],
)
def test_volume_is_rounded_to_fifty_millilitres(
    volume_l: float | None, expected: str
) -> None:
    assert wording.poured(replace(FED, volume_l=volume_l)) == (expected, "")


def test_a_volume_is_told_in_mugs_too_where_a_mug_is_named() -> None:
    mug = Vessel(VesselKind.MUG, "mug", 0.35)
    assert wording.poured(FED, mug) == ("350 mL", "1 mug")
    assert wording.poured(DRY, mug) == ("", "")
    sheet = one_round(FED)
    only = replace(sheet.rounds[0], mix=replace(MIX, mug=mug))
    text = " ".join(texts(pdf_bytes(replace(sheet, rounds=(only,)), "A4")))
    assert "1 mug" in text
    assert "mug" not in " ".join(texts(pdf_bytes(sheet, "A4")))


def test_the_week_s_waters_stand_once_before_the_first_jugs() -> None:
    line = "31 L of rain water for Wednesday and Saturday; 24 L in the barrel: fill it."
    pages = texts(pdf_bytes(replace(SHEET, waters=(line,)), "A4"))
    text = " ".join(pages)
    assert text.count(line) == 1
    assert text.index("Water for the week") < text.index(line)
    assert text.index(line) < text.index("Mix in this order")
    assert "Water for the week" not in " ".join(texts(pdf_bytes(SHEET, "A4")))


def test_lines_break_between_words_and_inside_a_word_that_is_too_long() -> None:
    face = FACES[0]
    text = "one two three " + "w" * 80
    lines = wrap(text, 120, face)
    assert all(width_pt(line, face) <= 120 for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")
    assert wrap("", 120, face) == ("",)
    assert elide("short", 120, face) == "short"
    assert width_pt(elide(text, 120, face), face) <= 120


def test_only_a_fonts_map_is_mended() -> None:
    plain = b"<0001> <0002> <0009>"
    listed = b"begincmap <0001> <0002> [<0041> <0009>] <0009> <0009> <0009> endcmap"
    mended = b"begincmap <0001> <0002> [<0041> <0020>] <0009> <0009> <0020> endcmap"
    assert spaces_as_spaces(plain + listed + plain) == plain + mended + plain


# Files, printers, no screen


def test_write_pdf_replaces_what_was_there(tmp_path: Path) -> None:
    target = tmp_path / "sheet.pdf"
    target.write_bytes(b"old")
    write_pdf(SHEET, target, "A4")
    assert target.read_bytes().startswith(b"%PDF")
    assert [path.name for path in tmp_path.iterdir()] == ["sheet.pdf"]


def test_a_file_that_cannot_be_written_is_one_plain_line(tmp_path: Path) -> None:
    target = tmp_path / "taken"
    target.mkdir()
    with pytest.raises(StoreError, match="cannot be saved as") as caught:
        write_pdf(SHEET, target, "A4")
    assert "Choose another folder or name." in caught.value.line()
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


def test_the_sheet_is_made_without_a_screen(tmp_path: Path) -> None:
    program = (
        "import sys\nfrom pathlib import Path\n"
        "from datetime import UTC, date, datetime\n"
        "from growdesk.services.sheet_values import Sheet, SheetRound\n"
        "from growdesk.services.values import MixPlan\n"
        "from growdesk.ui.printing.sheet_pdf import write_pdf\n"
        "mix = MixPlan((), (), (), (), 0.0, 0.0, None, None)\n"
        "day = date(2026, 3, 11)\n"
        "each = SheetRound(day, None, (), (), (), mix)\n"
        "at = datetime(2026, 3, 11, tzinfo=UTC)\n"
        "sheet = Sheet('Mine', day, at, (each,), ('Short.',), ('Full.',))\n"
        "write_pdf(sheet, Path(sys.argv[1]), 'A4')\n"
        "write_pdf(sheet, Path(sys.argv[1]), 'Letter')\n"
    )
    bare = {
        name: value
        for name, value in os.environ.items()
        if name not in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    }
    target = tmp_path / "sheet.pdf"
    ran = subprocess.run(
        [sys.executable, "-c", program, str(target)],
        env=bare,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (ran.returncode, ran.stdout, ran.stderr) == (0, "", "")
    assert "No feed to mix this round." in texts(target.read_bytes())[0]


def test_the_printer_gets_the_same_pages(tmp_path: Path) -> None:
    printer = _file_printer(tmp_path)
    print_sheet(SHEET, printer)
    printed = read((tmp_path / "printed.pdf").read_bytes())
    assert len(printed.pages) == len(read(pdf_bytes(SHEET, "Letter")).pages)
    assert float(printed.pages[0].mediabox.width) == 612


def test_only_the_pages_asked_for_are_printed(tmp_path: Path) -> None:
    printer = _file_printer(tmp_path)
    printer.setPrintRange(QPrinter.PrintRange.PageRange)
    printer.setFromTo(2, 2)
    print_sheet(SHEET, printer)
    printed = texts((tmp_path / "printed.pdf").read_bytes())
    assert len(printed) == 1
    assert "2 of " in printed[0]


def _file_printer(folder: Path) -> QPrinter:
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(folder / "printed.pdf"))
    printer.setPageSize(QPageSize(QPageSize.PageSizeId.Letter))
    printer.setPageMargins(QMarginsF(20, 20, 20, 20))
    return printer


def test_the_preview_shows_the_sheet(qtbot: QtBot) -> None:
    dialog = SheetPreview(SHEET)
    qtbot.addWidget(dialog)
    dialog.work_wanted.connect(lambda _owner, job: job.done(job.work()))
    dialog.show()
    assert len(dialog.view.pages) == len(read(pdf_bytes(SHEET)).pages)
    assert "week of 9 March 2026" in dialog.windowTitle()
