"""Ask what is known against the packages of .ci/lock.txt, and say whether CI may pass.

An advisory fails the run unless .ci/audit-exceptions.toml names it, with a reason and a
day until which that holds; so does an exception that has run out or that answers to
nothing. Packages that the service does not know fail it too. Only where no package at
all could be asked about (no network) is that said, and the run goes on.
"""

from __future__ import annotations

import json
import subprocess
import sys
import tomllib
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
LOCK, EXCEPTIONS = HERE / "lock.txt", HERE / "audit-exceptions.toml"


@dataclass(frozen=True, slots=True)
class Outcome:
    """What to print, and whether CI may go on."""

    lines: tuple[str, ...]
    good: bool


def judged(
    packages: list[dict[str, Any]], exceptions: list[dict[str, Any]], today: date
) -> Outcome:
    """Judge pip-audit's answer, a list of packages, by the written exceptions."""
    silent = [each["name"] for each in packages if "skip_reason" in each]
    if not packages or len(silent) == len(packages):
        line = f"audit: nobody could be asked about any of {len(packages)} packages"
        return Outcome((line,), good=bool(packages))
    excepted = {(each["id"], each["package"]): each for each in exceptions}
    told = [f"{name}: could not be asked about" for name in silent]
    met: set[tuple[str, str]] = set()
    for package in packages:
        for found in package.get("vulns", ()):
            names = {found["id"], *found.get("aliases", ())}
            keys = {(name, package["name"]) for name in names} & excepted.keys()
            met |= keys
            if not keys:
                fixed = ", ".join(found.get("fix_versions", ())) or "no version yet"
                told.append(
                    f"{package['name']} {package['version']}: {found['id']}, mended in "
                    f"{fixed}"
                )
    told += [
        f"exception {number} for {name} answers to nothing any more"
        for number, name in sorted(excepted.keys() - met)
    ]
    told += [
        f"exception {each['id']} for {each['package']} ran out on {each['until']}"
        for each in exceptions
        if each["until"] < today
    ]
    asked = len(packages) - len(silent)
    line = f"audit: {asked} packages asked about, {len(told)} lines to answer"
    return Outcome((*told, line), good=not told)


def _answer() -> list[dict[str, Any]]:
    """Give pip-audit's answer for each package of the lock."""
    asked = subprocess.run(  # noqa: S603 -- our own lock
        [
            *(sys.executable, "-m", "pip_audit", "--progress-spinner", "off"),
            *("--require-hashes", "--disable-pip", "-r", str(LOCK), "-f", "json"),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    if asked.stdout.strip():
        packages: list[dict[str, Any]] = json.loads(asked.stdout)["dependencies"]
        return packages
    lines = asked.stderr.strip().splitlines() or ["pip-audit said nothing"]
    sys.exit(f"audit: {lines[-1]}")


def main() -> int:
    """Print the outcome and give the exit code."""
    written = tomllib.loads(EXCEPTIONS.read_text(encoding="utf-8"))
    today = datetime.now(UTC).date()
    outcome = judged(_answer(), written.get("exception", []), today)
    for line in outcome.lines:
        print(line)
    return 0 if outcome.good else 1


if __name__ == "__main__":
    sys.exit(main())
