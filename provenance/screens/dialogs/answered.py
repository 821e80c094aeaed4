"""A form that asks and enters nothing: what it found is looked at on a page of its own."""

from provenance.studio.daysheet.record import Recorded

NOTHING = Recorded(act=0, entered=(), entries=0, warnings=())
