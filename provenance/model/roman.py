"""Roman numerals, as proofs outside the numbered edition are counted."""

_VALUES = {
    "M": 1000,
    "CM": 900,
    "D": 500,
    "CD": 400,
    "C": 100,
    "XC": 90,
    "L": 50,
    "XL": 40,
    "X": 10,
    "IX": 9,
    "V": 5,
    "IV": 4,
    "I": 1,
}
GREATEST = 3999
"""The last number that can be written without a bar over a letter."""


def to_roman(number: int) -> str:
    """``14`` as ``XIV``.  Raises ValueError outside 1 to 3999."""
    if not 1 <= number <= GREATEST:
        raise ValueError(f"{number} has no Roman numeral")
    letters = ""
    for numeral, value in _VALUES.items():
        count, number = divmod(number, value)
        letters += numeral * count
    return letters


def from_roman(letters: str) -> int | None:
    """``XIV`` as 14; None for anything that is not written in the usual way (``IIII``)."""
    total, rest = 0, letters.upper()
    for numeral, value in _VALUES.items():
        while rest.startswith(numeral):
            total, rest = total + value, rest[len(numeral) :]
    usual = not rest and 1 <= total <= GREATEST and to_roman(total) == letters.upper()
    return total if usual else None
