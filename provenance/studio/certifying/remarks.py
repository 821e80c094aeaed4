"""What a certificate says of a print beside its particulars: that it replaces another, is
posthumous, was passed by whom, counts or not, and what of rights and other editions."""

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.wording import Wording
from provenance.model.prints import Print


def remark_words(print_: Mapping[str, Any], edition: Mapping[str, Any], wording: Wording) -> str:
    """The remarks on a print, from its part of the record; empty where there are none."""
    return "; ".join(_remarks(print_, edition, wording))


def _remarks(
    print_: Mapping[str, Any], edition: Mapping[str, Any], wording: Wording
) -> Iterator[str]:
    former, passed = print_.get("replaces"), print_.get("approved")
    if former:
        day = wording.date(former["gone_on"]) if former["gone_on"] else ""
        yield wording.phrase(f"remark.{former['existence']}", day=day)
    if print_.get("posthumous") is not False and "posthumous" in print_:
        yield wording.phrase("remark.posthumous" if print_["posthumous"] else "remark.lifetime")
    if passed:
        day = wording.date(passed["on"])
        if passed["by"] == "artist":
            yield wording.phrase("remark.approved", day=day)
        else:
            yield wording.phrase("remark.passed", day=day, role=passed["role"])
    if counted := print_.get("counted"):
        yield wording.phrase(f"remark.{counted}")
    if rights := edition.get("rights"):
        yield wording.phrase(f"remark.{rights}")
    if said := edition.get("disclosed"):
        yield wording.phrase("remark.said", words=said)


def standing_of_print(history: PrintHistory) -> dict[str, Any]:
    """What is remarked of a print: what it replaces, when it was made and by whose leave."""
    return {
        "posthumous": history.posthumous,
        "approved": msgspec.to_builtins(history.print.body.approved),
        "counted": history.print.body.counted,
        "replaces": _replaced(history.replaced),
    }


def _replaced(former: Fact[Print] | None) -> dict[str, Any] | None:
    """What became of the print whose number this one bears."""
    if former is None:
        return None
    return {"existence": former.body.existence, "gone_on": former.body.gone_on}
