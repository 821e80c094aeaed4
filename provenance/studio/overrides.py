"""What was overridden at the trays, in words and as plain values."""

from datetime import date
from typing import Any

from provenance.craft.history import PrintHistory
from provenance.craft.standing import standing_of
from provenance.model.run import Override


def override_text(body: Override, explained_on: date | None = None) -> str:
    """What the rule found, the reason that was given, and what was said of it afterwards."""
    rule = body.finding.partition(".")[0]
    found = f"{rule}, {body.what}" if body.what else rule
    said = [f"{found}; {body.step} begun all the same: “{body.why}”"]
    if body.done:
        said.append("it had been done after all")
    if body.explained:
        said.append(f"“{body.explained}”")
    if explained_on is not None:
        said[-1] += f" (said {explained_on})"
    return "; ".join(said)


def overrides_as_data(history: PrintHistory) -> dict[str, Any]:
    """The overrides of a print, and the steps that they leave without any weight."""
    return {
        "overrides": [
            {
                "finding": over.body.finding,
                "what": over.body.what,
                "step": over.body.step,
                "why": over.body.why,
                "on": str(over.on),
                "standing": standing_of("run", str(over.on), over.on),
                "explained": over.body.explained,
                "done": over.body.done,
                "explained_on": str(over.explained_on) if over.explained_on else None,
                "run": over.run,
                "entry": over.entry,
            }
            for over in history.overrides
        ],
        "contradicted": [step.id for step in history.contradicted],
    }
