"""What was tested: fixing and washing, by eye, by figure, by the studio's own scale."""

from collections.abc import Iterator

from provenance.craft.calibration import SpotScale
from provenance.craft.history import Fact, PrintHistory
from provenance.craft.proof import Finding
from provenance.craft.standing import standing_of, step_standing, test_standing
from provenance.craft.stated.entered import entered_words
from provenance.model.chemistry import TONERS
from provenance.model.evidence import Amount, Claim, Lasting, Standing, Term, When, Word, weakest
from provenance.model.proof import BY_EYE, Specimen, Test


def tested(history: PrintHistory, finding: Finding) -> Iterator[Claim]:
    question = finding.question
    if finding.failed is not None:
        yield Claim(
            id=f"tested.{question}.failed",
            section="tested",
            standing=test_standing(finding.failed),
            evidence=(finding.failed.id,),
            words={"when": When(finding.failed.body.done_on)},
        )
    if finding.passed is None:
        return
    test = finding.passed
    figure = test.body.measured_ng_per_cm2 is not None and test.body.method not in BY_EYE
    how = "measured" if figure else "seen"
    toned = question == "silver" and any(step.body.role in TONERS for step in history.steps)
    yield Claim(
        id=f"tested.{question}.{how}" + (".before" if toned else ""),
        section="tested",
        standing=test_standing(test),
        evidence=(test.id,),
        words=_test_words(test.body) | entered_words(test_standing(test), test.entered_on),
    )
    yield from _by_own_scale(history, test)
    for earlier in finding.mended:
        yield Claim(
            id=f"tested.{question}.mended",
            section="tested",
            standing=weakest(
                (
                    test_standing(earlier.test),
                    *(step_standing(step) for step in earlier.remedy),
                    test_standing(test),
                )
            ),
            evidence=(earlier.test.id, *(step.id for step in earlier.remedy), test.id),
            words={"when": When(earlier.test.body.done_on)},
        )


def _by_own_scale(history: PrintHistory, test: Fact[Test]) -> Iterator[Claim]:
    """The amount that a spot stands for by the studio's own calibration."""
    scale, darker_md = history.calibration(test.body.calibration), test.body.darker_md
    if scale is None or darker_md is None:
        return
    read = SpotScale(scale.body).convert(darker_md)
    made = standing_of(scale.body.source, scale.body.done_on, scale.entered_on)
    words: dict[str, Word] = {
        "when": When(test.body.done_on),
        "amount": Amount(read.ng_per_cm2),
        "least": Amount(read.least_ng_per_cm2),
        "most": Amount(read.most_ng_per_cm2),
    }
    if scale.body.reckoned_as is not None:
        words["species"] = Term("species", scale.body.reckoned_as)
    yield Claim(
        id=f"tested.{test.body.question}.scaled",
        section="tested",
        standing=weakest((Standing.CALCULATED, made, test_standing(test))),
        evidence=(test.id, scale.id),
        words=words,
    )


def _test_words(test: Test) -> dict[str, Word]:
    words: dict[str, Word] = {
        "when": When(test.done_on),
        "method": Term("method", test.method),
        "specimen": _specimen(test),
        "reading": test.reading.strip(" .\n") or Term("reading", "a result noted only as passed"),
    }
    if test.read_ms is not None:
        words["time"] = Lasting(test.read_ms)
    if test.measured_ng_per_cm2 is not None:
        words["amount"] = Amount(test.measured_ng_per_cm2)
    if test.reckoned_as is not None:
        words["species"] = Term("species", test.reckoned_as)
    if test.criterion:
        source = f" ({test.criterion_source})" if test.criterion_source else ""
        words["criterion"] = test.criterion + source
    return words


def _specimen(test: Test) -> Term:
    """What the test was made on; of several prints, only one can have given its border."""
    if len(test.covers) > 1 and test.specimen in _ONE_OF:
        return Term("specimen", _ONE_OF[test.specimen])
    return Term("specimen", test.specimen)


_ONE_OF: dict[Specimen, str] = {
    "border": "the trimmed border of one of the prints it covers",
    "print": "one of the prints it covers",
}
