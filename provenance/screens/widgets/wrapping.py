"""Breaking a text into rows of so many cells."""

from rich.cells import cell_len


def wrap(text: str, width: int) -> list[str]:
    """`text` in rows of at most `width` cells, broken between words where it can be."""
    rows: list[str] = []
    row = ""
    for word in text.split(" "):
        while cell_len(word) > width:
            if row:
                rows.append(row)
                row = ""
            cut = _cells(word, width)
            rows.append(word[:cut])
            word = word[cut:]
        joined = f"{row} {word}" if row else word
        if cell_len(joined) > width and row:
            rows.append(row)
            row = word
        else:
            row = joined
    rows.append(row)
    return rows


def _cells(text: str, width: int) -> int:
    """How many characters of `text` fill at most `width` cells, at least one."""
    count, used = 0, 0
    for character in text:
        used += cell_len(character)
        if used > width and count:
            break
        count += 1
    return max(1, count)
