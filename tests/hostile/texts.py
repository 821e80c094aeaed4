"""Texts that nobody means well with: any at all, and good ones with something put in or cut out."""

from collections.abc import Sequence

from hypothesis import strategies as st

MEAN = (
    *("", " ", "0", "-1", "1/0", "9" * 5000, "1e999", "1_000", "0x41", "nan", "inf", "-0.0"),
    *("²", "½", "١٢", "𝟙", "１", "Ⅳ", "\N{KELVIN SIGN}", "ß", "e\u0301", "\u212b"),
    *("\x00", "\x1b[2J", "\x9b31m", "\u202e", "\u200b", "\ufeff", "\ud800", "\udcff", "\r", "\n"),
    *("\t", "\u2028", "\x85", "'", '"', "''", '""', '"""', "'''", "\\", "\\u0000", "%", "%s"),
    *("{", "}", "{0}", "{x.__class__}", "[", "]", "[[", "]]", "[" * 5000, "{a=" * 3000),
    *("(" * 3000, "a." * 3000, "=", "#", ";", ",", ":", "/", "..", "../../../etc/passwd", "~", "*"),
    *("NEAR(", " OR ", " AND NOT ", "^", "-", "--", "; DROP TABLE journal; --", "' OR '1'='1"),
    *("true", "null", "2031-02-30", "2031-13", "99999-01-01", "-0001", "24:61:61", "y" * 70_000),
)


def mean_texts(*good: str) -> st.SearchStrategy[str]:
    """Any text; one of the worst; a good one that was spoiled in up to four places."""
    return st.text(max_size=60) | st.sampled_from(MEAN) | spoiled(good)


@st.composite
def spoiled(draw: st.DrawFn, good: Sequence[str]) -> str:
    """One of the `good` texts with pieces cut out, doubled, or put in."""
    text = draw(st.sampled_from(good or ("",)))
    for _ in range(draw(st.integers(1, 4))):
        first = draw(st.integers(0, len(text)))
        last = min(len(text), first + draw(st.integers(0, 12)))
        put = draw(st.sampled_from(("", text[first:last] * 2)) | st.sampled_from(MEAN))
        text = text[:first] + put + text[last:]
    return text
