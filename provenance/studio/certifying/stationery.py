"""What all certificates of a studio are made with, read and checked once."""

from dataclasses import dataclass

from provenance.craft.sequence.texts import Rules
from provenance.craft.wording import Wording
from provenance.documents.template import CertificateLayout
from provenance.studio.certifying.studio_mark import MarkPicture, load_mark
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.ring import Ask, Signer, unlock
from provenance.studio.sequences import load_rules
from provenance.studio.settings import Settings, read_settings
from provenance.studio.wordings import load_layout, load_wording


@dataclass(frozen=True)
class Stationery:
    """Settings, words and layout, the studio's mark, and its key where it has one."""

    settings: Settings
    wording: Wording
    layout: CertificateLayout
    rules: Rules
    mark: MarkPicture | None
    signer: Signer | None


def gather(folder: StudioFolder, ask: Ask | None = None) -> Stationery:
    """Everything but the print.  Raises Refused, with lines, for what cannot be used.

    `ask` asks a person for the passphrase of the key, so this comes before the
    register is held: nobody else should wait for a person who looks for it.
    """
    settings = read_settings(folder)
    layout = load_layout(folder, settings.language)
    return Stationery(
        settings=settings,
        wording=load_wording(folder, settings.language),
        layout=layout,
        rules=load_rules(folder),
        mark=load_mark(folder, layout),
        signer=unlock(folder, ask),
    )
