"""Words of the screen: what they mean, and how the longest are said in short."""

from provenance.model.evidence import Standing

WORDS: dict[str, str] = {
    "standing": "How a fact came to be known; the word at the right edge.",
    "measured": "Read from an instrument, or by a laboratory.",
    "by eye": "A spot judged against a comparator.",
    "logged": "A key was pressed while it was done.",
    "same day": "From notes of the day, entered on that day.",
    "later: notes": "Entered on another day, from written notes.",
    "later: memory": "Entered on another day, from memory.",
    "calculated": "It follows from other facts.",
    "not on record": "Nobody wrote it down; that is not to say that it was not done.",
    "act": "One person's one action. It is saved whole, and can be taken back whole.",
    "impression": "One place of an edition: a number, or a proof of its own series.",
    "AP, PP, HC": "Artist's proof, printer's proof, hors commerce: counted apart, in Roman"
    " numerals.",
    "BAT": "Bon à tirer: the proof that the edition is matched to.",
    "silver test": "Shows silver compounds left by poor fixing. Done after the wash, before"
    " toning.",
    "fixer test": "The thiosulfate test: shows fixer left by poor washing. Done last of all.",
    "back": "The pencil mark on the back of a sheet, made before exposure: the bridge between the"
    " sheet and its record.",
    "states": "· not made, w at work, p tested, n numbered and signed, c certified, r released,"
    " x spoiled, destroyed or lost.",
}
"""Words of the trade and of this program, explained where they may be asked for."""

_SHORT = {
    Standing.BY_EYE: "by eye",
    Standing.SAME_DAY: "same day",
    Standing.FROM_NOTES: "later: notes",
    Standing.FROM_MEMORY: "later: memory",
}


def in_short(standing: Standing | str | None) -> str:
    """A standing as the right edge of a list has room for it."""
    return _SHORT.get(Standing(standing), str(standing)) if standing else ""
