"""The forms of care and of blooms, and who blooms when: driven as a person does."""

from __future__ import annotations

from datetime import date, timedelta
from io import BytesIO
from typing import TYPE_CHECKING

import pytest
from msgspec.structs import replace
from PIL import Image
from PySide6.QtWidgets import QPushButton

from growdesk.domain.bloom_season import YEAR_DAYS, expected
from growdesk.domain.facts import CareKind, Flowering, Look
from growdesk.services.bloom_values import BloomDraft, BloomLine, Flowered, WhoBlooms
from growdesk.services.care_values import CareDraft
from growdesk.ui import theme
from growdesk.ui.charts import bloom_figure, saving
from growdesk.ui.charts.panel import Style
from growdesk.ui.charts.summary import summary, title
from growdesk.ui.dialogs import tabbing
from growdesk.ui.dialogs.bloom import BloomDialog
from growdesk.ui.dialogs.care import CAUTION, CareDialog, CareStart
from growdesk.ui.dialogs.who_blooms import WhoBloomsDialog
from growdesk.ui.widgets.form import choose
from tests.ui.driving import dialog_of, go_to, open_dialogs, press, retype, settle
from tests.ui.test_charts import fresh_figure

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

    from growdesk.services.collection import Collection
    from growdesk.ui.window import Window

ON = date(2026, 5, 20)
STYLE = Style(theme.LIGHT, 9.0)


def open_new(qtbot: QtBot, what: CareKind) -> CareDialog:
    dialog = CareDialog(None, CareStart("A1", CareDraft(ON, what)))
    qtbot.addWidget(dialog)
    dialog.show()
    return dialog


@pytest.mark.parametrize("what", list(CareKind))
def test_each_kind_shows_its_own_fields_and_a_treatment_its_caution(
    qtbot: QtBot, what: CareKind
) -> None:
    dialog = open_new(qtbot, what)
    own = {
        CareKind.FEED: {"strength_ppm_n", "volume_l"},
        CareKind.CLEAR_WATER: {"volume_l"},
        CareKind.FLUSH: {"volume_l"},
        CareKind.RAIN: {"rain_mm"},
        CareKind.REPOT: {"pot_volume_l", "medium"},
        CareKind.TREAT: {"product", "repeat_on"},
        CareKind.MOVE: {"from_place", "to_place"},
        CareKind.DIVIDE: set(),
    }[what]
    seen = {name for name, each in dialog.form.editors.items() if each.isVisible()}
    assert seen == {"what", "on", "note"} | own
    assert dialog._caution.isVisible() is (what is CareKind.TREAT)
    assert dialog._caution.text() == CAUTION
    assert "label" in CAUTION
    assert "gives no dose" in CAUTION.replace("\n", " ")


def test_what_is_hidden_is_kept_in_the_form_and_not_handed_out(qtbot: QtBot) -> None:
    dialog = open_new(qtbot, CareKind.FEED)
    dialog.strength.setText("120")
    dialog.volume.setText("0.5 L")
    assert dialog.draft() == CareDraft(ON, CareKind.FEED, 120.0, 0.5)
    choose(dialog.what, CareKind.RAIN)
    dialog.rain.setText("12 mm")
    assert dialog.draft() == CareDraft(ON, CareKind.RAIN, rain_mm=12.0)
    choose(dialog.what, CareKind.FEED)
    assert dialog.strength.text() == "120"


