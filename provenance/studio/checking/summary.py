"""What the answers come to, in a sentence for whoever holds the paper."""

from provenance.model.prints import on_the_back
from provenance.studio.checking.attached_record import AttachedRecord
from provenance.studio.checking.verdict import Verdict

_COMPARE = (
    "No file can show that a sheet of paper is the print it describes:"
    " compare the picture, the sizes and {mark}."
)


def in_short(
    record: AttachedRecord | None,
    *,
    intact: Verdict,
    sealed: Verdict,
    on_record: Verdict,
    key_is_known: bool,
    bare: bool,
) -> str:
    """One sentence, and what to do next.

    `key_is_known`: the key is held to be the studio's; `bare`: the file has
    neither record nor seal.
    """
    if bare:
        return (
            "This is no certificate, or its record was taken out of it."
            " Do not rely on it as one: ask the studio for the certificate."
        )
    number = record.certificate.number if record else "the certificate"
    match (intact.answer, sealed.answer, on_record.answer):
        case ("no", _, "yes"):
            # one of its own issue, which the program of today cannot read any more
            return "The studio issued this very file, but it cannot be read as a certificate."
        case ("no", _, _):
            return (
                "This file is not as it was made. Do not rely on it:"
                f" ask the studio for {number} anew."
            )
        case (_, "no", _):
            return (
                "The key that is held to be the studio's did not seal this file."
                " Do not rely on it: ask the studio."
            )
        case (_, _, "no"):
            return (
                "The studio did not issue this file, as far as its register says."
                " Do not rely on it: ask the studio."
            )
        case (_, _, "superseded"):
            return "A later revision took the place of this certificate. Ask the studio for that."
        case (_, _, "withdrawn"):
            return "The studio withdrew this certificate. It says nothing any more."
        case (_, _, "yes"):
            return "The studio issued this file, and the certificate is in force."
        case (_, "yes", _) if key_is_known:
            return (
                "This file is as it left the studio. Whether it is still in force"
                " only the studio's register can say: ask the studio."
            )
        case (_, "yes", _):
            return (
                "This file is as it was sealed. If the key is the studio's, the studio made it:"
                " compare the fingerprint with the one that the studio publishes,"
                " and ask whether the certificate is still in force."
            )
    return (
        "Nothing in this file speaks against it. That shows that no accident befell it,"
        " not that the studio made it: ask the studio whether it issued this file."
    )


def compare(record: AttachedRecord) -> str:
    """What a person still has to do with the print itself."""
    pencilled = on_the_back(record.print.mark, record.print.designation)
    number = f"its number ({record.print.designation})"
    mark = f"the mark on the back ({pencilled})" if pencilled else number
    return _COMPARE.replace("{mark}", mark)
