"""What growdesk is made with: bounds both ways, a lock that keeps them, an audit."""

from __future__ import annotations

import importlib.util
import re
import sys
import tomllib
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

if TYPE_CHECKING:
    from types import ModuleType

ROOT = Path(__file__).parents[2]
PROJECT: dict[str, Any] = tomllib.loads(
    (ROOT / "pyproject.toml").read_text(encoding="utf-8")
)["project"]
TODAY = date(2026, 11, 26)


def asked_for(*extras: str) -> list[Requirement]:
    lines = list(PROJECT["dependencies"])
    for extra in extras:
        lines += PROJECT["optional-dependencies"][extra]
    found = [Requirement(line) for line in lines]
    return [each for each in found if each.name != PROJECT["name"]]


def locked() -> dict[str, tuple[Version, int]]:
    """Give each package of the lock with its version and how many hashes it has."""
    text = (ROOT / ".ci" / "lock.txt").read_text(encoding="utf-8")
    found = {}
    for block in re.split(r"\n(?=\S)", text):
        name, _, rest = block.partition("==")
        version = re.match(r"[^\s;]+", rest)
        assert version is not None, block
        found[name] = (Version(version[0]), block.count("--hash=sha256:"))
    return found


ALL = asked_for(*PROJECT["optional-dependencies"])


@pytest.mark.parametrize("wanted", ALL, ids=lambda each: str(each.name))
def test_every_package_is_bounded_both_ways(wanted: Requirement) -> None:
    signs = {each.operator for each in wanted.specifier}
    newest_is_right = wanted.name == "tzdata"
    assert signs == ({">="} if newest_is_right else {">=", "<"}), wanted


@pytest.mark.parametrize("wanted", ALL, ids=lambda each: str(each.name))
def test_the_lock_holds_what_is_asked_for(wanted: Requirement) -> None:
    version, _ = locked()[canonicalize_name(wanted.name)]
    assert version in wanted.specifier


def test_everything_locked_is_known_by_its_content() -> None:
    found = locked()
    assert len(found) > 40
    assert [name for name, (_, hashes) in found.items() if not hashes] == []


@pytest.fixture(scope="module")
def audit() -> ModuleType:
    path = ROOT / ".ci" / "audit.py"
    spec = importlib.util.spec_from_file_location("growdesk_audit", path)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


SOUND = {"name": "astral", "version": "3.2", "vulns": []}
KNOWN = {
    "name": "pillow",
    "version": "9.0.0",
    "vulns": [{"id": "PYSEC-1", "aliases": ["CVE-1"], "fix_versions": ["9.0.1"]}],
}
"""In the form of pip-audit's JSON, invented."""
SKIPPED = {"name": "pint", "skip_reason": "not found"}
EXCEPTED = {
    "id": "CVE-1",
    "package": "pillow",
    "why": "never called",
    "until": date(2027, 1, 31),
}


@pytest.mark.parametrize(
    ("packages", "exceptions", "good", "told"),
    [
        ([SOUND], [], True, "1 packages asked about, 0 lines"),
        ([SOUND, KNOWN], [], False, "pillow 9.0.0: PYSEC-1, mended in 9.0.1"),
        ([SOUND, KNOWN], [EXCEPTED], True, "0 lines"),
        ([SOUND], [EXCEPTED], False, "CVE-1 for pillow answers to nothing"),
        (
            [KNOWN],
            [EXCEPTED | {"until": date(2026, 11, 25)}],
            False,
            "CVE-1 for pillow ran out on 2026-11-25",
        ),
        ([SOUND, SKIPPED], [], False, "pint: could not be asked about"),
        ([SKIPPED], [], True, "nobody could be asked about any of 1 packages"),
        ([], [], False, "any of 0 packages"),
    ],
)
def test_the_audit_answers_for_every_advisory(
    audit: ModuleType,
    packages: list[dict[str, Any]],
    exceptions: list[dict[str, Any]],
    good: bool,
    told: str,
) -> None:
    outcome = audit.judged(packages, exceptions, TODAY)
    assert outcome.good is good
    assert told in "\n".join(outcome.lines)


def test_each_exception_says_why_and_until_when() -> None:
    text = (ROOT / ".ci" / "audit-exceptions.toml").read_text(encoding="utf-8")
    for each in tomllib.loads(text).get("exception", []):
        assert set(each) == {"id", "package", "why", "until"}
        assert len(each["why"].split()) > 3
        assert isinstance(each["until"], date)
