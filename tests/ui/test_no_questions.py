"""Nothing is asked that undo answers: no question boxes, no Yes, No or OK."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import TYPE_CHECKING

import growdesk

if TYPE_CHECKING:
    from collections.abc import Iterator

HERE = Path(growdesk.__file__).parent
ASKING = {"question", "warning", "critical", "information", "exec_"}
BUTTONS = {"Yes", "No", "Ok", "YesToAll", "NoToAll", "Discard", "Apply", "Abort"}
WORDS = {"yes", "no", "ok", "okay", "are you sure?"}
TOLD_BEFORE_A_WINDOW = {"ui/start.py"}
"""A collection that cannot be opened, where there is no window to say it in."""
ONE_QUESTION = {"ui/history_forms.py"}
"""Emptying the bin is the one thing that undo does not bring back."""


BUILDERS = {"button", "QPushButton", "addButton", "link"}


def texts(call: ast.Call) -> list[str]:
    """Give the words that a button is made with."""
    return [
        node.value
        for given in call.args[:1]
        for node in ast.walk(given)
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    ]


def sources() -> Iterator[tuple[str, ast.Module]]:
    for path in sorted((HERE / "ui").rglob("*.py")):
        yield path.relative_to(HERE).as_posix(), ast.parse(path.read_text("utf-8"))


def test_no_box_asks_or_warns_over_the_window() -> None:
    found = {
        name
        for name, tree in sources()
        for node in ast.walk(tree)
        if isinstance(node, ast.Name) and node.id in {"QMessageBox", "QErrorMessage"}
    }
    assert found == TOLD_BEFORE_A_WINDOW


def test_no_dialog_runs_a_loop_of_its_own() -> None:
    found = {
        (name, node.lineno)
        for name, tree in sources()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and (
            (
                node.func.attr in ASKING
                and isinstance(node.func.value, ast.Name)
                and node.func.value.id.startswith("Q")
            )
            or (
                node.func.attr == "exec"
                and not (
                    isinstance(node.func.value, ast.Name)
                    and node.func.value.id in {"app", "QApplication"}
                )
            )
        )
    }
    assert {name for name, _line in found} == set()


def test_no_button_says_yes_no_or_ok() -> None:
    standard = {
        (name, node.attr)
        for name, tree in sources()
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute)
        and node.attr in BUTTONS
        and "StandardButton" in ast.unparse(node)
    }
    assert standard == set()
    worded = {
        (name, text)
        for name, tree in sources()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).rpartition(".")[2] in BUILDERS
        for text in texts(node)
        if text.replace("&", "").strip("…").casefold() in WORDS
    }
    assert worded == set()


def test_these_tests_see_what_they_look_for() -> None:
    call = ast.parse('button(tr("&OK"), go)').body[0]
    assert isinstance(call, ast.Expr)
    assert isinstance(call.value, ast.Call)
    assert [text.replace("&", "").casefold() for text in texts(call.value)] == ["ok"]


def test_only_emptying_the_bin_is_asked_about() -> None:
    asking = {
        name
        for name, tree in sources()
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and ast.unparse(node.func).rpartition(".")[2] == "EmptyBinDialog"
    }
    assert asking == ONE_QUESTION
