"""The answer as a letter: drawn, and written whole or not at all."""

from pathlib import Path

from provenance.documents.letter import Letter, LetterPicture, draw_letter
from provenance.records.files import write_new
from provenance.records.images import load_thumbnail
from provenance.studio.answering.answer import Answer
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_layout

_LABELS = ("answer", "continued", "page_of")


def draw_answer(answer: Answer, folder: StudioFolder) -> bytes:
    """The letter as a PDF.  Raises Refused for what the typefaces cannot set."""
    layout = load_layout(folder, answer.language)
    picture = None
    if answer.thumbnail_sha256:
        jpeg = load_thumbnail(folder.images, answer.thumbnail_sha256)
        picture = LetterPicture(jpeg, answer.thumbnail_px, answer.caption)
    return draw_letter(
        Letter(
            name=answer.name,
            title=answer.title,
            designation=answer.designation,
            artist=answer.artist,
            place=answer.studio,
            day=answer.day,
            picture=picture,
            particulars=tuple(
                (layout.particular_labels[name], value) for name, value in answer.particulars
            ),
            sections=tuple(
                (held.question, tuple((one.text, one.known) for one in held.sentences))
                for held in answer.answered
            ),
            note=answer.note,
            meanings=answer.meanings,
            labels={name: layout.labels[name] for name in _LABELS},
            answered_at_utc=answer.at_utc,
            page=read_settings(folder).page,
            language=answer.language,
        )
    )


def write_answer(answer: Answer, path: Path, folder: StudioFolder) -> Path:
    """Draw the letter and write it to `path`."""
    write_new(path, draw_answer(answer, folder))
    return path
