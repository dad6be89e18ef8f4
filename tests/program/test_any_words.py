"""Whatever words stand on the command line, they are answered or refused in a line."""

from __future__ import annotations

import io
from contextlib import redirect_stderr, redirect_stdout

from hypothesis import given, settings
from hypothesis import strategies as st

from growdesk.app import main

PIECES = [
    *("150", "ppm", "N", "mg/L", "mmol", "P2O5", "L", "gal", "1/2", "tsp", "µ", "°C"),
    *(
        "20-20-20",
        "Ca",
        "+",
        "-",
        ",",
        ".",
        "1e9",
        "nan",
        "inf",
        "%",
        "/",
        "0",
        "(",
        "\n",
    ),
    *("2026-02-29", "90", "--json", "--on", "\x00", "½", "١٥٠"),
]
words = st.text(max_size=8) | st.lists(st.sampled_from(PIECES), max_size=5).map(
    " ".join
)


def answered(*arguments: str) -> None:
    """See that a command line ends well, or with one plain line."""
    out, err = io.StringIO(), io.StringIO()
    with redirect_stdout(out), redirect_stderr(err):
        code = main(arguments)
    assert code in {0, 2}, err.getvalue()
    assert err.getvalue().count("\n") == (1 if code == 2 else 0)
    assert "Traceback" not in err.getvalue()


@settings(max_examples=150, deadline=None)
@given(analysis=words, target=words, water=words, density=st.none() | words)
def test_any_dose_is_answered_or_refused(
    analysis: str, target: str, water: str, density: str | None
) -> None:
    good = {"--analysis": "20-20-20", "--target": "150 ppm N", "--water": "5 L"}
    for option, word in zip(good, (analysis, target, water), strict=True):
        asked = [f"{name}={good[name]}" for name in good if name != option]
        answered("dose", *asked, f"{option}={word}")
    if density is not None:
        asked = [f"{name}={value}" for name, value in good.items()]
        answered("dose", *asked, f"--density={density}")


@settings(max_examples=150, deadline=None)
@given(latitude=words, on=words)
def test_any_sun_is_answered_or_refused(latitude: str, on: str) -> None:
    answered("sun", f"--latitude={latitude}")
    answered("sun", "--latitude=1", f"--on={on}")


@settings(max_examples=150, deadline=None)
@given(arguments=st.lists(words | st.sampled_from(["sun", "dose", "ec"]), min_size=1))
def test_any_command_line_is_answered_or_refused(arguments: list[str]) -> None:
    answered("ec", *arguments)
