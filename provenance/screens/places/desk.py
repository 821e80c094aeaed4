"""Desk: certificates, and where prints went."""

from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.screens.places.listed import Listed


class Desk(Listed):
    """Certificates issued, and moves in and out."""

    WHERE = "desk listed"
    NAME = "Desk"
    HOLDS = (("certificates", Certificate), ("prints that left or came back", CustodyEvent))
    LATER = "Collectors' questions, disclosure and the archive will live here."
