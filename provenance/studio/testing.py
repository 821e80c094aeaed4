"""Entering tests: the limit they are held against, the failed one they repeat, their files."""

from datetime import date

from msgspec.structs import replace

from provenance.craft.history import Fact, comes_before
from provenance.craft.limits import ResidualLimit, compare
from provenance.craft.residual import ArealMass
from provenance.errors import NotFound, Problem, Refused
from provenance.model.proof import Test
from provenance.records.act import Act
from provenance.records.attached import Kept, keep, read_attachment
from provenance.records.reader import Reader, Stored
from provenance.studio.folder import StudioFolder, make_folders
from provenance.studio.settings import Settings

__all__ = ["as_repeat", "keep_attachment", "read_attachment", "with_limit"]


def keep_attachment(folder: StudioFolder, kept: Kept) -> None:
    """Put a photograph or a report on disk; it comes before the register names it."""
    make_folders(folder)
    keep(folder.images, kept)


def with_limit(test: Test, name: str | None, settings: Settings) -> Test:
    """`test` with the studio's limit called `name` written out as its criterion.

    A limit may change later; what was decided by it then stays with the test.
    Raises NotFound for an unknown limit, Refused when the figure and the verdict
    do not go together.
    """
    if name is None:
        return test
    limit = next((one for one in settings.limits if one.name == name), None)
    if limit is None:
        known = ", ".join(one.name for one in settings.limits)
        raise NotFound(
            Problem(
                f"the studio has no limit {name!r}",
                field="limit",
                mend=f"its limits are: {known}"
                if known
                else f"set it in settings.toml: [residual_limits.{name}]",
            )
        )
    if test.criterion:
        raise Refused(
            Problem("says a limit twice", field="criterion", mend="leave `limit` or this out")
        )
    if limit.question != test.question:
        raise Refused(
            Problem(f"{name} is a limit of {limit.question}", field="limit", mend="name another")
        )
    _agree(test, limit)
    species = f" as {limit.reckoned_as}" if limit.reckoned_as else ""
    amount = f"{limit.amount.value:g} {limit.amount.unit}{species}"
    return replace(test, criterion=f"{limit.name}, {amount}", criterion_source=limit.source.source)


def _agree(test: Test, limit: ResidualLimit) -> None:
    """A figure over the limit did not pass it."""
    if test.measured_ng_per_cm2 is None or test.verdict != "passed":
        return
    if limit.reckoned_as is not None and test.reckoned_as is None:
        raise Refused(
            Problem(
                "does not say what thiosulfate is reckoned as, which the limit needs",
                field="reckoned_as",
                mend="give it as the report does: ion, sodium, ammonium or crystal",
            )
        )
    found = compare(ArealMass(test.measured_ng_per_cm2 / 1000, "µg/cm²"), test.reckoned_as, limit)
    if not found.within:
        raise Refused(
            Problem(
                f"{test.measured_ng_per_cm2 / 1000:g} µg/cm² is {found.share:.2g} times the limit"
                f" {limit.name}, and cannot have passed it",
                field="verdict",
                mend="check the figure, its species and the limit; or enter it as failed",
            )
        )


def as_repeat(reader: Act | Reader, test: Test) -> Test:
    """`test` with the failed test that it asks again, where there is one before it."""
    if test.repeats is not None or not test.covers:
        return test
    failed: list[Stored[Test]] = []
    for sheet in test.covers:
        for held in reader.linked(sheet, Test, "covers"):
            if (held.body.question, held.body.verdict) == (test.question, "failed"):
                failed.append(held)
    now = _fact(0, test)
    earlier = [held for held in failed if comes_before(_fact(held.id, held.body), now)]
    if not earlier:
        return test
    return replace(test, repeats=max(earlier, key=lambda held: held.id).id)


def _fact(record: int, test: Test) -> Fact[Test]:
    """A test as it may be ordered; when it was entered does not matter to that."""
    return Fact(record, record, test, date.min)
