"""Programs that some tests need and a machine may lack."""

import os
import shutil
from typing import NoReturn

import pytest


def need(program: str) -> str:
    """The path of `program`; without it the test is skipped, and the reason shown."""
    return shutil.which(program) or lack(f"{program} is not installed")


def lack(reason: str) -> NoReturn:
    """Skip the test because of what the machine lacks, and show the reason.

    With PROVENANCE_REQUIRE_TOOLS=1 the test fails instead, so that a machine
    which should have every tool cannot pass by lacking one.
    """
    if os.environ.get("PROVENANCE_REQUIRE_TOOLS") == "1":
        pytest.fail(f"{reason}, and PROVENANCE_REQUIRE_TOOLS=1 asks for it")
    pytest.skip(reason)
