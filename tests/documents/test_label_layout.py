import pytest

from provenance.documents.label_layout import read_label_layout, shipped_label_layout
from provenance.documents.page import SIZES_PT
from provenance.errors import Refused
from provenance.resources import resource

TEXT = resource("templates", "label.toml").read_text("utf-8")


@pytest.mark.parametrize("page", ["A4", "letter"])
def test_cells_lie_on_the_sheet_beside_each_other(page: str) -> None:
    grid = shipped_label_layout().grid(page)  # type: ignore[arg-type]
    cells = list(grid.cells(page))  # type: ignore[arg-type]
    assert len(cells) == grid.count
    wide, high = SIZES_PT[page]
    for at, cell in enumerate(cells):
        assert 0 <= cell.left_pt < cell.left_pt + cell.width_pt <= wide
        assert 0 <= cell.top_pt - cell.height_pt < cell.top_pt <= high
        for other in cells[at + 1 :]:
            beside = other.left_pt >= cell.left_pt + cell.width_pt - 0.001
            below = other.top_pt <= cell.top_pt - cell.height_pt + 0.001
            assert beside or below


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("rows = 4", "rows = 5", "over the edge of a sheet of A4"),
        ("width_mm = 101.6", "width_mm = 110", "over the edge of a sheet of letter"),
        ("rows = 4", "rows = 0", "rows"),
        ("corner_marks = true", "cornermarks = true", "corner"),
        ('waste = "Waste"', "", "waste"),
        ("form = 1", "form = 2", "form"),
        ("form = 1", "form =", "cannot be read"),
    ],
)
def test_a_layout_that_cannot_be_used_is_refused(old: str, new: str, said: str) -> None:
    assert old in TEXT
    with pytest.raises(Refused, match=said) as refused:
        read_label_layout(TEXT.replace(old, new, 1))
    assert refused.value.problems[0].record == "label.toml"


def test_another_language_or_size_is_refused_with_what_there_is() -> None:
    layout = shipped_label_layout()
    with pytest.raises(Refused, match="only in en"):
        layout.words_in("eo")
    a4_only = read_label_layout(
        TEXT.partition("[sheet.letter]")[0] + "[label]" + TEXT.partition("[label]")[2]
    )
    with pytest.raises(Refused, match="only A4"):
        a4_only.grid("letter")
