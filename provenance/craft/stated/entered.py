"""When a record was written, where a sentence has to say that it came later."""

from datetime import date

from provenance.model.evidence import Standing, When, Word


def entered_words(standing: Standing, entered_on: date) -> dict[str, Word]:
    """The date of entry, where a sentence has to say that it came later."""
    if standing in (Standing.FROM_NOTES, Standing.FROM_MEMORY):
        return {"entered": When(str(entered_on))}
    return {}
