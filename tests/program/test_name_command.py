"""``growdesk name``: a name's parts, what is doubtful, how it sorts."""

from typing import Any

from tests.program.conftest import Growdesk


def test_a_name_is_told_by_its_parts(growdesk: Growdesk) -> None:
    out = growdesk("name", "Van. Prapawan 'Tanzanite' AM/AOS").out
    assert out.splitlines() == [
        "Van. Prapawan ‘Tanzanite’ AM/AOS",
        "  made genus  Vandachostylis",
        "  grex        Prapawan",
        "  clone       ‘Tanzanite’",
        "  award       AM/AOS",
    ]


def test_a_doubt_is_said_with_its_ways_out(growdesk: Growdesk) -> None:
    lines = growdesk("name", "phal. amabilis").out.splitlines()
    assert lines[0] == "phal. amabilis"
    assert lines[-2].startswith("“phal.” is written Phal., with one capital.")
    assert lines[-1] == "  it may be: Phal. amabilis"


def test_json_has_parts_runs_doubts_and_sort_key(growdesk: Growdesk) -> None:
    read: Any = growdesk("name", "Phal. (Foo × amabilis) #3", "--json").json
    assert set(read) == {"typed", "shown", "runs", "parts", "doubts", "sort_key"}
    assert read["parts"]["genus"] == "Phalaenopsis"
    assert read["parts"]["pod"]["grex"] == "Foo"
    assert read["parts"]["pollen"]["species"] == "amabilis"
    assert read["parts"]["notes"] == ["#3"]
    assert read["runs"][0] == {"text": "Phal.", "italic": True}
    assert read["doubts"] == []
    assert read["sort_key"][:2] == [0, "phalaenopsis"]
    doubtful: Any = growdesk("name", "V. coerulea", "--json").json
    assert doubtful["doubts"][0]["doubt"] == "unsure-genus"
    assert doubtful["doubts"][0]["keeps_it_plain"] is True
    assert doubtful["shown"] == doubtful["typed"] == "V. coerulea"


def test_an_empty_name_is_refused(growdesk: Growdesk) -> None:
    ended = growdesk("name", "  ")
    assert ended.code == 2
    assert ended.err.startswith("name: ' ' is empty. Write it as on the label")
