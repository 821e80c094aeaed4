"""Makes the demo studio, and takes one print from sheet to certificate."""

from pathlib import Path

from provenance.records.clock import Clock
from provenance.studio.demonstration.evenings import Tell, play_evenings
from provenance.studio.demonstration.place import claim_place
from provenance.studio.demonstration.walk import walk
from provenance.studio.folder import StudioFolder


def run_demo(folder: StudioFolder, tell: Tell, *, clock: Clock | None = None) -> Path:
    """Make the demo studio in `folder` and certify one print; returns the certificate's path.

    What is on record already is left as it is, so it may be run twice, and goes
    on where it was cut off.  `tell` is given each line for the person to read;
    `clock` is today's, the machine's own unless given.  Raises Refused when the
    folder holds another studio or other files.
    """
    story = claim_place(folder)
    tell(f"The demo studio is {story.studio}, in {folder.path}")
    play_evenings(folder, story, tell)
    return walk(folder, story, tell, clock)
