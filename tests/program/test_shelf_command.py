"""``growdesk shelf``: what is on hand, in words and as JSON."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a demo collection of a day that is past."""
    folder = tmp_path_factory.mktemp("shelf") / "collection"
    lay_demo(folder, date(2026, 3, 28))
    return folder


def test_the_shelf_as_json_has_its_keys(growdesk: Growdesk, laid: Path) -> None:
    told: Any = growdesk("--collection", laid, "shelf", "--json").json
    assert set(told) == {
        *("on", "next_round", "currency", "cost_round", "cost_year", "short", "goods"),
    }
    assert told["currency"] == "EUR"
    sorts = {good["sort"] for good in told["goods"]}
    assert sorts == {"tin", "stock", "water"}
    for good in told["goods"]:
        assert set(good) == {
            *("sort", "name", "unit", "in_use", "on_hand", "overdrawn", "known_since"),
            *("used_a_week", "rate_by", "lasts_until", "needed_next", "short"),
            *("cost_round", "cost_year"),
        }
        assert good["unit"] == ("L" if good["sort"] == "water" else good["unit"])
        assert (good["on_hand"] is None) == (good["known_since"] is None)
    assert sum(good["in_use"] for good in told["goods"]) >= 1


def test_the_shelf_in_words_names_every_good(growdesk: Growdesk, laid: Path) -> None:
    told: Any = growdesk("--collection", laid, "shelf", "--json").json
    said = growdesk("shelf", "--collection", laid)
    assert said.code == 0
    lines = said.out.splitlines()
    assert lines[0].startswith("On the shelf on ")
    for good, line in zip(told["goods"], lines[1:], strict=False):
        assert line.startswith(f"  {good['name']}")
        assert ("not counted" in line) == (good["on_hand"] is None)
    assert f"A year costs {told['cost_year']:.2f} EUR." in lines


def test_an_empty_shelf_is_said(growdesk: Growdesk, tmp_path: Path) -> None:
    plants = tmp_path / "plants.csv"
    plants.write_text("tag,name,kind\nA1,Cattleya,cattleya\n")
    growdesk("--collection", tmp_path / "c", "import", plants)
    said = growdesk("--collection", tmp_path / "c", "shelf")
    assert said.out.splitlines()[1] == "Nothing stands there yet."
    assert growdesk("--collection", tmp_path / "none", "shelf").refusal


def test_the_export_has_the_shelf_by_name(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert growdesk("--collection", laid, "export", out).code == 0

    def lines(name: str) -> list[str]:
        return (out / name).read_text(encoding="utf-8-sig").splitlines()

    assert lines("drawn.csv")[0] == "tag,on,care,tin,stock,water,amount"
    assert len(lines("drawn.csv")) > 100
    assert lines("recipe_parts.csv")[0] == "recipe,tin,share"
    assert lines("spoon_weights.csv")[0] == "tool,tin,g_per_level"
    assert any("Rain barrel" in line for line in lines("shelf_entries.csv"))
    assert len(lines("meter.csv")) > 1


def test_the_demo_is_sound(growdesk: Growdesk, laid: Path) -> None:
    assert growdesk("--collection", laid, "check").code == 0
