"""An answer to one question about a file."""

from dataclasses import dataclass
from typing import Literal

Answer = Literal["yes", "no", "none", "superseded", "withdrawn", "not asked"]


@dataclass(frozen=True)
class Verdict:
    """An answer, and what it rests on, in plain words."""

    answer: Answer
    says: tuple[str, ...]
