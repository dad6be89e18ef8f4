"""The rules as the command line prints them: readable, in order, with the numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from msgspec.structs import replace

from growdesk.domain.facts import House
from growdesk.domain.rule_book import book, gate_pages
from growdesk.services.clock import SystemClock
from growdesk.services.collection import Collection

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

KEYS = {"rule", "title", "part", "asks", "why", "silent", "example", "source"}
KEYS |= {"numbers", "above", "below"}


def pages(growdesk: Growdesk, *arguments: object) -> list[dict[str, Any]]:
    answer = growdesk(*arguments, "rules", "--json").json
    assert isinstance(answer, list)
    return answer


def test_all_rules_are_printed_in_the_order_of_the_decision(growdesk: Growdesk) -> None:
    found = pages(growdesk)
    assert [page["rule"] for page in found] == [e.page.rule for e in book(House())]
    assert all(set(page) == KEYS for page in found)
    gates = [page["rule"] for page in found if page["part"] == "gate"]
    assert gates == [page.rule for page in gate_pages()]
    for place, page in enumerate(found[1 : len(gates) + 1]):
        assert page["above"] == gates[:place]
        assert page["below"] == gates[place + 1 :]


def test_the_text_fits_a_terminal_and_numbers_the_gates(growdesk: Growdesk) -> None:
    answer = growdesk("rules")
    lines = answer.out.splitlines()
    assert answer.code == 0
    assert lines[0] == "THE DECISION"
    assert "1. Overruled (overruled)" in lines
    assert f"{len(gate_pages())}. Growing (growing)" in lines
    assert all(len(line) <= 80 for line in lines if "http" not in line)
    assert lines.count("  What it asks") == len(book(House()))


def test_one_rule_says_where_it_stands(growdesk: Growdesk) -> None:
    answer = growdesk("rules", "rot")
    text = " ".join(answer.out.split())
    assert answer.out.startswith("Rot (rot)\n")
    assert "Gives way to: Overruled; Leafless rest; Look out of date." in text
    assert "Comes before: Going down; Still green; Cannot drink;" in text
    assert "Fed lately" in text
    assert answer.out.count("What it asks") == 1


@pytest.mark.parametrize(
    ("named", "rule"),
    [
        ("unfed-rest", "unfed-rest"),
        ("Unfed Rest", "unfed-rest"),
        ("season-window", "daylight"),
        ("idle", "idle-never-resting"),
    ],
)
def test_a_rule_is_found_by_key_title_or_step(
    growdesk: Growdesk, named: str, rule: str
) -> None:
    found: Any = growdesk("rules", named, "--json").json
    assert [page["rule"] for page in found] == [rule]


@pytest.mark.parametrize(
    ("named", "close"),
    [
        ("unfed-rets", "unfed-rest"),
        ("repotted", "just-repotted"),
        ("performence", "performance"),
        ("nothing-like-it", "Leave it out"),
        ("", "Leave it out"),
    ],
)
def test_an_unknown_rule_is_one_line_with_close_ones(
    growdesk: Growdesk, named: str, close: str
) -> None:
    refusal = growdesk("rules", named).refusal
    assert "is not the name of a rule" in refusal
    assert close in refusal


def test_a_collection_puts_its_own_numbers_in(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    folder = tmp_path / "own"
    opened = Collection.open(folder, SystemClock(), create=True)
    opened.settings.save_house(replace(House(), look_limit_days=35))
    opened.close()
    own = {page["rule"]: page for page in pages(growdesk, "--collection", folder)}
    plain = {page["rule"]: page for page in pages(growdesk)}
    assert "35 days" in own["look-out-of-date"]["asks"]
    assert "21 days" in plain["look-out-of-date"]["asks"]
    assert own["look-out-of-date"]["numbers"] == [
        {
            "setting": "look_limit_days",
            "title": "A look holds for",
            "value": "35 days",
        }
    ]


def test_a_collection_that_is_not_there_is_one_line(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    assert (
        "no collection" in growdesk("rules", "--collection", tmp_path / "none").refusal
    )


def test_every_rule_that_decide_names_has_a_page(
    growdesk: Growdesk, facts_file: Path
) -> None:
    answer: Any = growdesk(
        "decide", "--facts", facts_file, "--on", "2026-01-28", "--json"
    ).json
    named = {reason["rule"] for plant in answer for reason in plant["reasons"]}
    assert "strength" in named
    assert named <= {page["rule"] for page in pages(growdesk)}


def test_a_switch_is_told_as_yes_or_no(growdesk: Growdesk) -> None:
    assert "Feed for every spike: no" in growdesk("rules", "growing").out
