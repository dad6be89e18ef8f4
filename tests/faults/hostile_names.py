"""Names that look like markup, patterns, formulas or paths, and mean none of that.

Each holds a word of its own, ``K00x`` and on, so that a text in which that word stands
must hold all of the name.
"""

from __future__ import annotations

WILD: tuple[str, ...] = (
    *("<b>{}</b>", "<img src='file:///{}.png'>", "<script>{}</script>", "&amp;{}&lt;"),
    *("&copy{} &nbsp", "<a href='x'>{}</a>", "<!-- {} -->", "<style>*{{{}}}</style>"),
    *(
        "{{{}}}",
        "{{0.__class__}} {}",
        "{} {{}} }}{{",
        "%s {} %(x)s %n",
        "${}$ \\frac{{1",
    ),
    *(
        "a_{}^2 $x_",
        "&{} &&& &File",
        "[*]{}[*]",
        "\u202e{}\u2069",
        "zero\u200b{}\u200d",
    ),
    *("\U0001f469\u200d\U0001f33e{}\U0001f338", "cafe\u0301 {}", "caf\u00e9 {}"),
    *("../../{}", "CON{}", "{}.", "=1+{}", "@{}", "\\n{}\\r\\0", "\"{}' `", ";{},|"),
    *("]]>{}<![CDATA[", "<table><tr><td>{}", "{}" + "x" * 115, "two {}\nlines"),
    *("$\\frac{{{}}}", "_{}"),
)
NAMES: dict[str, str] = {
    f"K{number:02}x": wild.format(f"K{number:02}x") for number, wild in enumerate(WILD)
}
COMBINED = "M<b>K90x</b> &amp; {x} %s $a_b$ [*] <img src=q> && & \u202eend"
"""The worst of them in one, for whatever has only one name."""
ALL: dict[str, str] = {**NAMES, "K90x": COMBINED}
TAGS: tuple[str, ...] = (
    *("<i>K91x</i>", "&K92x", "{K93x}", "$K94x$", "../K95x", "CON", "K96x.", "=K97x"),
    *("a1", "caf\u00e9", "[*]K98x", "%K99x"),
)
