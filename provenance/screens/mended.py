"""What stands against a certificate, with the key that would mend it."""

from collections.abc import Mapping

from provenance.errors import Problem

_MENDED_BY = {
    "designation": "number",
    "signed": "sign",
    "scan": "scan",
    "certificate": "revise",
}
"""The action that mends a problem, by the field that it is about."""


def against(problem: Problem, keys: Mapping[str, str]) -> str:
    """The problem, and the key that would mend it where `keys` has one, by the action's name."""
    key = keys.get(_MENDED_BY.get(problem.field, ""))
    done = "revises it" if problem.field == "certificate" else "mends that"
    mend = f"{key} {done}" if key else problem.mend
    return f"{problem.what}; {mend}" if mend else problem.what
