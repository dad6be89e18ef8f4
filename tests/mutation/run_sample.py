"""Runs the domain's tests on a random sample of its mutants; prints what survived.

``python tests/mutation/run_sample.py FOLDER --seed 1 --size 400``. It needs ``mutmut``
(``pip install mutmut==3.8.1``), which no test does. FOLDER gets a copy of the checkout
with all mutants in it; a second run with ``--again`` samples from the same ones.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import shutil
import subprocess
import sys
import time
from collections import Counter, defaultdict
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from math import sqrt
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("growdesk", "tests", "resources", "demo", "README.md", "pyproject.toml")
TESTED = "tests/domain"
TIMEOUT_S = 240
CONFIG = """[mutmut]
source_paths=growdesk
only_mutate=growdesk/domain/*
also_copy=
    growdesk
    resources
    demo
    README.md
pytest_add_cli_args_test_selection=tests/domain
mutate_only_covered_lines=false
"""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one mutant: killed, timeout, survived or uncovered."""

    name: str
    end: str
    seconds: float

    @property
    def module(self) -> str:
        """Give the module under ``growdesk.domain``."""
        return self.name.removeprefix("growdesk.domain.").rsplit(".", 1)[0]


def main() -> None:
    """Make the mutants unless they are there, run the sample, print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--size", type=int, default=400)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--again", action="store_true", help="keep the mutants made")
    parser.add_argument("--only", default="", help="mutants whose name holds this")
    asked = parser.parse_args()
    if not asked.again:
        make_mutants(asked.folder)
    mutants = asked.folder / "mutants"
    found = [name for name in all_names(mutants) if asked.only in name]
    names = drawn(found, asked.size, asked.seed)
    covering = Covering(mutants)
    covering.run("", (), TIMEOUT_S * 5)  # compiles everything, and has to pass
    log = asked.folder / f"sample_{asked.seed}.jsonl"
    log.write_text("")
    outcomes = []
    with ThreadPoolExecutor(asked.workers) as pool:
        for outcome in pool.map(covering.outcome, names):
            outcomes.append(outcome)
            with log.open("a") as lines:
                told = {"end": outcome.end, "seconds": outcome.seconds}
                lines.write(json.dumps({"name": outcome.name} | told) + "\n")
    say(f"{len(found)} mutants, seed {asked.seed}")
    say(table(outcomes))


def make_mutants(folder: Path) -> None:
    """Copy the checkout into an empty folder and let mutmut write all mutants there.

    mutmut also finds out which tests run which function; its own run of them is asked
    for one small module only, since it stumbles over unusual names of tests.
    """
    folder.mkdir(parents=True)
    for name in COPIED:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, folder / name)
    (folder / "setup.cfg").write_text(CONFIG)
    mutmut = Path(sys.executable).with_name("mutmut")
    asked = [str(mutmut), "run", "--max-children", "2", "growdesk.domain.pouring*"]
    subprocess.run(asked, cwd=folder, env=surroundings(), check=False)


def surroundings() -> dict[str, str]:
    """Give the environment of a test run: no screen, Hypothesis without chance."""
    return os.environ | {"QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": ".", "CI": "1"}


def all_names(mutants: Path) -> list[str]:
    """Give the names of all mutants."""
    names: list[str] = []
    for meta in sorted(mutants.rglob("*.meta")):
        names += json.loads(meta.read_text())["exit_code_by_key"]
    return sorted(names)


def drawn(names: list[str], size: int, seed: int) -> list[str]:
    """Draw a sample without return in which each module has its share."""
    strata: dict[str, list[str]] = defaultdict(list)
    for name in names:
        strata[Outcome(name, "", 0).module].append(name)
    chance = random.Random(seed)  # noqa: S311 -- a sample, no secret
    every = len(names) / min(size, len(names))
    mixed = [
        name
        for module in sorted(strata)
        for name in chance.sample(strata[module], len(strata[module]))
    ]
    start = chance.random() * every
    picked = [mixed[int(start + every * at)] for at in range(int(len(names) / every))]
    chance.shuffle(picked)
    return picked


class Covering:
    """Which files of tests run a function: its module's own, then the quickest."""

    def __init__(self, mutants: Path) -> None:
        self.mutants = mutants
        stats = json.loads((mutants / "mutmut-stats.json").read_text())
        self.tests: dict[str, list[str]] = stats["tests_by_mangled_function_name"]
        self.cost: Counter[str] = Counter()
        for test, seconds in stats["duration_by_test"].items():
            self.cost[test.split("::")[0]] += seconds

    def files(self, name: str) -> tuple[str, ...]:
        """Give the files of tests for a mutant."""
        function = name.rpartition("__mutmut_")[0]
        files = {test.split("::")[0] for test in self.tests.get(function, [])}
        own = f"test_{Outcome(name, '', 0).module.rsplit('.', 1)[-1]}.py"
        first = sorted(
            files, key=lambda file: (Path(file).name != own, self.cost[file])
        )
        return tuple(first)

    def outcome(self, name: str) -> Outcome:
        """Run the tests that cover a mutant until one of them fails."""
        began = time.monotonic()
        files = self.files(name)
        end = self.run(name, files, TIMEOUT_S) if files else "uncovered"
        return Outcome(name, end, round(time.monotonic() - began, 1))

    def run(self, name: str, files: tuple[str, ...], timeout_s: float) -> str:
        """Run files of tests, or all, with one mutant in force."""
        quiet = ("-x", "-q", "-p", "no:cacheprovider", "--tb=no", "-o", "addopts=")
        asked = [sys.executable, "-m", "pytest", "--import-mode=importlib", *quiet]
        try:
            ended = subprocess.run(
                [*asked, *(files or (TESTED,))],
                cwd=self.mutants,
                env=surroundings() | {"MUTANT_UNDER_TEST": name},
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                timeout=timeout_s,
                check=False,
            )
        except subprocess.TimeoutExpired:
            return "timeout"
        if ended.returncode not in {0, 1, 2} or (not name and ended.returncode):
            message = f"pytest ended with {ended.returncode} on {name or 'no mutant'}"
            raise RuntimeError(message)
        return "killed" if ended.returncode else "survived"


def wilson(killed: int, number: int) -> tuple[float, float]:
    """Give the 95 % interval of a share (Wilson 1927, J. Am. Stat. Assoc. 22:209)."""
    z, share = 1.96, killed / number
    middle = share + z * z / (2 * number)
    half = z * sqrt(share * (1 - share) / number + z * z / (4 * number * number))
    whole = 1 + z * z / number
    return (middle - half) / whole, (middle + half) / whole


def table(outcomes: list[Outcome]) -> str:
    """Give the score by module and overall, and the names of what survived."""
    modules: dict[str, list[Outcome]] = defaultdict(list)
    for outcome in outcomes:
        modules[outcome.module].append(outcome)
    alive = {"survived", "uncovered"}
    lines = []
    for module, own in [*sorted(modules.items()), ("all", outcomes)]:
        killed = sum(outcome.end not in alive for outcome in own)
        low, high = wilson(killed, len(own))
        share = f"{killed}/{len(own)} = {killed / len(own):.1%}"
        lines.append(f"{module:28} {share:20} 95 % {low:.1%} to {high:.1%}")
    left = sorted(f"{own.end:10} {own.name}" for own in outcomes if own.end in alive)
    return "\n".join(lines + left)


def say(text: str) -> None:
    """Write to where a person reads."""
    sys.stdout.write(f"{text}\n")


if __name__ == "__main__":
    main()
