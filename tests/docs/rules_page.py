"""Writes docs/rules.md from the rules that come with the program.

python -m tests.docs.rules_page
"""

from pathlib import Path

from provenance.craft.sequence import washing
from provenance.craft.sequence.finding import BLOCKING, CASES, LEVELS
from provenance.model.quantity_text import format_duration
from provenance.model.sources import Sourced
from provenance.studio.sequences import load_rules

PAGE = Path(__file__).parents[2] / "docs" / "rules.md"

_HEAD = """\
# The rules for a sequence of baths and tests

A planned process sheet, what a print went through, and the step that is about to be done are held
against the rules below. `provenance show` lists what they find, and entering a day sheet warns of
what its work brought about. Nothing is forbidden by a finding.

An **error** is a fault of the sequence, a **warning** a doubt, a **note** something worth
knowing. Those marked *stands against a certificate* do so while the record shows the error and no
later bath or test has answered it. What is not on record is taken neither for done nor for left
out: a time that nobody wrote down trips no rule, and a step that is missing counts as left out
only in a plan, or between steps that were written down as the work went.

The texts are data, in `templates/data/rules.toml`; a studio may copy the file into its own folder
and change the words. The source is the source of the rule; a reason that it does not give is
common practice. This page is written from that file by `python -m tests.docs.rules_page`.
"""


def page() -> str:
    """The page as it should be."""
    return "\n".join([_HEAD, *_washes(), *_rules()])


def _washes() -> list[str]:
    short = " + ".join(format_duration(time) for time in washing.SHORT_MS)
    after_aid = f"{format_duration(washing.AID_MS)} of aid, then {{}} of washing"
    rows: list[tuple[str, str, Sourced]] = [
        (
            "fibre, with aid",
            after_aid.format(format_duration(washing.AFTER_AID_MS)),
            washing.AID_SOURCE,
        ),
        ("fibre, with aid", f"{short} (wash, aid, wash)", washing.SHORT_SOURCE),
        ("fibre, without aid", format_duration(washing.LONG_MS), washing.LONG_SOURCE),
        ("single weight, without aid", format_duration(washing.THIN_MS), washing.THIN_SOURCE),
        ("resin-coated", format_duration(washing.RESIN_MS), washing.RESIN_SOURCE),
    ]
    return [
        "## What counts as a full wash",
        "",
        "Each of these does. Where the paper is not on record, the mildest is asked for.",
        "",
        "| paper | at least | source |",
        "|---|---|---|",
        *(f"| {paper} | {least} | {source} |" for paper, least, source in rows),
        "",
    ]


def _rules() -> list[str]:
    texts = load_rules().case
    lines = ["## The rules", ""]
    rule = ""
    for case, level in CASES.items():
        if case.partition(".")[0] != rule:
            rule = case.partition(".")[0]
            lines += [f"### {rule}", ""]
        text = texts[case]
        stands = "; stands against a certificate" if case in BLOCKING else ""
        lines += [
            f"**{text.rule}** ({LEVELS[level]}{stands})",
            "",
            f"- Why: {text.why}",
            f"- What to do: {text.do}",
            f"- Source: {Sourced(text.grade, text.source)}",
            "",
        ]
    return lines


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
