"""Loads the wording and the page layout that a studio uses."""

import tomllib

from provenance.craft.wording import Wording, read_wording
from provenance.documents.template import CertificateLayout, read_layout
from provenance.errors import Problem, Refused
from provenance.resources import text_of
from provenance.studio.folder import StudioFolder
from provenance.toml import read_toml


def load_wording(folder: StudioFolder, language: str) -> Wording:
    """The wording of `language`: the studio's own where it has one.  Raises Refused with lines."""
    path = folder.template("wording", f"{language}.toml")
    text = text_of(path)
    try:
        data = read_toml(text)
    except tomllib.TOMLDecodeError as error:
        raise Refused(Problem(what=f"this is not TOML: {error}", record=path.name)) from error
    return read_wording(data, name=path.name, text=text)


def load_layout(folder: StudioFolder, language: str) -> CertificateLayout:
    """The layout of certificates: the studio's own where it has one.  Raises Refused with lines."""
    path = folder.template("certificate.toml")
    return read_layout(text_of(path), path.name, language)
