"""Declare the keys that hold in one part of a window, beside the commands' own.

``actions`` has what menus offer; here stands what lists, forms and pictures do with a
key of their own. A test holds every module that reads keys to be named here.
"""

from __future__ import annotations

from msgspec import Struct

from growdesk.domain.speech import mark


class Held(Struct, frozen=True):
    """Keys that hold in one part: its title, the keys with what they do, where read."""

    title: str
    rows: tuple[tuple[str, str], ...]
    modules: tuple[str, ...]


HELD: tuple[Held, ...] = (
    Held(
        mark("In lists and tables"),
        (
            (mark("a letter"), mark("begins a find")),
            (mark("Shift+↑ ↓"), mark("selects several")),
            ("Ctrl+A", mark("selects all")),
            (mark("Enter"), mark("opens what the cursor is on")),
            (mark("Tab"), mark("to the next part; Shift+Tab goes back")),
        ),
        ("widgets/week_table.py", "widgets/roster_table.py", "widgets/text_link.py"),
    ),
    Held(
        mark("While finding"),
        (
            (mark("Enter or ↓"), mark("goes to what was found")),
            (mark("Esc"), mark("clears the find and goes back")),
        ),
        ("widgets/find_line.py",),
    ),
    Held(
        mark("Looks worth taking"),
        (
            (mark("↑ ↓"), mark("goes from plant to plant")),
            (mark("Enter"), mark("records a look")),
            (mark("Esc"), mark("folds them away")),
        ),
        ("widgets/looks_first.py",),
    ),
    Held(
        mark("In a look"),
        (
            (mark("Alt+letter"), mark("goes to a row")),
            (mark("a letter"), mark("chooses what begins with it")),
            (mark("← →"), mark("goes from choice to choice")),
            (mark("Space"), mark("takes a choice, or lets it go")),
            (mark("0 to 30"), mark("counts new growths")),
            ("Ctrl+V", mark("pastes photos")),
            (mark("Del"), mark("leaves a photo out")),
        ),
        ("widgets/choices.py", "widgets/photo_box.py", "widgets/look_form.py"),
    ),
    Held(
        mark("On a walk"),
        (
            (mark("Ctrl+Enter"), mark("saves and goes on")),
            ("F6", mark("seen, unchanged")),
            (mark("PgDown"), mark("skips the plant")),
            (mark("PgUp"), mark("goes back")),
        ),
        ("dialogs/walk.py",),
    ),
    Held(
        mark("In every form"),
        (
            (mark("Enter"), mark("presses the button in focus, else saves")),
            (mark("Ctrl+Enter"), mark("saves from anywhere")),
            (mark("Esc"), mark("leaves; what was typed is kept")),
            ("F1", mark("opens the handbook at its page")),
        ),
        (
            "dialogs/frame.py",
            "dialogs/on_screen.py",
            "dialogs/hindsight.py",
            "dialogs/kinds.py",
            "dialogs/place.py",
        ),
    ),
    Held(
        mark("In the handbook"),
        (
            (mark("Alt+← →"), mark("goes back and forward")),
            ("Ctrl+F", mark("finds in all pages; Enter goes on")),
        ),
        ("dialogs/handbook.py",),
    ),
    Held(
        mark("While long work goes on"),
        (("Esc", mark("cancels it, from its line")),),
        ("widgets/long_panel.py",),
    ),
    Held(
        mark("In the calendar"),
        (
            (mark("Space"), mark("ticks a job as done")),
            (mark("Del"), mark("lets it go")),
            (mark("Enter"), mark("goes to the plant")),
        ),
        ("widgets/calendar_list.py",),
    ),
    Held(
        mark("In the timeline"),
        (
            (mark("Enter"), mark("changes what is written there")),
            (mark("Space"), mark("opens its photo")),
        ),
        ("widgets/timeline.py",),
    ),
    Held(
        mark("In a photo"),
        (
            (mark("← →"), mark("goes from photo to photo")),
            ("+  −  0  1", mark("larger, smaller, whole, its own size")),
            (mark("arrows"), mark("moves a large one; Shift moves finely")),
            (mark("Space"), mark("sets a mark where one is asked for")),
        ),
        ("dialogs/photo.py", "widgets/picture.py"),
    ),
    Held(
        mark("In a preview of pages"),
        (
            (mark("PgUp PgDown"), mark("goes from page to page")),
            (mark("Home End"), mark("goes to the first page, to the last")),
            ("+  −  0  1", mark("larger, smaller, the whole page, its whole width")),
        ),
        ("printing/page_view.py",),
    ),
    Held(
        mark("In orders and readings"),
        (
            (mark("Alt+↑ ↓"), mark("moves a bench, a column up or down")),
            (mark("Del"), mark("removes the readings selected")),
        ),
        ("widgets/order_list.py", "widgets/reading_table.py", "dialogs/columns.py"),
    ),
)
