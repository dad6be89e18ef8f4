"""The shelf in its dialog: rows, counts, entries, prices, and the chart of use."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from growdesk.domain.errors import InputError
from growdesk.domain.stocktaking import Good, OnHand, Sort, What
from growdesk.services.chart_values import ProductUsed, UsedChart
from growdesk.services.stocktaking_values import EntryDraft
from growdesk.ui import stocktaking_texts, theme, typed
from growdesk.ui.charts import saving, used_figure
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.dialogs.feed_used import FeedUsedDialog
from growdesk.ui.dialogs.shelf import EMPTY, ShelfDialog
from growdesk.ui.dialogs.shelf_entries import NOTHING, EntriesDialog
from growdesk.ui.dialogs.shelf_entry import EntryDialog, EntryStart
from tests.ui.driving import dialog_of, press, retype, settle
from tests.ui.shelf_values import (
    BARREL,
    ON,
    TIN,
    counted,
    entry_start,
    entry_views,
    shelf_view,
)
from tests.ui.test_charts import fresh_figure

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

MONTHS = tuple(date(2025, month, 1) for month in range(6, 13)) + tuple(
    date(2026, month, 1) for month in range(1, 6)
)


def product(name: str, grams: float, *, n: float = 0.2) -> ProductUsed:
    amounts = (*[0.0] * 10, grams, 2 * grams)
    nitrogen = tuple(each * n for each in amounts)
    held = (("N", nitrogen),) if n else ()
    return ProductUsed(name, "g", amounts, held)


def used(*products: ProductUsed) -> UsedChart:
    return UsedChart(ON, MONTHS, products)


# -- texts ----------------------------------------------------------------------------


def test_rows_say_what_is_there_and_what_is_not_known() -> None:
    tin, bottle, barrel = shelf_view().rows
    assert stocktaking_texts.row_texts(tin) == (
        *("Green tin", "9 g", "14 g", "24 May 2026", "14 g, short", "0.17", "9.10"),
    )
    assert stocktaking_texts.row_texts(bottle) == (
        *("Epsom bottle", "not counted", "none", "", "", "", ""),
    )
    assert stocktaking_texts.row_texts(barrel) == (
        *("Rain barrel", "120 L of 200 L", "300 mL", "over two years", "8.9 L", "", ""),
    )
    assert tin.hand is not None
    over = replace(tin, hand=OnHand(-3.0, tin.hand.since), days_left=0)
    assert stocktaking_texts.row_texts(over)[1:4] == ("count it again", "14 g", "")
    empty = replace(tin, hand=OnHand(0.0, tin.hand.since), days_left=0)
    assert stocktaking_texts.row_texts(empty)[3] == "used up"
    assert stocktaking_texts.row_texts(replace(tin, days_left=0))[3] == "today"
    assert stocktaking_texts.told(tin).startswith("In use. Counted today: 9 g")


def test_costs_are_said_with_the_grower_s_own_word() -> None:
    view = shelf_view()
    assert stocktaking_texts.costs(view) == (
        "The next round costs 0.17 EUR, a year 9.10 EUR. "
        "Without a price, and not in it: Epsom bottle."
    )
    plain = replace(view, currency="", unpriced=())
    assert stocktaking_texts.costs(plain) == "The next round costs 0.17, a year 9.10."
    none = replace(view, cost_round=None, cost_year=None)
    assert "stands here once a tin has its price" in stocktaking_texts.costs(none)
    assert stocktaking_texts.money(0.004, "EUR") == "under 0.01 EUR"
    assert stocktaking_texts.price_text(14.5) == "14.50"
    assert stocktaking_texts.price_text(0.0125) == "0.0125"
    assert stocktaking_texts.money(None, "EUR") == ""


@pytest.mark.parametrize(
    ("text", "unit", "amount"),
    [
        ("420", "g", 420.0),
        ("0,42 kg", "g", 420.0),
        ("0", "g", 0.0),
        ("0 g", "g", 0.0),
        ("0.0", "L", 0.0),
        ("250", "mL", 250.0),
        ("0.25 L", "mL", 250.0),
        ("120", "L", 120.0),
        ("500 mL", "L", 0.5),
    ],
)
def test_an_amount_is_typed_in_any_unit_of_its_sort(
    text: str, unit: str, amount: float
) -> None:
    assert typed.amount(text, unit, "amount") == pytest.approx(amount)


@pytest.mark.parametrize(
    ("text", "unit"),
    [("", "g"), ("12 mL", "g"), ("12 g", "L"), ("-3", "g"), ("x", "g")],
)
def test_an_amount_that_is_none_is_refused(text: str, unit: str) -> None:
    with pytest.raises(InputError) as refused:
        typed.amount(text, unit, "amount")
    assert refused.value.field == "amount"


# -- dialogs --------------------------------------------------------------------------


def test_an_empty_shelf_offers_no_count(qtbot: QtBot) -> None:
    dialog = ShelfDialog(None)
    qtbot.addWidget(dialog)
    dialog.show_view(replace(shelf_view(), rows=(), short=()))
    assert dialog.heading.text() == EMPTY
    assert not dialog.count_button.isEnabled()
    assert not dialog.entries_button.isEnabled()


def test_the_shelf_hands_out_what_is_wanted_of_the_row(qtbot: QtBot) -> None:
    dialog = ShelfDialog(None)
    qtbot.addWidget(dialog)
    dialog.show_view(shelf_view())
    assert not dialog.short.isHidden()
    dialog.choose(BARREL)
    assert dialog.detail.text().endswith("Lasts more than two years.")
    with qtbot.waitSignal(dialog.entry_wanted) as entry:
        dialog.add_button.click()
    row, what = entry.args
    assert (row.good, what) == (BARREL, What.ADDED)
    with qtbot.waitSignal(dialog.entries_wanted) as entries:
        dialog.entries_button.click()
    assert entries.args[0].name == "Rain barrel"
    with qtbot.waitSignal(dialog.currency_given) as given:
        dialog.currency.setText("CHF")
        dialog.currency.editingFinished.emit()
    assert given.args == ["CHF"]
    with qtbot.assertNotEmitted(dialog.currency_given):
        dialog.currency.setText("EUR")
        dialog.currency.editingFinished.emit()


def test_an_entry_goes_out_as_it_came_in(qtbot: QtBot) -> None:
    for view in entry_views():
        start = EntryStart(TIN, "Green tin", "g", view.draft.what, ON, view.draft)
        dialog = EntryDialog(None, start)
        qtbot.addWidget(dialog)
        assert dialog.draft() == view.draft
        assert dialog.changes() == {}


@pytest.mark.parametrize("unit", ["g", "mL", "L"])
def test_an_amount_that_was_typed_in_gallons_is_kept_to_the_letter(
    qtbot: QtBot, unit: str
) -> None:
    kept = EntryDraft(BARREL, ON, What.COUNTED, 1.25 * 3.785411784, False)
    dialog = EntryDialog(None, EntryStart(BARREL, "Rain", unit, kept.what, ON, kept))
    qtbot.addWidget(dialog)
    dialog.note.setText("seen through the lid")
    assert dialog.draft() == replace(kept, note="seen through the lid")
    dialog.amount.setText(f"4.5 {unit}")
    assert dialog.draft().amount == pytest.approx(4.5)


def test_a_count_asks_for_its_moment_and_a_delivery_for_its_price(qtbot: QtBot) -> None:
    count, added = (EntryDialog(None, entry_start(what)) for what in What)
    for dialog in (count, added):
        qtbot.addWidget(dialog)
        dialog.amount.setText("1.5 kg")
    assert (count.moment.isHidden(), count.price.isHidden()) == (False, True)
    assert (added.moment.isHidden(), added.price.isHidden()) == (True, False)
    added.price.setText("14,50")
    assert count.draft() == EntryDraft(TIN, ON, What.COUNTED, 1500.0, False)
    assert added.draft() == EntryDraft(TIN, ON, What.ADDED, 1500.0, False, 14.5)


def test_entries_are_listed_and_asked_for(qtbot: QtBot) -> None:
    dialog = EntriesDialog(None, "Green tin", "g")
    qtbot.addWidget(dialog)
    dialog.show_entries(())
    assert dialog.note.text() == NOTHING
    assert not dialog.change_button.isEnabled()
    dialog.show_entries(entry_views())
    items = [[dialog.table.item(row, column) for column in range(5)] for row in (0, 1)]
    texts = [[item.text() for item in row if item is not None] for row in items]
    assert texts == [
        ["20 May 2026", "counted, after the round", "420 g", "", counted().note],
        ["1 May 2026", "came in", "1 kg", "14.50", ""],
    ]
    dialog.table.setCurrentCell(1, 0)
    with qtbot.waitSignal(dialog.remove_wanted) as gone:
        dialog.remove_button.click()
    assert gone.args == [3]


# -- in the window --------------------------------------------------------------------


def on_hand(shelf: ShelfDialog) -> str:
    item = shelf.table.item(0, 1)
    return "" if item is None else item.text()


def open_shelf(qtbot: QtBot, window: Window) -> ShelfDialog:
    window.commands["on-shelf"].trigger()
    settle(qtbot, window)
    return dialog_of(window, ShelfDialog)


def test_counting_in_the_window_and_what_runs_short(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    shelf = open_shelf(qtbot, window)
    assert on_hand(shelf) == "not counted"
    press(shelf, "&Count…")
    settle(qtbot, window)
    form = dialog_of(window, EntryDialog)
    retype(form.amount, "12 mL")
    QTest.keyClick(form.amount, Qt.Key.Key_Return)
    assert form.isVisible()
    assert form.amount.accessibleDescription()
    retype(form.amount, "0.01")
    QTest.keyClick(form.amount, Qt.Key.Key_Return)
    settle(qtbot, window)
    settle(qtbot, window)
    assert not shelf.findChildren(EntryDialog)
    assert on_hand(shelf) == "0.01 g"
    assert "Blue tin runs short: " in shelf.short.text()
    texts = [each.text() for each in window.mixing.findChildren(QLabel)]
    assert any(text.startswith("Blue tin runs short: ") for text in texts)
    (entry,) = collection.stocktaking.entries(Good(Sort.TIN, 1))
    assert (entry.draft.amount, entry.draft.after_round) == (0.01, False)
    press(shelf, "&Entries…")
    settle(qtbot, window)
    entries = dialog_of(window, EntriesDialog)
    press(entries, "Change…")
    again = dialog_of(window, EntryDialog)
    retype(again.amount, "800 g")
    press(again, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    amount = entries.table.item(0, 2)
    assert amount is not None
    assert amount.text() == "800 g"
    assert not shelf.short.isVisible()
    press(entries, "Remove")
    settle(qtbot, window)
    settle(qtbot, window)
    assert entries.table.rowCount() == 0
    assert entries.message.text().startswith("Count of ")
    assert on_hand(shelf) == "not counted"


def test_a_count_after_the_ticks_is_offered_as_after_the_round(
    qtbot: QtBot, window: Window, collection: Collection, today: date
) -> None:
    ids = [line.plant_id for line in window.day_list.model.lines]
    collection.day.tick(ids[:1], today)
    shelf = open_shelf(qtbot, window)
    press(shelf, "&Count…")
    settle(qtbot, window)
    form = dialog_of(window, EntryDialog)
    assert form.moment.currentData() is True
    assert form.changes() == {}


def test_the_word_for_prices_is_kept(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    shelf = open_shelf(qtbot, window)
    retype(shelf.currency, "CHF")
    shelf.table.setFocus()
    settle(qtbot, window)
    settle(qtbot, window)
    assert collection.stocktaking.currency() == "CHF"
    assert shelf.view is not None
    assert shelf.view.currency == "CHF"


def test_the_feed_used_opens_from_the_shelf(qtbot: QtBot, window: Window) -> None:
    shelf = open_shelf(qtbot, window)
    press(shelf, "Feed &used by month…")
    dialog = dialog_of(window, FeedUsedDialog)
    qtbot.waitUntil(
        lambda: dialog.sentence.text().startswith("No feed is on record"),
        timeout=20_000,
    )
    assert dialog.windowTitle() == "Feed used, June 2025 to May 2026"
    assert dialog.shown is None
    assert not dialog.save_button.isEnabled(), "an empty chart is not saved"
    dialog.accept()


# -- the chart ------------------------------------------------------------------------


def test_bars_stand_on_one_another_and_add_up() -> None:
    from matplotlib.patches import Rectangle

    chart = used(product("Green tin", 10.0), product("Salt", 4.0, n=0.13))
    figure = fresh_figure(760, 400)
    made = used_figure.UsedFigure(figure)
    made.show(chart, Style(theme.LIGHT, 9.0))
    (axes,) = figure.axes
    tops = [0.0] * 12
    for bar in axes.patches:
        assert isinstance(bar, Rectangle)
        place = round(bar.get_x() + bar.get_width() / 2)
        assert bar.get_y() == pytest.approx(tops[place])
        tops[place] = bar.get_y() + bar.get_height()
    assert tops == pytest.approx(chart.nitrogen_g)
    assert tops[-1] == pytest.approx(2 * (10 * 0.2 + 4 * 0.13))
    legend = axes.get_legend()
    assert legend is not None
    assert [text.get_text() for text in legend.get_texts()] == ["Green tin", "Salt"]
    hatches = {bar.get_hatch() for bar in axes.patches}
    assert len(hatches) == 2
    made.show(used(product("Green tin", 10.0)), Style(theme.DARK, 9.0))
    assert len(axes.patches) == 12


def test_more_products_than_layers_share_the_last() -> None:
    many = [product(f"Tin {n}", 10.0 - n) for n in range(7)]
    found = used_figure.layers(used(*many, product("Epsom", 50.0, n=0.0)))
    assert [name for name, _ in found] == ["Tin 0", "Tin 1", "Tin 2", "Tin 3", "others"]
    assert found[-1][1][-1] == pytest.approx(2 * 0.2 * (6 + 5 + 4))


def test_the_chart_in_words_and_as_a_file() -> None:
    chart = used(product("Green tin", 10.0), product("Epsom", 3.0, n=0.0))
    assert title(chart) == "Feed used, June 2025 to May 2026"
    assert summary(chart) == (
        "In all 6.0 g of nitrogen, the most in May 2026: 4.0 g.\n"
        "Nitrogen by month: April 2026 2.0 g, May 2026 4.0 g.\n"
        "Green tin: 30 g, in it 6.0 g N.\n"
        "Epsom: 9 g."
    )
    assert summary(used()).startswith("No feed is on record")
    assert saving.file_name(chart) == "feed-used-2026-05-20.png"
    assert saving.picture(chart, Style(theme.LIGHT, 9.0), "png").startswith(b"\x89PNG")
