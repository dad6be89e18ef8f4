"""Many rows go in as few do: the same values, in one statement."""

from __future__ import annotations

from contextlib import closing
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any

from msgspec.structs import asdict
from sqlalchemy import event, select

from growdesk.domain.facts import Medium
from growdesk.services.values import PlaceDraft
from growdesk.store import rows as stored
from growdesk.store.schema import PlaceRow, PlantRow
from growdesk.store.store import Store

if TYPE_CHECKING:
    from pathlib import Path

    import pytest

    from growdesk.store.images import Values


def now() -> datetime:
    return datetime(2026, 5, 20, 12, tzinfo=UTC)


def plants(count: int) -> list[dict[str, Any]]:
    return [
        {
            "tag": f"{number} “ø” '",
            "name": "=1+1\n\t" if number % 2 else "",
            "kind": "cattleya",
            "place_id": 1,
            "bench": number,
            "hybrid": bool(number % 3),
            "pot_volume_l": number / 7 if number % 5 else None,
            "medium": Medium.BARK,
            "acquired_on": date(2020, 1, 1 + number % 28) if number % 2 else None,
        }
        for number in range(count)
    ]


def written(folder: Path, count: int) -> tuple[list[Values], list[str]]:
    said: list[str] = []
    with closing(Store.open(folder, now, create=True)) as store:
        engine = store._engine

        def note(_c: Any, _u: Any, text: str, *_rest: Any) -> None:
            said.append(text.partition("(")[0])

        event.listen(engine, "before_cursor_execute", note)
        with store.writing("many", now) as writing:
            writing.insert(PlaceRow, asdict(PlaceDraft("Sill")))
            writing.insert_many(PlantRow, plants(count))
        with store.reading() as session:
            found = session.execute(select(PlantRow.__table__)).mappings()
            rows = [dict(row) for row in found]
    return rows, [text for text in said if text.startswith("INSERT")]


def test_many_rows_are_written_as_few_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    many, said = written(tmp_path / "many", 60)
    assert len(said) == 4  # place, plants, action, changes
    monkeypatch.setattr(stored, "_MANY", 1_000)
    few, as_said = written(tmp_path / "few", 60)
    assert many == few
    assert said == as_said
    given = plants(60)
    assert [row["acquired_on"] for row in many] == [row["acquired_on"] for row in given]
    assert [row["pot_volume_l"] for row in many] == [
        row["pot_volume_l"] for row in given
    ]
    assert {type(row["hybrid"]) for row in many} == {bool}
