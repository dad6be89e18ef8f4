"""Tins in their form: salts, what an analysis says, packs, and what is on hand."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from growdesk.domain.errors import InputError
from growdesk.domain.salt_table import analysis_text_of
from growdesk.services.salts import salt_table
from growdesk.services.values import TinDraft, TinView
from growdesk.ui import tin_words
from growdesk.ui.dialogs.shelf_entry import EntryDialog
from growdesk.ui.dialogs.tin import TinsDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, press, retype, settle

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

DRY = TinDraft(
    "Nitrate of potash",
    "13-0-46 + 13 nitrate-N",
    in_use=False,
    note="keep dry",
    formula="KNO3",
    ec_per_100_ppm_n_ms_per_cm=0.985,
    price=14.5,
    pack_amount=2500.0,
)
LIQUID = TinDraft("Bottle", "7-7-7", 1.25, price=0.0125, pack_amount=500.0)
CONTROL = Qt.KeyboardModifier.ControlModifier


def shown(qtbot: QtBot, *drafts: TinDraft) -> TinsDialog:
    dialog = TinsDialog(None)
    qtbot.addWidget(dialog)
    views = [TinView(number, draft) for number, draft in enumerate(drafts, 1)]
    dialog.show_tins(views, None)
    return dialog


def take(dialog: TinsDialog, formula: str | None) -> None:
    """Choose a salt as a person does."""
    choose(dialog.salt, formula)
    dialog.salt.activated.emit(dialog.salt.currentIndex())


@pytest.mark.parametrize("draft", [DRY, LIQUID], ids=["dry", "liquid"])
def test_a_tin_goes_out_as_it_came_in(qtbot: QtBot, draft: TinDraft) -> None:
    dialog = shown(qtbot, draft)
    assert dialog.draft() == draft
    assert dialog.changes() == {}


def test_a_salt_fills_in_its_analysis_and_what_was_typed_comes_back(
    qtbot: QtBot,
) -> None:
    dialog = shown(qtbot)
    dialog.analysis.setText("1-2-3")
    take(dialog, "MgSO4.7H2O")
    assert dialog.analysis.text() == analysis_text_of("MgSO4.7H2O")
    assert dialog.name.text() == "Magnesium sulphate"
    assert dialog.salt.currentText() == "magnesium sulphate (Epsom salt), MgSO4.7H2O"
    assert not dialog.salt_note.isHidden()
    QTest.keyClick(dialog.analysis, Qt.Key.Key_Z, CONTROL)
    assert dialog.analysis.text() == "1-2-3"
    dialog.name.setText("Mine")
    take(dialog, "KNO3")
    assert (dialog.name.text(), dialog.draft().formula) == ("Mine", "KNO3")
    take(dialog, None)
    assert dialog.draft().formula is None
    assert dialog.analysis.text() == analysis_text_of("KNO3")
    assert dialog.salt_note.isHidden()


def test_the_analysis_is_read_back_while_it_is_typed(qtbot: QtBot) -> None:
    dialog = shown(qtbot)
    assert dialog.read_as.isHidden()
    dialog.analysis.setText(
        "15-5-15 + 5 Ca, nitrate-N 11.8, ammonium-N 1.1, urea-N 2.1"
    )
    # P2O5 holds 43.64 % P, K2O 83.01 % K
    assert dialog.read_as.text() == (
        "As elements: 15 % N, 2.18 % P, 12.45 % K, 5 % Ca. "
        "Of the nitrogen 11.8 % nitrate, 1.1 % ammonium, 2.1 % urea."
    )
    dialog.analysis.setText("15-5")
    assert dialog.read_as.isHidden()
    assert tin_words.read_as(" ", None) == ""


def test_every_salt_of_the_table_is_offered_and_can_be_kept(
    qtbot: QtBot, collection: Collection
) -> None:
    dialog = shown(qtbot)
    for salt in salt_table():
        dialog.start_new()
        dialog.name.setText("")
        take(dialog, salt.formula)
        draft = dialog.draft()
        done = collection.mixing.add_tin(draft)
        assert done.ids
        assert salt.label in dialog.salt_note.text()


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (TinDraft("T", "20-20-20", formula="KNO3"), "formula"),
        (TinDraft("T", "20-20-20", formula="XYZ"), "formula"),
        (TinDraft("T", "20-20-20", price=3.0), "pack_amount"),
        (TinDraft("T", "20-20-20", price=-3.0, pack_amount=5.0), "price"),
        (TinDraft("T", "20-20-20", pack_amount=0.0), "pack_amount"),
        (
            TinDraft("T", "20-20-20", ec_per_100_ppm_n_ms_per_cm=0.0),
            "ec_per_100_ppm_n_ms_per_cm",
        ),
    ],
)
def test_a_tin_that_cannot_be_is_refused_by_its_field(
    collection: Collection, draft: TinDraft, field: str
) -> None:
    with pytest.raises(InputError) as refused:
        collection.mixing.add_tin(draft)
    assert refused.value.field == field
    assert collection.mixing.tins() == ()


def test_a_salt_as_its_label_rounds_it_is_kept(collection: Collection) -> None:
    for formula, label in (
        ("KNO3", "13-0-46"),
        ("5Ca(NO3)2.NH4NO3.10H2O", "15.5-0-0 + 19 Ca"),
        ("MgSO4.7H2O", "0-0-0 + 9.8 Mg + 12.9 S"),
        ("KH2PO4", "0-52-34"),
    ):
        collection.mixing.add_tin(TinDraft(formula, label, formula=formula))
    assert len(collection.mixing.tins()) == 4


def test_only_the_first_tin_is_in_use_unasked(
    qtbot: QtBot, window: Window, collection: Collection
) -> None:
    before = collection.day.view().mix
    window.commands["tins"].trigger()
    settle(qtbot, window)
    settle(qtbot, window)
    dialog = dialog_of(window, TinsDialog)
    assert dialog.in_use.isChecked()
    dialog.start_new()
    assert not dialog.in_use.isChecked()
    take(dialog, "MgSO4.7H2O")
    press(dialog, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    assert len(collection.mixing.tins()) == 2
    assert collection.day.view().mix == before
    first = shown(qtbot)
    assert first.in_use.isChecked()


def test_what_is_on_hand_stands_in_the_form_and_is_counted_there(
    qtbot: QtBot, window: Window
) -> None:
    window.commands["tins"].trigger()
    settle(qtbot, window)
    settle(qtbot, window)
    dialog = dialog_of(window, TinsDialog)
    assert dialog.hand.text() == "Not counted yet."
    press(dialog, "&Count…")
    settle(qtbot, window)
    form = dialog_of(window, EntryDialog)
    retype(form.amount, "420")
    choose(form.moment, value=True)
    press(form, "Save")
    settle(qtbot, window)
    settle(qtbot, window)
    assert dialog.hand.text() == (
        "420 g on hand. Counted today: 420 g, after the round."
    )
    assert dialog.message.text() == "Blue tin: 420 g counted"
    dialog.start_new()
    assert dialog.hand.text() == ""
    assert not dialog.count_button.isEnabled()


def test_spoons_weighed_are_told_in_the_form(qtbot: QtBot) -> None:
    dialog = shown(qtbot, DRY)
    dialog.show_told({1: ("9 g on hand.", "A level teaspoon holds 4.1 g of it.")})
    assert dialog.hand.text().endswith("A level teaspoon holds 4.1 g of it.")
