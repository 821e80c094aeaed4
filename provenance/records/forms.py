"""Which kinds of record there are, and how old forms are read.

A body's form changes only by raising its FORM and adding an upcaster here.
Upcasters are permanent: a journal of any release can be read for ever.
"""

from collections.abc import Callable, Mapping
from typing import Any

import msgspec

from provenance.errors import Damaged, NewerRegister, Problem, Refused
from provenance.model.body import Body
from provenance.model.certificate import Certificate
from provenance.model.chemistry import Bath, Stock
from provenance.model.custody import CustodyEvent
from provenance.model.disclosure import Disclosure
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.formula import Formula
from provenance.model.instruction import Instruction
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan
from provenance.model.process import ProcessSheet
from provenance.model.proof import Test
from provenance.model.readings import Reading, Wedge
from provenance.model.run import Run
from provenance.model.studio import Studio
from provenance.model.study import SpotCalibration, ToningStudy, WashStudy

KINDS: dict[str, type[Body]] = {
    body.KIND: body
    for body in (
        Studio,
        Negative,
        Edition,
        Paper,
        Formula,
        Stock,
        Bath,
        ProcessSheet,
        Printing,
        Print,
        Run,
        Step,
        Test,
        Scan,
        Certificate,
        CustodyEvent,
        Wedge,
        Reading,
        MatchReport,
        Finish,
        WashStudy,
        ToningStudy,
        SpotCalibration,
        Disclosure,
        Instruction,
    )
}

Fields = dict[str, Any]
Upcaster = Callable[[Fields], Fields]


def _with_planned_aims(fields: Fields) -> Fields:
    """A run of form 1: every sheet has the aims of the plan."""
    return {**fields, "aims": []}


UPCASTERS: dict[tuple[str, int], Upcaster] = {("run", 1): _with_planned_aims}
"""(kind, form) to the function that raises a body of that form to the next."""


def read_body(
    kind: str,
    form: int,
    data: bytes | msgspec.Raw,
    *,
    kinds: Mapping[str, type[Body]] = KINDS,
    upcasters: Mapping[tuple[str, int], Upcaster] = UPCASTERS,
) -> Body:
    """The body that `data` holds, raised to the form this release knows.

    Raises NewerRegister for a kind or form from a later release, and Damaged
    when the bytes do not hold what their form says.
    """
    known = kinds.get(kind)
    if known is None or form > known.FORM:
        raise NewerRegister(
            Problem(
                what=f"the register holds a {kind} of form {form}, which this release cannot read",
                mend="open it with the release that wrote it, or a newer one",
            )
        )
    try:
        if form == known.FORM:
            return msgspec.json.decode(data, type=known)
        fields = msgspec.json.decode(data)
        for step in range(form, known.FORM):
            fields = upcasters[kind, step](fields)
        return msgspec.convert(fields, known)
    except (
        msgspec.MsgspecError,
        Refused,
        LookupError,
        TypeError,
        ValueError,
        RecursionError,
    ) as error:
        raise Damaged(
            Problem(
                what=f"an entry of kind {kind} does not hold what its form says: {error}",
                mend="run `provenance audit`, and restore a backup into a new folder",
            )
        ) from error
