"""Programs that some tests need and a machine may lack."""

import os
import shutil

import pytest


def need(program: str) -> str:
    """The path of `program`; without it the test is skipped, and the reason shown.

    With PROVENANCE_REQUIRE_TOOLS=1 the test fails instead, so that a machine
    which should have every tool cannot pass by lacking one.
    """
    path = shutil.which(program)
    if path is not None:
        return path
    if os.environ.get("PROVENANCE_REQUIRE_TOOLS") == "1":
        pytest.fail(f"{program} is not installed, and PROVENANCE_REQUIRE_TOOLS=1 asks for it")
    pytest.skip(f"{program} is not installed")
