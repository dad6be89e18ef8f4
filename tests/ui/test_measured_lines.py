"""What a line shows reads back as what was kept; days are read as they are shown."""

from __future__ import annotations

from datetime import date
from gettext import NullTranslations
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtWidgets import QLineEdit
from typing_extensions import override

from growdesk.domain.day_words import figures
from growdesk.domain.errors import InputError
from growdesk.domain.speech import Manner, speak
from growdesk.ui import measured_lines, typed
from growdesk.ui.language import DAY_FORMS

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

MANNERS = (
    Manner(),
    Manner(decimal=","),
    Manner(customary=True),
    Manner(decimal=",", customary=True),
)
QUIET = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None
)
SORTS: dict[
    str,
    tuple[
        Callable[[QLineEdit, float | None], None],
        Callable[[QLineEdit, str], float | None],
        tuple[float, float],
        dict[bool, float],
    ],
] = {
    "temperature": (
        measured_lines.show_temperature,
        measured_lines.temperature_c,
        (-39.0, 59.0),
        {False: 0.005, True: 0.005 * 5 / 9},
    ),
    "length": (
        measured_lines.show_length,
        measured_lines.length_mm,
        (0.0, 4999.0),
        {False: 0.005, True: 0.005 * 25.4},
    ),
    "volume": (
        measured_lines.show_volume,
        measured_lines.volume_l,
        (0.03, 900.0),
        {False: 0.00005, True: 0.005 * 3.785411784},
    ),
}
"""How it is shown and read, from what to what, and half the last digit shown."""


@pytest.fixture(autouse=True)
def _english_after() -> Iterator[None]:
    yield
    speak()


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize("sort", list(SORTS))
@QUIET
@given(part=st.floats(0, 1), manner=st.sampled_from(MANNERS))
def test_shown_and_left_it_is_exactly_what_was_kept_and_typed_anew_nearly(
    sort: str, part: float, manner: Manner
) -> None:
    show, read, (low, high), half = SORTS[sort]
    speak(manner)
    value = low + part * (high - low)
    line = QLineEdit()
    show(line, value)
    assert read(line, sort) == value
    fresh = QLineEdit(line.text())
    typed_anew = read(fresh, sort)
    assert typed_anew is not None
    assert abs(typed_anew - value) <= half[manner.customary] + 1e-9
    again = QLineEdit()
    show(again, typed_anew)
    assert again.text() == line.text()


@pytest.mark.usefixtures("qapp")
def test_a_bare_figure_is_in_the_unit_of_the_field() -> None:
    line = QLineEdit("54")
    assert measured_lines.temperature_c(line, "low_c") == 54
    speak(MANNERS[2])
    assert measured_lines.temperature_c(line, "low_c") == pytest.approx(110 / 9)
    assert measured_lines.length_mm(QLineEdit("1.5"), "spike_mm") == pytest.approx(38.1)
    assert measured_lines.length_mm(QLineEdit("8 cm"), "spike_mm") == 80
    assert measured_lines.temperature_c(QLineEdit("12 °C"), "low_c") == 12


@pytest.mark.parametrize("text", ["1,5", "1.5"])
@pytest.mark.parametrize("manner", MANNERS)
def test_both_decimal_signs_are_read_as_meant(manner: Manner, text: str) -> None:
    speak(manner)
    assert typed.number(text, "hours", "8") == 1.5
    assert typed.volume_l(f"{text} L", "volume_l") == 1.5


@pytest.mark.parametrize("manner", MANNERS)
def test_what_could_be_a_thousand_is_asked_back(manner: Manner) -> None:
    speak(manner)
    for text in ("1,500 mL", "1.500 mL"):
        with pytest.raises(InputError, match="could mean"):
            typed.volume_l(text, "volume_l")


@pytest.mark.parametrize("form", list(DAY_FORMS.values()))
@settings(deadline=None)
@given(day=st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_a_day_reads_as_it_is_shown_and_in_the_iso_form(form: str, day: date) -> None:
    speak(Manner(day_form=form))
    assert typed.day(figures(day), "on") == day
    assert typed.day(day.isoformat(), "on") == day
    assert typed.day(f"{day.day}.{day.month}.{day.year}", "on") == day


def test_an_order_that_nobody_knows_is_asked_back_with_an_example() -> None:
    with pytest.raises(InputError) as asked:
        typed.day("05/03/2026", "on")
    assert "2026-11-25" in asked.value.hint
    speak(Manner(day_form=DAY_FORMS["mdy-slashes"]))
    assert typed.day("05/03/2026", "on") == date(2026, 5, 3)
    with pytest.raises(InputError) as asked:
        typed.day("25/11/2026", "on")
    assert "11/25/2026" in asked.value.hint
    speak(Manner(day_form=DAY_FORMS["dmy-slashes"]))
    assert typed.day("05/03/2026", "on") == date(2026, 3, 5)


@pytest.mark.parametrize("customary", [True, False])
def test_the_units_word_of_the_language_is_read_and_a_bare_figure_beside_it(
    *, customary: bool
) -> None:
    class German(NullTranslations):
        @override
        def gettext(self, message: str) -> str:
            return "Zoll" if message == "inches" else message

    speak(Manner(German(), ",", customary=customary))
    assert typed.length_mm("2 Zoll", "spike_mm") == pytest.approx(50.8)
    assert typed.length_mm("2 in.", "spike_mm") == pytest.approx(50.8)
    bare = typed.length_mm("2", "spike_mm")
    assert bare == pytest.approx(50.8 if customary else 2)
    with pytest.raises(InputError, match="is not a length"):
        typed.length_mm("2 Ellen", "spike_mm")
