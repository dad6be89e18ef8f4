"""The commands that work on a collection, run on the demo's."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest
from pypdf import PdfReader

from growdesk.domain.facts import Verdict
from growdesk.services.demo import lay_demo

if TYPE_CHECKING:
    from pathlib import Path

    from tests.program.conftest import Growdesk

ON = "2026-03-28"


@pytest.fixture(scope="module")
def laid(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Give a demo collection that no test changes."""
    folder = tmp_path_factory.mktemp("demo") / "collection"
    lay_demo(folder, date.fromisoformat(ON))
    return folder


def test_the_collection_is_named_before_or_after_the_command(
    growdesk: Growdesk, laid: Path
) -> None:
    before = growdesk("--collection", laid, "decide", "--on", ON, "--json").json
    after = growdesk("decide", "--on", ON, "--json", "--collection", laid).json
    assert before == after
    assert isinstance(before, list)
    assert len(before) >= 30


def test_decide_on_the_collection_has_the_fixed_keys(
    growdesk: Growdesk, laid: Path
) -> None:
    plants: Any = growdesk("--collection", laid, "decide", "--on", ON, "--json").json
    for plant in plants:
        assert set(plant) >= {
            "tag",
            "name",
            "verdict",
            "water",
            "strength_ppm_n",
            "volume_l",
            "reasons",
            "would_change",
        }
        assert (plant["strength_ppm_n"] is not None) == (plant["verdict"] == "feed")
        assert plant["reasons"][0]["role"] == "decides"


@pytest.mark.parametrize("on", ["2026-03-28", "2026-08-05"])
def test_the_demo_shows_every_verdict_on_any_day(growdesk: Growdesk, on: str) -> None:
    plants: Any = growdesk("--demo", "decide", "--on", on, "--json").json
    assert {plant["verdict"] for plant in plants} == set(Verdict)