def test_a_treatment_of_the_plants_picked_names_what_lacks(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    go_to(window, "A1")
    window.day_list.table.selectAll()
    window.commands["treat"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, CareDialog)
    assert dialog.windowTitle() == "Treatment"
    retype(dialog.product, "Soft soap")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible()
    assert "what was done" in dialog.note.accessibleDescription().lower()
    retype(dialog.note, "wiped, scale")
    dialog.try_save()
    settle(qtbot, window)
    assert open_dialogs(window) == []
    for tag in ("A1", "A2", "A3"):
        plant = stocked.plants.find(tag)
        assert plant is not None
        care = stocked.day.detail(plant, ON).care
        assert [(c.what, c.product) for c in care] == [(CareKind.TREAT, "Soft soap")]


def test_care_is_deleted_from_its_form_and_comes_back(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant = stocked.plants.find("A1")
    assert plant is not None
    stocked.care.add([plant], CareDraft(ON, CareKind.FLUSH, note="leached"))
    go_to(window, "A2")
    go_to(window, "A1")
    settle(qtbot, window)
    (view,) = stocked.day.detail(plant, ON).care
    window.care.change(view)
    settle(qtbot, window)
    dialog = dialog_of(window, CareDialog)
    press(dialog, "De&lete")
    settle(qtbot, window)
    assert open_dialogs(window) == []
    assert stocked.day.detail(plant, ON).care == ()
    window.commands["undo"].trigger()
    settle(qtbot, window)
    assert stocked.day.detail(plant, ON).care == (view,)


def test_a_bloom_is_begun_opened_and_closed_by_one_command(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant = stocked.plants.find("A1")
    assert plant is not None
    go_to(window, "A1")
    settle(qtbot, window)
    for field, value in (("spike", "2026-03-01"), ("opened", "12.4.2026")):
        window.commands["bloom"].trigger()
        settle(qtbot, window)
        dialog = dialog_of(window, BloomDialog)
        retype(getattr(dialog, field), value)
        dialog.try_save()
        settle(qtbot, window)
        assert open_dialogs(window) == []
    window.commands["bloom"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, BloomDialog)
    assert dialog.spike.text() == "2026-03-01"
    for line, text in (
        (dialog.faded, "2026-04-01"),
        (dialog.flowers, "14"),
        (dialog.spikes, "2"),
        (dialog.spread, "8.5 cm"),
    ):
        retype(line, text)
    dialog.award.setText("a ribbon at our own show")
    dialog.try_save()
    settle(qtbot, window)
    assert dialog.isVisible(), "it faded before it opened"
    assert "before the first flower opened" in dialog.faded.accessibleDescription()
    retype(dialog.faded, "2026-05-19")
    dialog.try_save()
    settle(qtbot, window)
    (view,) = stocked.blooms.of(plant).blooms
    assert view.draft == BloomDraft(
        date(2026, 3, 1),
        date(2026, 4, 12),
        date(2026, 5, 19),
        14,
        2,
        85.0,
        award="a ribbon at our own show",
    )
    window.commands["bloom"].trigger()
    settle(qtbot, window)
    assert dialog_of(window, BloomDialog).spike.text() == ""
    dialog_of(window, BloomDialog).reject()


def test_a_look_fills_the_form_in_and_says_so(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant = stocked.plants.find("A3")
    assert plant is not None
    stocked.looks.record(plant, Look(ON, flowering=frozenset({Flowering.OPEN})))
    go_to(window, "A3")
    settle(qtbot, window)
    window.commands["bloom"].trigger()
    settle(qtbot, window)
    dialog = dialog_of(window, BloomDialog)
    assert dialog.opened.text() == ON.isoformat()
    assert "Filled in from a look" in dialog._start.filled
    dialog.reject()
    assert stocked.blooms.of(plant).blooms == ()


def test_every_bloom_of_the_tab_is_changed_and_deleted_from_it(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant = stocked.plants.find("A1")
    assert plant is not None
    for year in range(2016, 2026):
        opened = date(year, 3, 10)
        stocked.blooms.add(
            plant, BloomDraft(None, opened, opened + timedelta(days=30), 4)
        )
    go_to(window, "A2")
    go_to(window, "A1")
    window.detail.tabs.setCurrentIndex(2)
    settle(qtbot, window)
    assert window.detail.tabs.tabText(2) == "Blooms (10)"
    press(window.detail.tabs, "2 older blooms")
    changes = [
        each
        for each in window.detail.tabs.findChildren(QPushButton)
        if each.objectName().startswith("change-bloom-")
    ]
    assert len(changes) == 10
    changes[0].click()
    settle(qtbot, window)
    dialog = dialog_of(window, BloomDialog)
    press(dialog, "&Delete")
    settle(qtbot, window)
    assert window.detail.tabs.tabText(2) == "Blooms (9)"


# -- who blooms when ------------------------------------------------------------------


def year_of(first_month: int = 1) -> WhoBlooms:
    winter = [
        Flowered(date(2024, 12, 20), date(2025, 1, 19)),
        Flowered(date(2025, 12, 24), date(2026, 1, 20)),
    ]
    now = Flowered(date(2026, 5, 1), ON, is_on=True)
    return WhoBlooms(
        on=ON,
        first_month=first_month,
        of_kinds=False,
        lines=(
            BloomLine("A1 Cattleya $x_1$", 1, (now,), None),
            BloomLine(
                "A2 Laelia",
                1,
                tuple(winter),
                expected(span.begins for span in winter),
            ),
        ),
        this_month=(("A3 Vanda", (2023, 2025)),),
        now=("A1 Cattleya $x_1$",),
        without=3,
    )


def drawn(chart: WhoBlooms) -> bloom_figure.BloomFigure:
    made = bloom_figure.BloomFigure(fresh_figure(760, 300))
    made.show(chart, STYLE)
    return made


def test_a_flowering_over_the_years_end_goes_on_at_its_beginning() -> None:
    span = Flowered(date(2025, 12, 20), date(2026, 1, 19))
    first, rest = bloom_figure.stretches(span, 1)
    assert first.begins + first.days == pytest.approx(YEAR_DAYS)
    assert rest.begins == 0.0
    assert first.days + rest.days == pytest.approx(31.0)
    (whole,) = bloom_figure.stretches(span, 7)
    assert whole.days == pytest.approx(31.0)
    assert whole.begins == pytest.approx(172, abs=1)
    (day,) = bloom_figure.stretches(Flowered(ON, ON), 1)
    assert day.days == bloom_figure.LEAST_DAYS
    (ever,) = bloom_figure.stretches(Flowered(date(2024, 1, 1), ON), 4)
    assert (ever.begins, ever.days) == (0.0, YEAR_DAYS)


def test_rows_months_and_marks_stand_where_they_belong() -> None:
    made = drawn(year_of())
    axes = made._panel.axes
    assert made.names.said() == ["A1 C. $x_1$", "A2 Laelia"]
    faces = {text.get_text(): text.get_fontstyle() for text in made.names.texts}
    assert faces["A2 "] == "normal"
    assert faces["Laelia"] == "italic"
    months = [text.get_text() for text in axes.get_xticklabels()]
    assert months[:2] == ["Jan", "Feb"]
    assert len(axes.patches) == 1 + 2 * 2
    assert axes.patches[0].get_alpha() == 1.0
    assert axes.patches[1].get_alpha() == bloom_figure.PAST_SHARE
    diamonds = [line for line in axes.lines if line.get_marker() == "D"]
    assert len(diamonds) == 1
    again = year_of(7)
    made.show(again, STYLE)
    assert len(axes.patches) == 1 + 2
    assert axes.get_xticklabels()[0].get_text() == "Jul"


def test_the_words_say_all_that_is_drawn_and_who_flowered_this_month() -> None:
    chart = year_of()
    told = summary(chart)
    assert title(chart) == "Who blooms when, to 20 May 2026"
    assert "In flower now: A1 Cattleya $x_1$." in told
    assert "In flower in May in past years: A3 Vanda (2023 and 2025)." in told
    assert "A1 Cattleya $x_1$: 1 bloom, open since 1 May 2026." in told
    assert "A2 Laelia: 2 blooms, last from 24 Dec 2025 to 20 Jan 2026. Opens" in told
    assert "3 plants have no bloom on record." in told
    row = replace(chart, this_month=(("A3 Vanda", (2021, 2022, 2023, 2024)),))
    assert "past years: A3 Vanda (2021 to 2024)." in summary(row)
    gap = replace(chart, this_month=(("A3 Vanda", (2021, 2022, 2024)),))
    assert "A3 Vanda (2021, 2022 and 2024)." in summary(gap)
    nobody = replace(chart, lines=(), this_month=(), now=())
    assert summary(nobody).startswith("No bloom is on record yet.")
    drawn(nobody)


def test_it_is_saved_as_picture_and_drawing() -> None:
    chart = year_of()
    assert saving.file_name(chart) == "who-blooms-2026-05-20.png"
    with Image.open(BytesIO(saving.picture(chart, STYLE, "png"))) as picture:
        assert picture.width == saving.WIDTH_IN * saving.DOTS_PER_INCH
        assert "A2 Laelia" in str(picture.info["Description"])
    assert b"<svg" in saving.picture(chart, STYLE, "svg")


def test_the_year_begins_with_the_month_chosen_and_keeps_it(
    qtbot: QtBot, window: Window, stocked: Collection
) -> None:
    plant = stocked.plants.find("A1")
    assert plant is not None
    stocked.blooms.add(plant, BloomDraft(first_open_on=date(2025, 3, 12)))
    window.commands["who-blooms"].trigger()
    dialog = dialog_of(window, WhoBloomsDialog)
    qtbot.waitUntil(lambda: dialog.canvas is not None, timeout=20_000)
    below = [dialog.canvas, dialog._words, dialog.save_button, dialog._last]
    assert [each for each in tabbing.chain(dialog) if each in below] == below
    qtbot.waitUntil(lambda: dialog.shown is not None, timeout=30_000)
    first = dialog.shown
    assert isinstance(first, WhoBlooms)
    assert first.first_month == 1
    choose(dialog.begins, 10)
    qtbot.waitUntil(lambda: dialog.shown is not first, timeout=30_000)
    assert isinstance(dialog.shown, WhoBlooms)
    assert dialog.shown.first_month == 10
    dialog.reject()
    settle(qtbot, window)
    window.commands["who-blooms"].trigger()
    again = dialog_of(window, WhoBloomsDialog)
    assert again.begins.currentText() == "October"
    settle(qtbot, window)
    again.reject()
