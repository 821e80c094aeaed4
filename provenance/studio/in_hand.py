"""Which runs are under way."""

from provenance.model.run import Run
from provenance.records.reader import Reader, Stored


def runs_in_hand(reader: Reader) -> list[Stored[Run]]:
    """Runs that were begun and not ended, oldest first."""
    return [run for run in reader.all(Run) if run.body.state == "in hand"]
