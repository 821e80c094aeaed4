"""How a rule is asked: the act is refused in these words, and the journal is as it was."""

import re
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest

from provenance.errors import Refused
from provenance.records.register import Register
from tests.studios import enter, revise

Refuses = Callable[..., None]


@pytest.fixture
def refuses(register: Register) -> Refuses:
    """`refuses("words", body)`, or `refuses("words", record, field=value)` for a change."""

    def ask(words: str, what: Any, *, verb: str = "change", **fields: Any) -> None:
        before = list(register.read.entries())
        write = (
            partial(revise, register, what, verb=verb, **fields)
            if isinstance(what, int)
            else partial(enter, register, what)
        )
        with pytest.raises(Refused) as caught:
            write()
        assert re.search(words, str(caught.value)), str(caught.value)
        assert list(register.read.entries()) == before

    return ask