def test_the_demo_leaves_nothing_behind(
    growdesk: Growdesk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    assert growdesk("check", "--demo").code == 0
    assert list(tmp_path.iterdir()) == []


def test_one_plant_is_told_alone(growdesk: Growdesk, laid: Path) -> None:
    told = growdesk("decide", "--on", ON, "--tag", "A1", "--collection", laid)
    assert told.code == 0
    assert "A1" in told.out
    assert "A2" not in told.out
    unknown = growdesk("decide", "--tag", "nothing", "--collection", laid)
    assert "nothing" in unknown.refusal


def test_the_plants_to_look_at_first_are_told_with_their_why(
    growdesk: Growdesk, laid: Path
) -> None:
    told: Any = growdesk("looks", "--on", ON, "--json", "--collection", laid).json
    assert 0 < len(told) <= 10
    keys = ["tag", "name", "place", "likelihood", "verdict", "would_turn_to", "why"]
    assert all(list(plant) == keys for plant in told)
    likelihoods = [plant["likelihood"] for plant in told]
    assert likelihoods == sorted(likelihoods, reverse=True)
    assert all(0 < likelihood <= 1 for likelihood in likelihoods)
    plants: Any = growdesk("decide", "--on", ON, "--json", "--collection", laid).json
    verdicts = {plant["tag"]: plant["verdict"] for plant in plants}
    assert all(verdicts[plant["tag"]] == plant["verdict"] for plant in told)
    two = growdesk("looks", "--on", ON, "--count", "2", "--collection", laid)
    assert two.code == 0
    for number, plant in enumerate(told[:2], start=1):
        assert f"{number}. {plant['tag']}  {plant['name']}" in two.out
        assert plant["why"] in two.out
    assert told[2]["why"] not in two.out


@pytest.mark.parametrize("count", ["0", "-1", "ten", "1.5", "9" * 5000, "10001", ""])
def test_a_count_of_plants_that_is_none_is_a_slip(
    growdesk: Growdesk, laid: Path, count: str
) -> None:
    told = growdesk("looks", f"--count={count}", "--collection", laid)
    assert "--count" in told.refusal
    assert "from 1 to 10000" in told.refusal


def test_plan_for_the_collection_has_the_same_keys(
    growdesk: Growdesk, laid: Path
) -> None:
    plan: Any = growdesk("plan", "--on", ON, "--json", "--collection", laid).json
    plants: Any = growdesk("decide", "--on", ON, "--json", "--collection", laid).json
    fed = {plant["tag"] for plant in plants if plant["verdict"] == "feed"}
    in_jugs = [tag for batch in plan["batches"] for tag in batch["tags"]]
    assert sorted(in_jugs) == sorted(fed)
    for batch in plan["batches"]:
        assert set(batch) >= {"letter", "strength_ppm_n", "volume_l", "tags"}
    assert all(set(step) == {"sentence"} for step in plan["ladder"])
    assert "outside_band" in plan
    told = growdesk("plan", "--on", ON, "--collection", laid)
    assert "Clear water:" in told.out
    assert plan["ladder_why"] in told.out
    (rain,) = plan["waters"]
    assert rain["kind"] == "rain"
    assert rain["clear_l"] == pytest.approx(plan["clear_l"])
    jugs_l = sum(batch["volume_l"] + batch["spare_l"] for batch in plan["batches"])
    assert rain["jugs_l"] == pytest.approx(jugs_l, abs=0.002)
    assert "of rain water ready. It is " in told.out


def test_plan_for_the_collection_doses_each_mix(growdesk: Growdesk, laid: Path) -> None:
    plan: Any = growdesk("plan", "--on", ON, "--json", "--collection", laid).json
    assert {batch["recipe"] for batch in plan["batches"]} <= {
        "Green tin and Epsom salt",
        "Calcium feed",
    }
    for batch in plan["batches"]:
        mixed = batch["volume_l"] + batch["spare_l"]
        fills = batch["fills"]
        assert sum(f["how_many"] * f["volume_l"] for f in fills) == pytest.approx(mixed)
        assert all(each["vessel"] in {"White jug", "Small jug"} for each in fills)
        for number, dose in enumerate(batch["doses"]):
            parts = [f["how_many"] * f["doses"][number]["grams"] for f in fills]
            assert sum(parts) == pytest.approx(dose["grams"])
        assert batch["mixing"]
        alone = batch["doses"][0]["grams"] if len(batch["doses"]) == 1 else None
        assert batch["grams"] == alone
        told = growdesk("plan", "--on", ON, "--collection", laid).out
        assert told.count(f"Into jug {batch['letter']}, for ") == len(fills)
        assert batch["gives_ppm_n"] > 0
        low, high = batch["ec_range_ms_per_cm"]
        read = f"Jug {batch['letter']} should read {low:.2f} to {high:.2f} mS/cm"
        assert read in told
        assert all(f"Jug {batch['letter']}: {w}" in told for w in batch["warnings"])
    if len(plan["batches"]) > 1:
        told = growdesk("plan", "--on", ON, "--collection", laid).out
        apart = "instead of the steps" if plan["ladder_first"] else "instead of the do"
        into, steps = (
            told.index("Into jug A"),
            told.index(plan["ladder"][0]["sentence"]),
        )
        first, other = (steps, into) if plan["ladder_first"] else (into, steps)
        assert first < told.index(apart) < other
    doses = [dose for batch in plan["batches"] for dose in batch["doses"]]
    bottled = [dose for dose in doses if dose["bottle"]]
    assert ("Epsom bottle", "Epsom salt", "mL") in {
        (dose["bottle"], dose["product"], dose["unit"]) for dose in bottled
    }
    assert any(dose["bottle"] is None for dose in doses)


def test_the_export_is_judged_as_the_collection_is(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    out = tmp_path / "out"
    assert growdesk("export", out, "--collection", laid).code == 0
    asked = ("--on", ON, "--json")
    by_facts: Any = growdesk("decide", "--facts", out / "facts.json", *asked).json
    by_store: Any = growdesk("decide", "--collection", laid, *asked).json
    assert {plant["tag"]: plant for plant in by_facts} == {
        plant["tag"]: plant for plant in by_store
    }


def test_a_backup_comes_back_whole_and_the_old_one_is_kept(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file, folder = tmp_path / "orchids.zip", tmp_path / "back"
    made = growdesk("backup", file, "--collection", laid)
    assert made.code == 0
    assert str(file) in made.out
    first = growdesk("--collection", folder, "restore", file)
    assert first.code == 0
    assert "kept in" not in first.out
    second = growdesk("--collection", folder, "restore", file)
    assert f"kept in {folder}-before-restore-" in second.out
    asked = ("decide", "--on", ON, "--json")
    assert (
        growdesk("--collection", folder, *asked).json
        == growdesk("--collection", laid, *asked).json
    )
    sound = growdesk("--collection", folder, "check")
    assert (sound.code, sound.err) == (0, "")
    assert "is sound" in sound.out


def test_check_names_a_photo_that_is_gone(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file, folder = tmp_path / "orchids.zip", tmp_path / "back"
    growdesk("backup", file, "--collection", laid)
    growdesk("--collection", folder, "restore", file)
    photos = sorted((folder / "photos").glob("*/*"))
    photos[0].unlink()
    photos[1].write_bytes(b"not the photo")
    run = growdesk("--collection", folder, "check")
    assert "is damaged" in run.refusal
    assert "growdesk restore FILE" in run.refusal
    assert "is gone" in run.out
    assert "A photo of plant" in run.out
    assert run.out.count("\n") >= 2


def test_check_puts_photos_back_that_a_backup_has(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    folder = tmp_path / "mine"
    shutil.copytree(laid, folder)
    growdesk("--collection", folder, "backup")
    photos = sorted((folder / "photos").glob("*/*"))
    content = photos[0].read_bytes()
    photos[0].unlink()
    assert "growdesk check --mend" in growdesk("--collection", folder, "check").refusal
    run = growdesk("--collection", folder, "check", "--mend")
    assert (run.code, photos[0].read_bytes()) == (0, content)
    assert "1 photo put back out of a backup." in run.out
    assert "is sound" in run.out


CSV = "tag,name,place,pot_volume_l\nN1,Cattleya hybrid,Hall,1.5\nN2,Vanda hybrid,,\n"


def test_import_makes_a_collection_and_says_what_it_took(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    file.write_text(CSV, encoding="utf-8")
    dry = growdesk("import", file, "--dry-run", "--collection", folder)
    assert dry.code == 0
    assert "2 plants could be taken in" in dry.out
    assert "Hall" in dry.out
    assert not folder.exists()
    real = growdesk("import", file, "--collection", folder)
    assert "Took in 2 plants" in real.out
    plants: Any = growdesk("decide", "--json", "--collection", folder).json
    assert {plant["tag"] for plant in plants} == {"N1", "N2"}
    again = growdesk("import", file, "--dry-run", "--collection", folder)
    assert "2 rows are bad" in again.refusal
    assert "Row 3" in again.out


def test_import_of_a_bad_row_writes_nothing(growdesk: Growdesk, tmp_path: Path) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    file.write_text(f"{CSV}N3,,,-4\n", encoding="utf-8")
    run = growdesk("import", file, "--collection", folder)
    assert "Row 4, pot_volume_l" in run.refusal
    assert "nothing was written" in run.refusal
    assert not folder.exists()


@pytest.mark.parametrize("text", [f"{CSV}N3,,,-4\n", "name\nVanda\n", "tag\n"])
def test_an_import_that_takes_nothing_leaves_nothing(
    growdesk: Growdesk, tmp_path: Path, text: str
) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "deep" / "mine"
    file.write_text(text, encoding="utf-8")
    growdesk("import", file, "--collection", folder)
    assert list(tmp_path.iterdir()) == [file]
    folder.mkdir(parents=True)
    (folder / ".DS_Store").write_bytes(b"theirs")
    growdesk("import", file, "--collection", folder)
    assert [path.name for path in folder.iterdir()] == [".DS_Store"]


def test_an_import_that_fails_leaves_the_collection_that_was_there(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    file.write_text(CSV, encoding="utf-8")
    assert growdesk("import", file, "--collection", folder).code == 0
    assert "2 rows are bad" in growdesk("import", file, "--collection", folder).refusal
    plants: Any = growdesk("decide", "--json", "--collection", folder).json
    assert {plant["tag"] for plant in plants} == {"N1", "N2"}


def test_an_empty_folder_is_imported_into(growdesk: Growdesk, tmp_path: Path) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    file.write_text(CSV, encoding="utf-8")
    folder.mkdir()
    dry = growdesk("import", file, "--dry-run", "--collection", folder)
    assert "could be taken in" in dry.out
    assert list(folder.iterdir()) == []
    assert growdesk("import", file, "--collection", folder).code == 0


@pytest.mark.parametrize("dry_run", [(), ("--dry-run",)])
def test_a_header_alone_is_no_plants(
    growdesk: Growdesk, tmp_path: Path, dry_run: tuple[str, ...]
) -> None:
    file = tmp_path / "plants.csv"
    file.write_text("tag,name\n", encoding="utf-8")
    run = growdesk("import", file, *dry_run, "--collection", tmp_path / "mine")
    assert (run.code, run.err) == (0, "")
    assert run.out == "No plants in plants.csv; nothing was written.\n"


def test_one_other_bad_row_is_one(growdesk: Growdesk, tmp_path: Path) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    for rows, told in ((2, "The other one is listed"), (3, "The other 2 are listed")):
        bad = "".join(f"A{row},-1\n" for row in range(rows))
        file.write_text(f"tag,volume_l\n{bad}", encoding="utf-8")
        assert told in growdesk("import", file, "--collection", folder).refusal


def test_check_names_a_row_that_no_command_can_read(
    growdesk: Growdesk, tmp_path: Path
) -> None:
    file, folder = tmp_path / "plants.csv", tmp_path / "mine"
    file.write_text(CSV, encoding="utf-8")
    growdesk("import", file, "--collection", folder)
    with closing(sqlite3.connect(folder / "collection.sqlite")) as connection:
        connection.execute("UPDATE plant SET medium = 'plastic' WHERE tag = 'N2'")
        connection.commit()
    refusal = growdesk("check", "--collection", folder).refusal
    assert "Plant N2, medium: 'plastic' is none of bark" in refusal
    assert "medium of plant N2" in growdesk("decide", "--collection", folder).refusal


def test_a_backup_makes_no_folder(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    stick = tmp_path / "stick"
    refusal = growdesk("backup", stick / "x.zip", "--collection", laid).refusal
    assert "lies in no folder" in refusal
    assert not stick.exists()


@pytest.mark.parametrize("on", ["1900-01-01", "2200-12-31"])
def test_the_demo_takes_the_days_that_on_takes(growdesk: Growdesk, on: str) -> None:
    assert growdesk("--demo", "decide", "--on", on).code == 0


def test_a_sheet_is_written_over_a_pdf_and_nothing_else(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file = tmp_path / "plants.csv"
    file.write_text(CSV, encoding="utf-8")
    asked = ("sheet", "--week", ON, "--collection", laid, "--pdf", file)
    assert "is there and is no PDF" in growdesk(*asked).refusal
    assert file.read_text(encoding="utf-8") == CSV
    for before in (b"", b"%PDF-1.4 an older sheet"):
        file.write_bytes(before)
        assert growdesk(*asked).code == 0
        assert file.read_bytes().startswith(b"%PDF-")
        assert len(file.read_bytes()) > 1000


def test_a_look_list_is_written_for_a_place_or_for_all(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file = tmp_path / "list.pdf"
    asked = ("look-list", "--on", ON, "--collection", laid, "--pdf", file)
    run = growdesk(*asked)
    assert run.code == 0
    assert f"plants to {file}" in run.out
    everyone = len(PdfReader(file).pages)
    assert growdesk(*asked, "--place", "lamp shelf", "--paper", "A4").code == 0
    (first, *more) = PdfReader(file).pages
    assert "Lamp shelf" in first.extract_text()
    assert len(more) + 1 < everyone
    refusal = growdesk(*asked, "--place", "attic").refusal
    assert "--place" in refusal
    assert "Lamp shelf" in refusal


def test_facts_json_of_an_export_is_plain_json(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    growdesk("export", tmp_path / "out", "--collection", laid)
    facts = json.loads((tmp_path / "out" / "facts.json").read_text(encoding="utf-8"))
    assert set(facts) == {"house", "plants"}


def test_a_day_names_a_kept_backup_and_into_leaves_the_collection_alone(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    folder, apart = tmp_path / "mine", tmp_path / "apart"
    file = tmp_path / "orchids.zip"
    growdesk("backup", file, "--collection", laid)
    growdesk("--collection", folder, "restore", file)
    assert growdesk("--collection", folder, "backup").code == 0
    (made,) = (folder / "backups").glob("*-by-hand")
    kept = made.name
    told = growdesk("--collection", folder, "restore", kept[:10], "--into", apart)
    assert told.code == 0
    assert f"Restored {apart} as of " in told.out
    assert "40 plants" in told.out
    assert "kept in" not in told.out
    taken = growdesk("--collection", folder, "restore", kept[:10], "--into", apart)
    assert "holds something already" in taken.refusal
    switched = growdesk("--collection", folder, "restore", kept[:10])
    assert f"kept in {folder}-before-restore-" in switched.out


def test_a_collection_that_a_stopped_restore_left_nameless_is_put_back(
    growdesk: Growdesk, laid: Path, tmp_path: Path
) -> None:
    file, folder = tmp_path / "orchids.zip", tmp_path / "mine"
    growdesk("backup", file, "--collection", laid)
    growdesk("--collection", folder, "restore", file)
    folder.rename(tmp_path / "mine-before-restore-2026-11-26-101500")
    told = growdesk("--collection", folder, "decide", "--on", ON)
    assert told.code == 0
    assert "stands there again" in told.err
    assert folder.is_dir()
