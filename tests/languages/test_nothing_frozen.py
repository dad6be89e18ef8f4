"""No text is said while modules load: it would stay in the language of the start."""

from __future__ import annotations

import os
import subprocess
import sys

from tests.languages.texts import ROOT

LISTEN = """
import importlib, pkgutil, traceback
from growdesk.domain import speech

heard = []

class Listener:
    def gettext(self, message):
        heard.append((message, traceback.format_stack(limit=4)[0].strip()))
        return message

    def ngettext(self, one, many, count):
        return self.gettext(one)

    def pgettext(self, context, message):
        return self.gettext(message)

speech.speak(speech.Manner(Listener()))
import growdesk

for module in pkgutil.walk_packages(growdesk.__path__, "growdesk."):
    if not module.name.endswith("__main__"):
        importlib.import_module(module.name)
print(*heard, sep="\\n", end="")
speech.tr("heard at all")
assert heard[-1][0] == "heard at all"
"""


def test_loading_every_module_says_nothing() -> None:
    told = subprocess.run(
        [sys.executable, "-c", LISTEN],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    assert (told.stdout, told.returncode) == ("", 0), told.stderr
