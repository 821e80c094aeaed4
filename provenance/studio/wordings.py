"""Loads the wording and the page layout that a studio uses."""

import tomllib

from provenance.craft.wording import Wording, read_wording
from provenance.documents.template import CertificateLayout, read_layout
from provenance.errors import Problem, Refused
from provenance.studio.folder import StudioFolder


def load_wording(folder: StudioFolder, language: str) -> Wording:
    """The wording of `language`: the studio's own where it has one.  Raises Refused with lines."""
    path = folder.template("wording", f"{language}.toml")
    text = path.read_text(encoding="utf-8")
    try:
        data = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise Refused(Problem(what=f"this is not TOML: {error}", record=path.name)) from error
    return read_wording(data, name=path.name, text=text)


def load_layout(folder: StudioFolder, language: str) -> CertificateLayout:
    """The layout of certificates: the studio's own where it has one.  Raises Refused with lines."""
    path = folder.template("certificate.toml")
    return read_layout(path.read_text(encoding="utf-8"), path.name, language)
