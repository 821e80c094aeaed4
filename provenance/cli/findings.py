"""How commands tell what the rules of the trade find."""

from typing import TYPE_CHECKING, Any

from provenance.cli.output import line

if TYPE_CHECKING:
    from provenance.craft.sequence.finding import Finding


def finding_shape(finding: "Finding") -> dict[str, Any]:
    """A finding as plain values, for JSON."""
    return {
        "rule": finding.rule,
        "case": finding.case,
        "level": finding.level,
        "what": finding.what,
        "why": finding.why,
        "do": finding.do,
        "source": str(finding.source),
        "steps": list(finding.steps),
        "evidence": list(finding.evidence),
        "basis": finding.basis,
        "answered_by": finding.answered_by,
        "blocks": finding.blocks,
    }


def tell_findings(findings: "tuple[Finding, ...]") -> None:
    """Every finding: what, on which records, why, what to do, and whose word it is."""
    if not findings:
        return
    from provenance.craft.sequence.finding import LEVELS

    line("")
    line("what the rules of the trade find")
    for finding in findings:
        evidence = ", ".join(f"#{record}" for record in finding.evidence)
        line(f"  {finding.rule}, {LEVELS[finding.level]}: {finding.what}")
        if evidence:
            line(f"      {evidence}")
        if finding.answered_by is not None:
            line(f"      a test that passed outranks it: #{finding.answered_by}")
        line(f"      {finding.why}")
        line(f"      {finding.do}")
        line(f"      {finding.source}")
