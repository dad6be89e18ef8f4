"""Fuzz a parser for some seconds: ``python -m tests.fuzz NAME --seconds 180``.

``all`` shares the seconds among all harnesses, each in a process of its own. It prints
what was executed, and ends with 1 where one crashed, hung or took too much memory; the
input that did it is printed and kept. Needs the extra ``fuzz`` (Linux only).
"""

from __future__ import annotations

import argparse
import os
import re
import sys
import tempfile
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

from tests.fuzz.seeds import SEEDS

_HANG_S = 20
_MOST_MB = 1_500
_EXECUTED = re.compile(r"stat::number_of_executed_units:\s*(\d+)")
_FAULT = re.compile(r"=== Uncaught Python exception.*?(?=\n\n|\n==|\Z)", re.DOTALL)
_LEAST_S = 2
_LOG = "said-by-fuzzer.txt"

Harnesses = dict[str, Callable[[bytes], None]]


def _instrumented() -> tuple[Any, Harnesses]:
    """Give atheris and the harnesses, every module of ours instrumented, once."""
    atheris = import_module("atheris")
    with atheris.instrument_imports(include=["growdesk"]):
        harnesses = import_module("tests.fuzz.harnesses")
    return atheris, harnesses.HARNESSES


def _keeping(harness: Callable[[bytes], None], at: Path) -> Callable[[bytes], None]:
    """Have a harness keep the input that it fails on."""

    def kept(data: bytes) -> None:
        try:
            harness(data)
        except BaseException:
            at.write_bytes(data)
            raise

    return kept


def _within(fuzzer: Any, harness: Callable[[bytes], None], given: list[str]) -> None:
    """Fuzz in this process; libFuzzer ends it."""
    descriptor = os.open(_LOG, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    os.dup2(descriptor, 1)
    os.dup2(descriptor, 2)
    fuzzer.Setup(["fuzz", *given], harness)
    fuzzer.Fuzz()


def _fuzz(name: str, made: tuple[Any, Harnesses], asked: argparse.Namespace) -> bool:
    """Fuzz one harness in a process of its own; tell whether all went well."""
    fuzzer, harnesses = made
    with tempfile.TemporaryDirectory() as folder:
        corpus = Path(folder) / "corpus"
        corpus.mkdir()
        for number, content in enumerate(SEEDS[name]):
            (corpus / f"seed-{number}").write_bytes(content)
        before = {*asked.keep.iterdir()}
        given = [
            *(f"-max_total_time={asked.each_s}", f"-seed={asked.seed}"),
            *(f"-timeout={_HANG_S}", f"-rss_limit_mb={_MOST_MB}", "-max_len=4096"),
            *(f"-artifact_prefix={asked.keep}/{name}-", "-print_final_stats=1"),
            str(corpus),
        ]
        child = os.fork()
        if not child:
            os.chdir(folder)
            ended = 3
            try:
                at = asked.keep / f"{name}-input-{os.getpid()}"
                _within(fuzzer, _keeping(harnesses[name], at), given)
            except SystemExit as end:
                ended = int(end.code or 0)
            finally:
                os._exit(ended)  # what is the parent's is left to it
        ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
        said = (Path(folder) / _LOG).read_text("utf-8", "replace")
    found = _EXECUTED.search(said)
    count = int(found[1]) if found else 0
    went_well = ended == 0 and count > 0
    how = "no crash" if went_well else f"CRASHED (ended with {ended})"
    print(f"fuzz {name}: {count} executions in {asked.each_s} s, {how}", flush=True)  # noqa: T201
    if not went_well:
        fault = _FAULT.search(said)
        print(fault[0] if fault else said[-3000:])  # noqa: T201
        for path in sorted({*asked.keep.iterdir()} - before):
            print(f"kept as {path}: {path.read_bytes()[:1000]!r}", flush=True)  # noqa: T201
    return went_well


def main() -> int:
    """Read the command line and fuzz."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__)
    parser.add_argument("name", choices=[*SEEDS, "all"])
    parser.add_argument("--seconds", type=int, default=40)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--keep", type=Path, help="where inputs that crash are kept")
    asked = parser.parse_args()
    asked.keep = (asked.keep or Path(tempfile.mkdtemp(prefix="fuzz-kept-"))).absolute()
    asked.keep.mkdir(parents=True, exist_ok=True)
    chosen = list(SEEDS) if asked.name == "all" else [asked.name]
    asked.each_s = max(_LEAST_S, asked.seconds // len(chosen))
    made = _instrumented()
    went_well = [_fuzz(name, made, asked) for name in chosen]
    return 0 if all(went_well) else 1


if __name__ == "__main__":
    sys.exit(main())
