"""What a mix can do, as lines for an answer."""

from typing import Any

from provenance.cli.calc.answer import Answer
from provenance.craft.hazards.contents import Content
from provenance.craft.hazards.label import label_of_mix
from provenance.craft.hazards.meetings import cautions_for, families_in, meetings_in_mix
from provenance.craft.hazards.tables import Hazards
from provenance.craft.substances import Substances


def heed_mix(
    answer: Answer,
    contents: tuple[Content, ...],
    substances: Substances,
    hazards: Hazards,
) -> dict[str, Any]:
    """Put into `answer` what to heed with a mix; returns its label as data."""
    ids = [content.substance for content in contents]
    label = label_of_mix(contents, substances, hazards)
    if label.codes:
        said = " ".join(f"{code} {hazards.statement[code].say}" for code in label.codes)
        word = f"{label.signal_word}: " if label.signal_word else ""
        answer.heed.append(f"{word}{said}")
    if label.beneath:
        answer.heed.append(
            f"below the limits of a label at this strength: {', '.join(label.beneath)}"
        )
    for met in meetings_in_mix(ids, hazards):
        answer.heed.append(f"{met.severity}: {met.meeting.effect} {met.meeting.do}")
    answer.heed += [one.say for one in cautions_for(families_in(ids, hazards), hazards)]
    if label.codes or label.beneath:
        answer.heed.append(hazards.decides)
    return {
        "h_codes": label.codes,
        "beneath": label.beneath,
        "signal_word": label.signal_word,
        "pictograms": label.pictograms,
        "precautions": label.precautions,
    }
