"""The structure of a document: what a reader that cannot see the page goes by."""

from dataclasses import dataclass, field

from provenance.documents.marks import Element
from provenance.documents.pdf import PdfFile, text_string

Box = tuple[float, float, float, float]
"""Left, lower, right and upper edge, in points."""


@dataclass
class _Node:
    """An element on its way into the file."""

    element: Element
    number: int
    parent: int
    nodes: "list[_Node]" = field(default_factory=list)
    kids: list[bytes] = field(default_factory=list)
    page: int = 0
    """The page on which its first content stands."""
    box: Box | None = None
    span: int = 1
    """How many columns of its table a cell takes."""


class Tags:
    """The structure tree in the making; elements stand in the order of their first mark."""

    def __init__(self, file: PdfFile) -> None:
        self._file = file
        self._root = file.reserve()
        self._whole = _Node(Element("Document"), file.reserve(), self._root)
        self._nodes: dict[Element, _Node] = {}
        self._pages: dict[int, list[int]] = {}

    def mark(self, element: Element, page: int) -> int:
        """The number that content of `element` bears on `page`, counted from 0 there."""
        node = self._node(element)
        owners = self._pages.setdefault(page, [])
        marked = len(owners)
        owners.append(node.number)
        if node.page in (0, page):
            node.page = page
            node.kids.append(b"%d" % marked)
        else:
            node.kids.append(b"<< /Type /MCR /Pg %d 0 R /MCID %d >>" % (page, marked))
        return marked

    def frame(self, element: Element, box: Box) -> None:
        """Say where a picture stands."""
        self._node(element).box = box

    def turn(self, page: int) -> int:
        """The place of `page`, which is done, among the pages that bear content."""
        self._pages.setdefault(page, [])
        return list(self._pages).index(page)

    def finish(self) -> int:
        """Put the tree into the file; the number of its root."""
        for node in (self._whole, *self._nodes.values()):
            if node.element.role == "Table":
                _square(node)
        self._put(self._whole)
        for node in self._nodes.values():
            self._put(node)
        entries = (
            b"%d [%b]" % (at, b" ".join(b"%d 0 R" % owner for owner in owners))
            for at, owners in enumerate(self._pages.values())
        )
        return self._file.put(
            b"<< /Type /StructTreeRoot /K %d 0 R /ParentTree << /Nums [%b] >>"
            b" /ParentTreeNextKey %d >>"
            % (self._whole.number, b" ".join(entries), len(self._pages)),
            self._root,
        )

    def _node(self, element: Element) -> _Node:
        node = self._nodes.get(element)
        if node is None:
            parent = self._node(element.parent) if element.parent else self._whole
            node = _Node(element, self._file.reserve(), parent.number)
            parent.nodes.append(node)
            parent.kids.append(b"%d 0 R" % node.number)
            self._nodes[element] = node
        return node

    def _put(self, node: _Node) -> None:
        element = node.element
        entries = [b"/S /%b /P %d 0 R" % (element.role.encode(), node.parent)]
        if node.page:
            entries.append(b"/Pg %d 0 R" % node.page)
        if element.alternative:
            entries.append(b"/Alt %b" % text_string(element.alternative))
        if attributes := _attributes(node):
            entries.append(b"/A << %b >>" % attributes)
        entries.append(b"/K [%b]" % b" ".join(node.kids))
        self._file.put(b"<< /Type /StructElem %b >>" % b" ".join(entries), node.number)


def _square(table: _Node) -> None:
    """Let the last cell of a short row span the columns that are left of its table."""
    rows = [line.nodes for line in table.nodes if line.nodes]
    widest = max((len(cells) for cells in rows), default=0)
    for cells in rows:
        cells[-1].span = 1 + widest - len(cells)


def _attributes(node: _Node) -> bytes:
    if node.box is not None:
        return b"/O /Layout /Placement /Block /BBox [%.2f %.2f %.2f %.2f]" % node.box
    if node.element.role not in ("TH", "TD"):
        return b""
    scope = b" /Scope /%b" % node.element.scope.encode() if node.element.role == "TH" else b""
    span = b" /ColSpan %d" % node.span if node.span > 1 else b""
    return b"/O /Table%b%b" % (scope, span) if scope or span else b""
