"""What was overridden at the trays with a print in hand, read back from its runs."""

from collections.abc import Iterator

from provenance.craft.history import Overridden
from provenance.model.run import Override, Run
from provenance.records.clock import Moment
from provenance.records.reader import Reader, Stored


def overridden(reader: Reader, print_: int) -> tuple[Overridden, ...]:
    """The findings that somebody went on in spite of with this print, oldest first."""
    found = [
        one
        for run in reader.linked(print_, Run, "sheets")
        if any(print_ in over.sheets for over in run.body.overrides)
        for one in _of_run(reader, run)
        if print_ in one.body.sheets
    ]
    return tuple(sorted(found, key=lambda one: one.entry))


def _of_run(reader: Reader, run: Stored[Run]) -> Iterator[Overridden]:
    """Each override of a run, with the entry that wrote it and the day it was last explained."""
    written: dict[int, tuple[int, Moment]] = {}
    explained: dict[int, Moment] = {}
    before: tuple[Override, ...] = ()
    for version in reader.versions(run.id):
        now = version.body.overrides if isinstance(version.body, Run) else ()
        for place, one in enumerate(now):
            if place >= len(before):
                written[place] = (version.entry.seq, version.entry.moment)
                explained.pop(place, None)
            elif (one.explained, one.done) != (before[place].explained, before[place].done):
                explained[place] = version.entry.moment
        before = now
    for place, body in enumerate(run.body.overrides):
        entry, moment = written[place]
        said = explained.get(place) if body.explained or body.done else None
        yield Overridden(
            run=run.id,
            entry=entry,
            on=moment.local_date(),
            body=body,
            explained_on=said.local_date() if said is not None else None,
        )
