"""Runs the domain's tests on a random sample of its mutants; prints what survived.

``python tests/mutation/run_sample.py FOLDER --seed 1 --size 400`` with mutmut installed
(``pip install mutmut==3.8.1``), which no test needs. FOLDER gets a copy of the checkout
with all mutants in it; ``--again`` samples from the ones that are there. Of mutmut only
the making of mutants is used: its own run stumbles over names that our tests have.
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
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor, as_completed
from math import sqrt
from pathlib import Path

from msgspec import Struct

ROOT = Path(__file__).resolve().parents[2]
COPIED = ("growdesk", "tests", "resources", "demo", "README.md", "pyproject.toml")
TESTED = "tests/domain"
TIMEOUT_S = 240
PYTEST = (sys.executable, "-m", "pytest", "-c", "lean.ini", "--rootdir=.", "-q")
CONFIG = """[mutmut]
source_paths=growdesk
only_mutate=growdesk/domain/*
also_copy=
    growdesk
    resources
    demo
    README.md
pytest_add_cli_args_test_selection=tests/domain/test_light_units.py
mutate_only_covered_lines=false
"""
LEAN = """[pytest]
pythonpath = .
addopts = --import-mode=importlib --noconftest --tb=no
    -p no:pytest-qt -p no:cacheprovider
filterwarnings = error
"""
PLUGIN = '''"""Writes which functions each test runs, and for how long."""
import json, os, time
from mutmut.state import state
found, began, on_import = {}, 0.0, set()
def pytest_collection_finish(session):
    on_import.update(state()._stats)
def pytest_runtest_setup(item):
    global began
    began = time.perf_counter()
    state()._stats.clear()
def pytest_runtest_teardown(item):
    told = found.setdefault(item.nodeid.split("[")[0], [0.0, []])
    told[0] += time.perf_counter() - began
    told[1] = sorted({*told[1], *state()._stats, *on_import})
def pytest_sessionfinish(session):
    with open(os.environ["HITS"], "w") as file:
        json.dump(found, file)
'''


class Outcome(Struct, frozen=True):
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
    parser.add_argument("--longest", type=float, default=1e9, help="test, seconds")
    asked = parser.parse_args()
    mutants = asked.folder / "mutants"
    if not asked.again:
        make_mutants(asked.folder)
        trace_tests(mutants, asked.workers)
    found = [name for name in all_names(mutants) if asked.only in name]
    names = drawn(found, asked.size, asked.seed)
    covering = Covering(mutants, asked.longest)
    covering.check_clean()
    log = asked.folder / f"sample_{asked.seed}.jsonl"
    log.write_text("")
    outcomes = []
    with ThreadPoolExecutor(asked.workers) as pool:
        asked_for = [pool.submit(covering.outcome, name) for name in names]
        for done in as_completed(asked_for):
            outcome = done.result()
            outcomes.append(outcome)
            with log.open("a") as lines:
                told = {"end": outcome.end, "seconds": outcome.seconds}
                lines.write(json.dumps({"name": outcome.name} | told) + "\n")
    say(f"{len(found)} mutants, seed {asked.seed}")
    say(table(outcomes))


def make_mutants(folder: Path) -> None:
    """Copy the checkout into an empty folder and let mutmut write all mutants there.

    It cannot be asked to make them and no more, so it runs those of one small module.
    """
    folder.mkdir(parents=True)
    for name in COPIED:
        copy = shutil.copytree if (ROOT / name).is_dir() else shutil.copy
        copy(ROOT / name, folder / name)
    (folder / "setup.cfg").write_text(CONFIG)
    mutmut = Path(sys.executable).with_name("mutmut")
    asked = [str(mutmut), "run", "--max-children", "2", "growdesk.domain.light_units*"]
    subprocess.run(asked, cwd=folder, env=surroundings(), check=False)


def trace_tests(mutants: Path, workers: int) -> None:
    """Run each file of tests once, without a mutant, and keep what its tests run."""
    (mutants / "lean.ini").write_text(LEAN)
    (mutants / "hits_plugin.py").write_text(PLUGIN)
    (mutants / "hits").mkdir(exist_ok=True)

    def traced(file: str) -> None:
        hits = str(mutants / "hits" / f"{Path(file).stem}.json")
        env = surroundings() | {"MUTANT_UNDER_TEST": "stats", "HITS": hits}
        asked = [*PYTEST, "-p", "hits_plugin", file]
        subprocess.run(asked, cwd=mutants, env=env, check=True)

    files = sorted((mutants / TESTED).glob("test_*.py"))
    with ThreadPoolExecutor(workers) as pool:
        list(pool.map(traced, (f"{TESTED}/{file.name}" for file in files)))


def surroundings() -> dict[str, str]:
    """Give the environment of a test run; ``CI`` takes chance out of Hypothesis."""
    given = {"QT_QPA_PLATFORM": "offscreen", "PYTHONPATH": ".", "CI": "1"}
    return os.environ | given | {"PYTHONDONTWRITEBYTECODE": ""}


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
    """Which tests run a function: those of its module first, then the quickest.

    Tests that take longer than ``longest`` seconds are left out; the score is then a
    lower bound.
    """

    def __init__(self, mutants: Path, longest: float) -> None:
        self.mutants = mutants
        self.seconds: dict[str, float] = {}
        self.tests: dict[str, set[str]] = defaultdict(set)
        for file in sorted((mutants / "hits").glob("*.json")):
            for test, (seconds, functions) in json.loads(file.read_text()).items():
                self.seconds[test] = seconds
                for function in functions if seconds <= longest else ():
                    self.tests[function].add(test)

    def asked(self, name: str) -> list[str]:
        """Give the tests for a mutant, in the order in which they are tried."""
        stem = f"test_{Outcome(name, '', 0).module.rsplit('.', 1)[-1]}.py"
        return sorted(
            self.tests[name.rpartition("__mutmut_")[0]],
            key=lambda test: (f"/{stem}:" not in test, self.seconds[test], test),
        )

    def outcome(self, name: str) -> Outcome:
        """Run the tests that cover a mutant until one of them fails."""
        began = time.monotonic()
        tests = self.asked(name)
        end = self.run(name, tests) if tests else "uncovered"
        return Outcome(name, end, round(time.monotonic() - began, 1))

    def check_clean(self) -> None:
        """Refuse to begin where the tests do not pass without a mutant."""
        each = {test for tests in self.tests.values() for test in tests}
        if self.run("", sorted(each, key=self.seconds.__getitem__), 10) != "survived":
            message = "the tests do not pass without a mutant"
            raise RuntimeError(message)

    def run(self, name: str, tests: list[str], patience: int = 1) -> str:
        """Run tests with one mutant in force."""
        try:
            ended = subprocess.run(
                [*PYTEST, "-x", *tests],
                cwd=self.mutants,
                env=surroundings() | {"MUTANT_UNDER_TEST": name},
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
                timeout=TIMEOUT_S * patience,
                check=False,
            )
        except subprocess.TimeoutExpired:
            return "timeout"
        if ended.returncode not in {0, 1, 2, 4}:  # 4: what is asked cannot be imported
            message = f"pytest ended with {ended.returncode} on {name}"
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
