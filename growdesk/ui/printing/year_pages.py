"""A year in review as pages of marks: sentences, two charts, lists, a page of photos.

Knows no painter; the charts are drawn on first use.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Final

from growdesk.domain.speech import tr
from growdesk.services.long_work import quietly
from growdesk.ui import words
from growdesk.ui.charts import year_page
from growdesk.ui.printing import year_words
from growdesk.ui.printing.marks import (
    MM,
    STRONG,
    TEXT,
    TITLE,
    Block,
    Drawing,
    Frame,
    Picture,
    Rule,
    Words,
    gap,
)
from growdesk.ui.printing.mixing import heading
from growdesk.ui.printing.naming import name_lines, set_line
from growdesk.ui.printing.pages import LEFT_PT, TOP_PT, Page, Paper, Placed, paginate
from growdesk.ui.printing.setting import (
    baseline_pt,
    elide,
    line_pt,
    paragraph,
    right,
    stack,
    width_pt,
    wrap,
)
from growdesk.ui.printing.sheet_pdf import pages_pdf, save_pdf

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from pathlib import Path

    from growdesk.services.long_work import Step
    from growdesk.services.year_values import Who, YearPhoto, YearReview
    from growdesk.ui.printing.marks import Mark

PHOTOS_ACROSS: Final = 3
_PHOTO_PT: Final = 48 * MM
_GAP_PT: Final = 5 * MM
_BEST_GROWERS: Final = 12
_TAG_SHARE: Final = 0.16
_NAME_SHARE: Final = 0.45


def write_year(
    review: YearReview, path: Path, paper: str | None = None, step: Step = quietly
) -> None:
    """Save a review as a PDF; ``step`` may stop it before anything is written."""
    laid_out = partial(lay_out_year, review)
    content = pages_pdf(year_words.title(review), laid_out, paper, step)
    save_pdf(content, path, tr("The year in review"))


def lay_out_year(
    review: YearReview, width_pt_: float, height_pt: float
) -> tuple[Page, ...]:
    """Give every page for a paper of this size in points."""
    room = Paper(width_pt_, height_pt, 0.0, gap(0)).room_pt
    head = _head(review, "", room)
    frame = Paper(width_pt_, height_pt, head.height_pt, _foot(review, room))
    bodies = tuple(paginate(tuple(_blocks(review, room)), frame))
    return tuple(
        Page(
            (
                Placed(
                    LEFT_PT,
                    TOP_PT,
                    _head(
                        review,
                        tr("{number} of {count}").format(
                            number=number, count=len(bodies)
                        ),
                        room,
                    ).marks,
                ),
                *body,
                Placed(LEFT_PT, frame.foot_top_pt, frame.foot.marks),
            )
        )
        for number, body in enumerate(bodies, start=1)
    )


def _head(review: YearReview, number: str, room: float) -> Block:
    first = baseline_pt(TITLE)
    y = line_pt(TITLE)
    name = elide(review.collection, room, TEXT)
    marks: tuple[Mark, ...] = (
        Words(0, first, year_words.title(review), TITLE),
        right(number, room, first, STRONG),
        *stack((name,), 0, y, TEXT),
    )
    y += line_pt(TEXT)
    return Block(y + 8, (*marks, Rule(0, y + 3, room, y + 3, 1.6)))


def _foot(review: YearReview, room: float) -> Block:
    made = words.long_day(review.made_at.astimezone().date())
    said = tr("Made on {made}, from what was recorded by then.").format(made=made)
    return Block(
        6 + line_pt(TEXT), (Rule(0, 2, room, 2, 0.8), *stack((said,), 0, 6, TEXT))
    )


def _blocks(review: YearReview, room: float) -> Iterator[Block]:
    yield from _said(year_words.in_short(review), room)
    yield from _blooms(review, room)
    yield from _feeds(review, room)
    yield from _growth(review, room)
    yield from _moves(review, room)
    yield from heading(tr("Repotted"), room)
    yield from paragraph(year_words.repots(review), room)
    yield from heading(tr("With hindsight"), room)
    yield from _said(year_words.hindsight(review), room)
    yield from heading(tr("Photos"), room)
    yield from paragraph(year_words.photos(review), room)
    yield from _photos(review.photos, room)


def _said(sentences: Iterable[str], room: float) -> Iterator[Block]:
    for sentence in sentences:
        yield from paragraph(sentence, room)


def _blooms(review: YearReview, room: float) -> Iterator[Block]:
    yield from heading(tr("In flower"), room)
    if not review.blooms:
        yield from paragraph(tr(year_words.NO_BLOOMS), room)
        return
    yield from _said(year_words.bloom_best(review), room)
    within = (review.begins, review.ends)
    height = year_page.blooms_height_pt(review.blooms)
    svg = year_page.blooms_svg(review.blooms, within, room)
    yield gap(6)
    yield Block(height, (Drawing(0, 0, room, height, svg),))
    if any(bloom.ends is None for bloom in review.blooms):
        yield from paragraph(tr(year_words.OPEN_BARS), room)
    yield gap(6)
    for bloom in review.blooms:
        yield _line(bloom.who, year_words.bloom_line(bloom, review.ends.year), room)


def _feeds(review: YearReview, room: float) -> Iterator[Block]:
    yield from heading(tr("Fed and watered"), room)
    yield from _said(year_words.feeds(review), room)
    if not any(m.fed + m.clear + m.flushed + m.rained for m in review.months):
        return
    height = year_page.ROUNDS_PT
    svg = year_page.rounds_svg(review.months, room)
    yield gap(6)
    yield Block(height, (Drawing(0, 0, room, height, svg),))


def _growth(review: YearReview, room: float) -> Iterator[Block]:
    yield from heading(tr("Growth"), room)
    yield from _said(year_words.growth(review), room)
    yield gap(4)
    for grown in review.grown[:_BEST_GROWERS]:
        yield _line(grown.who, year_words.grown_line(grown), room)
    more = len(review.grown) - _BEST_GROWERS
    if more > 0:
        yield from paragraph(tr("And {more} more.").format(more=more), room)


def _moves(review: YearReview, room: float) -> Iterator[Block]:
    yield from heading(tr("Came and left"), room)
    if not review.came and not review.went:
        yield from paragraph(tr(year_words.NO_MOVES), room)
    for came in review.came:
        yield _line(
            came.who, tr("came {came}").format(came=year_words.came_line(came)), room
        )
    if review.went:
        yield gap(4)
        said = year_words.losses(review)
        yield from paragraph(tr("Of those that left, {said}").format(said=said), room)
    for went in review.went:
        yield _line(went.who, year_words.went_line(went), room)


def _line(who: Who, told: str, room: float) -> Block:
    """Give a plant with its name, and what is told of it in lines beside."""
    tag = elide(who.tag, room * _TAG_SHARE, STRONG)
    left = max(width_pt(tag, STRONG) + 8, 40.0)
    told_left = room * _NAME_SHARE
    named = name_lines(who.name, told_left - left - 8, TEXT, 2)
    lines = wrap(told, room - told_left, TEXT)
    marks: list[Mark] = [*stack((tag,), 0, 0, STRONG)]
    for number, line in enumerate(named):
        base = baseline_pt(TEXT) + number * line_pt(TEXT)
        marks += set_line(line, left, base, TEXT)
    marks += stack(lines, told_left, 0, TEXT)
    return Block(max(len(named), len(lines)) * line_pt(TEXT) + 2, tuple(marks))


def _photos(photos: tuple[YearPhoto, ...], room: float) -> Iterator[Block]:
    wide = (room - (PHOTOS_ACROSS - 1) * _GAP_PT) / PHOTOS_ACROSS
    for at in range(0, len(photos), PHOTOS_ACROSS):
        row = photos[at : at + PHOTOS_ACROSS]
        marks: list[Mark] = []
        for number, photo in enumerate(row):
            marks += _photo(photo, number * (wide + _GAP_PT), wide)
        yield Block(_PHOTO_PT + 2 * line_pt(TEXT) + 10, tuple(marks))


def _photo(photo: YearPhoto, x: float, wide: float) -> Iterator[Mark]:
    """Give a photo with its plant and day below; one that is not readable says so."""
    if photo.file is None:
        yield Frame(x, 0, wide, _PHOTO_PT, 0.5)
        said = elide(tr("cannot be read"), wide, TEXT)
        yield Words(x + 6, _PHOTO_PT / 2, said, TEXT)
    else:
        yield Picture(x, 0, wide, _PHOTO_PT, photo.file)
    base = _PHOTO_PT + baseline_pt(TEXT) + 2
    day = words.short_day(photo.on)
    tag = elide(photo.who.tag, wide - width_pt(day, TEXT) - 6, STRONG)
    yield Words(x, base, tag, STRONG)
    yield right(day, x + wide, base)
    (named,) = name_lines(photo.who.name, wide, TEXT)
    yield from set_line(named, x, base + line_pt(TEXT), TEXT)
