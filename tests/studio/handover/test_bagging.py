"""A bag is valid, says what it leaves out, names no person, and an archive's comes back whole."""

import csv
import json
import sqlite3
import subprocess
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import bagit
import msgspec
import pytest
import rdflib
from csvw import CSVW, TableGroup

from provenance.errors import NewerRegister, NotFound, Refused
from provenance.model.studio import Studio
from provenance.records.audit import audit
from provenance.records.private import Contacts, Drafts
from provenance.records.terms import Terms, TermsBook
from provenance.studio.certifying.certify import certify
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.bagging import Bagged, make_bag
from provenance.studio.handover.exporting import FORMATS, export
from provenance.studio.handover.levels import LEVELS
from provenance.studio.handover.restore import restore
from tests.studio.finished import desk
from tests.studio.handover.vocabulary import (
    CRM,
    import_cromulent,
    lost_keys,
    published_context,
    triples,
)
from tests.studios import (
    WHO,
    clock,
    edition,
    enter,
    match_report,
    negative,
    reading,
    release,
    sheet,
)
from tests.tools import need

PERSON = {"name": "Xqada Xqcollector", "address": "Xqlane 5", "email": "xqada@example.org"}
TERMS = Terms(price="Xqnine-hundred", place="Xqvenice", conditions="Xqframe")
PRIVATE = (
    "Xqada",
    "Xqcollector",
    "Xqlane",
    "xqada@",
    "Xqnine-hundred",
    "Xqvenice",
    "Xqframe",
    "Xqdraft",
)
WORKING = ("=HYPERLINK", "Xqwho", "Xqsheet", "Xqformer", "2031-05-17", "Xqseen")
"""What is on record and is not for anybody: an inscription, a name, marks, how a print ended."""


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> StudioFolder:
    """A studio with a certified print that was sold, private pages, and a second edition."""
    held = desk(tmp_path_factory.mktemp("bag") / "studio", inscriptions='=HYPERLINK("x")')
    folder = held.folder.path
    certify(held.register, held.folder, held.print)
    Contacts(folder).add(name="Somebody Xqelse")
    party = Contacts(folder).add(**PERSON)
    terms, keep = TermsBook(folder).prepare(TERMS)
    keep()
    Drafts(folder).put("note", '"Xqdraft"')
    (folder / "private" / "key").mkdir(parents=True, exist_ok=True)
    (folder / "private" / "key" / "studio.key.pem").write_text("Xqlocked")
    enter(held.register, release(held.print, event="sold", party=party, terms=terms))
    other = enter(held.register, negative(code="N-2", title="Rope"))
    second = enter(held.register, edition(other, code="ROPE", name="Rope"))
    with held.register.act("Xqwho") as act:
        act.enter(sheet(held.shelf, "Xqsheet", edition=4))
        end = {"existence": "destroyed", "gone_on": "2031-05-17", "gone_evidence": "Xqseen"}
        former = act.enter(sheet(held.shelf, "Xqformer", designation="3/25", **end))
        act.enter(sheet(held.shelf, "Xqsheet 2", designation="3/25", replaces=former))
    assert second
    held.register.close()
    return held.folder


@pytest.fixture(scope="module")
def bags(studio: StudioFolder, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Bagged]:
    """A bag of every level, of the studio and of one edition."""
    room = tmp_path_factory.mktemp("bags")
    return {
        f"{level} {code}".strip(): make_bag(
            studio, room / f"{level}{code}", level, edition=code, clock=clock()
        )
        for level in LEVELS
        for code in ("", "QUAY")
    }


ALL = [f"{level} {code}".strip() for level in LEVELS for code in ("", "QUAY")]


@pytest.mark.parametrize("which", ALL)
def test_a_bag_is_valid_by_the_reference_library_and_by_common_tools(
    bags: dict[str, Bagged], which: str
) -> None:
    bagit.Bag(str(bags[which].path)).validate()
    for tool in ("sha256sum", "sha512sum"):
        for kind in ("manifest", "tagmanifest"):
            file = f"{kind}-{tool.removesuffix('sum')}.txt"
            subprocess.run([tool, "-c", "--quiet", file], cwd=bags[which].path, check=True)


@pytest.mark.parametrize("which", ALL)
def test_no_person_price_or_place_is_in_a_bag_that_is_not_sealed(
    bags: dict[str, Bagged], which: str
) -> None:
    found = _found(bags[which].path, PRIVATE)
    # of one edition, the persons and terms of its moves; a private note is of none
    sealed = {"sealed": set(PRIVATE), "sealed QUAY": set(PRIVATE) - {"Xqdraft"}}
    assert found == sealed.get(which, set())
    assert _found(bags[which].path, ("Xqlocked",)) == set(), "the key is in no bag"


def test_exports_name_no_person_price_or_place(studio: StudioFolder, tmp_path: Path) -> None:
    for form in FORMATS:
        assert export(studio, tmp_path / form, form) > 1
        assert _found(tmp_path / form, PRIVATE) == set()
    assert _found(tmp_path / "csv", WORKING) == set(WORKING), "or the search would find nothing"


@pytest.mark.parametrize("which", ["public", "public QUAY"])
def test_what_is_only_for_the_studio_is_in_no_public_bag(
    bags: dict[str, Bagged], which: str
) -> None:
    path = bags[which].path
    assert _found(path, WORKING) == set()
    names = {str(one.relative_to(path)) for one in path.rglob("*")}
    assert not any("journal" in name or "register" in name for name in names)
    assert not any(name.endswith(".pdf") for name in names)


def test_a_sealed_bag_of_an_edition_names_nobody_else(
    bags: dict[str, Bagged], studio: StudioFolder
) -> None:
    path = bags["sealed QUAY"].path / "data"
    (page,) = (path / "contacts").iterdir()
    assert page.stem in (path / "tables" / "custody.csv").read_text()
    assert len(Contacts(studio.path).list()) == 2


@pytest.mark.parametrize("which", ALL)
def test_the_page_on_checking_by_hand_works_as_it_stands(
    bags: dict[str, Bagged], which: str
) -> None:
    for tool in ("bash", "sqlite3", "sha512sum"):
        need(tool)
    path = bags[which].path
    lines = (path / "data" / "HOW-TO-CHECK.txt").read_text().splitlines()
    script = "\n".join(line[4:] for line in lines if line.startswith("    "))
    ran = subprocess.run(
        ["bash", "-euo", "pipefail"],
        cwd=path,
        input=script,
        capture_output=True,
        text=True,
        check=True,
    )
    assert not ran.stderr
    told = [line for line in ran.stdout.splitlines() if not line.endswith(": OK")]
    info = dict(line.split(": ", 1) for line in (path / "bag-info.txt").read_text().splitlines())
    files = str(bags[which].files)
    assert told[:2] == [files, files] == [info["Payload-Oxum"].partition(".")[2]] * 2
    assert ("Journal-Head-SHA256" in info) == bags[which].restorable
    if bags[which].restorable:
        assert told[3] == f'"previous":"{told[2].split()[0]}"'
        assert told[4] == info["Journal-Head-SHA256"], "and no line that does not follow"
    pages = [line.split() for line in told if "/contacts/" in line or "/terms/" in line]
    assert bool(pages) == which.startswith("sealed")
    assert all(Path(name).stem == mark for mark, name in pages)


@pytest.mark.parametrize("which", ALL)
def test_a_bag_says_what_it_leaves_out(bags: dict[str, Bagged], which: str) -> None:
    page = " ".join((bags[which].path / "data" / "README.txt").read_text().split())
    assert bags[which].left_out
    for one in bags[which].left_out:
        assert one in page
    assert ("the journal and the register" in page) == which.startswith("public")


@pytest.mark.parametrize("which", ["archive", "sealed"])
def test_a_studio_restored_from_its_bag_audits_equal(
    bags: dict[str, Bagged], studio: StudioFolder, tmp_path: Path, which: str
) -> None:
    restored = restore(bags[which].path, tmp_path / "new")
    before = restore_nothing(studio)
    assert (restored.report.entries, restored.report.head) == before[:2]
    assert not restored.report.damaged
    if which == "sealed":
        assert restored.report.findings == audit(studio.path).findings
    else:
        told = {finding.level for finding in restored.report.findings}
        assert told == {"note"}, "only that the pages of persons are not there"


def restore_nothing(studio: StudioFolder) -> tuple[int, str, bool]:
    """What an audit says of the studio itself."""
    report = audit(studio.path)
    return report.entries, report.head, report.damaged


@pytest.mark.parametrize("which", ["public", "archive QUAY"])
def test_a_bag_in_part_restores_no_studio(
    bags: dict[str, Bagged], tmp_path: Path, which: str
) -> None:
    with pytest.raises(Refused, match="holds no register"):
        restore(bags[which].path, tmp_path / "new")


def test_a_bag_of_an_edition_holds_that_edition_alone(bags: dict[str, Bagged]) -> None:
    path = bags["archive QUAY"].path
    assert _found(path, ("ROPE", "N-2")) == set()
    assert _found(path, ("QUAY",)) == {"QUAY"}
    assert list(path.glob("data/certificates/*.pdf"))
    for line in (path / "data" / "entries.jsonl").read_bytes().splitlines():
        assert json.loads(line)["kind"]


def test_the_journal_is_a_chain_line_by_line(bags: dict[str, Bagged]) -> None:
    import hashlib

    lines = (bags["archive"].path / "data" / "journal.jsonl").read_bytes().splitlines()
    marks = [hashlib.sha256(line).hexdigest() for line in lines]
    assert [json.loads(line)["previous"] for line in lines[1:]] == marks[:-1]
    info = (bags["archive"].path / "bag-info.txt").read_text()
    assert f"Journal-Head-SHA256: {marks[-1]}" in info


@pytest.mark.parametrize("which", ["public", "archive"])
def test_the_tables_are_as_their_description_says(bags: dict[str, Bagged], which: str) -> None:
    file = bags[which].path / "data" / "tables" / "csv-metadata.json"
    assert CSVW(str(file), validate=True).is_valid
    group = TableGroup.from_file(file)
    assert all(table.check_primary_key() for table in group.tables)
    tables = {table.url.string: list(table) for table in group.tables}
    assert [row["code"] for row in tables["editions.csv"]] == ["QUAY", "ROPE"]
    (held,) = [row for row in tables["prints.csv"] if row["designation"] == "7/25"]
    assert held["image_height_tenth_mm"] == 2400
    if which == "archive":
        assert held["inscriptions"] == '\'=HYPERLINK("x")'


@pytest.mark.parametrize("which", ["public", "archive"])
def test_each_print_is_linked_art(bags: dict[str, Bagged], which: str) -> None:
    files = sorted((bags[which].path / "data" / "linked-art").glob("*.json"))
    assert len(files) == (3 if which == "public" else 4)
    context = published_context()
    for file in files:
        document = json.loads(file.read_text(encoding="utf-8"))
        assert {"@context", "id", "type", "_label"} <= document.keys()
        assert lost_keys(document, context) == set()
        # refuses what a class has not, and values out of range
        import_cromulent().Reader().read(json.loads(file.read_text(encoding="utf-8")))
        _check_shape(triples(document, context), rdflib.URIRef(document["id"]))


def _check_shape(graph: rdflib.Graph, it: rdflib.URIRef) -> None:
    """What a print has, by our own shape: one production in time, two sides, a primary name."""
    aat = rdflib.Namespace("http://vocab.getty.edu/aat/")
    assert (it, rdflib.RDF.type, CRM["E22_Human-Made_Object"]) in graph
    assert (it, CRM.P2_has_type, aat["300128695"]) in graph
    (made,) = graph.objects(it, CRM.P108i_was_produced_by)
    (span,) = graph.objects(made, CRM["P4_has_time-span"])
    begins, ends = (
        graph.value(span, CRM[f"P82{side}"])
        for side in ("a_begin_of_the_begin", "b_end_of_the_end")
    )
    assert str(begins) < str(ends)
    sides = list(graph.objects(it, CRM.P43_has_dimension))
    assert {graph.value(side, CRM.P2_has_type) for side in sides} == {
        aat["300055644"],
        aat["300055647"],
    }
    names = list(graph.objects(it, CRM.P1_is_identified_by))
    assert aat["300404670"] in {graph.value(name, CRM.P2_has_type) for name in names}


def test_a_key_that_linked_art_has_not_would_be_found() -> None:
    context = published_context()
    document = {"type": "HumanMadeObject", "id": "urn:x", "printed_by": {"type": "Person"}}
    assert lost_keys(document, context) == {"printed_by"}
    with pytest.raises(Exception, match="printed_by"):
        import_cromulent().Reader().read(document)


def test_the_events_are_provenance(bags: dict[str, Bagged]) -> None:
    prov = rdflib.Namespace("http://www.w3.org/ns/prov#")
    counts = {}
    for which in ("public", "archive"):
        document = json.loads((bags[which].path / "data" / "events.jsonld").read_text("utf-8"))
        graph = triples(document)
        entities = set(graph.subjects(rdflib.RDF.type, prov.Entity))
        generated = set(graph.objects(None, prov.generated))
        assert generated == entities, "every print was printed"
        for event in graph.subjects(rdflib.RDF.type, prov.Activity):
            assert graph.value(event, rdflib.RDFS.label)
        counts[which] = len(list(graph.subjects(rdflib.RDF.type, prov.Activity)))
    assert counts["archive"] > counts["public"] >= 2


def test_nothing_is_written_over_and_an_unknown_edition_is_told(
    studio: StudioFolder, tmp_path: Path
) -> None:
    with pytest.raises(NotFound, match="no edition NONE"):
        make_bag(studio, tmp_path / "bag", "archive", edition="NONE", clock=clock())
    assert list(tmp_path.iterdir()) == []
    (tmp_path / "taken").write_text("mine")
    for made in (
        lambda: make_bag(studio, tmp_path / "taken", "archive", clock=clock()),
        lambda: export(studio, tmp_path / "taken", "csv"),
    ):
        _refused(made)
    assert (tmp_path / "taken").read_text() == "mine"


def _refused(made: Callable[[], object]) -> None:
    with pytest.raises(Refused, match="stands there already"):
        made()


def _found(path: Path, words: tuple[str, ...]) -> set[str]:
    """Which of `words` lie anywhere in the files below `path`, or in their names."""
    held = b"\n".join(
        str(one.relative_to(path)).encode() + (one.read_bytes() if one.is_file() else b"")
        for one in path.rglob("*")
    )
    return {word for word in words if word.encode() in held}


def test_a_name_of_more_lines_than_one_makes_one_line_of_what_a_bag_says(
    tmp_path: Path,
) -> None:
    held = desk(tmp_path / "studio")
    stored = held.register.read.get(Studio, 1)
    with held.register.act(WHO) as act:
        act.change(
            1, stored.version, msgspec.structs.replace(stored.body, name="Line one\nLevel: sealed")
        )
    held.register.close()
    made = make_bag(held.folder, tmp_path / "bag", "public", clock=clock())
    lines = (made.path / "bag-info.txt").read_text().splitlines()
    assert "Source-Organization: Line one Level: sealed" in lines
    assert [line for line in lines if line.startswith("Level:")] == ["Level: public"]


def test_a_bag_among_the_studios_own_files_holds_nothing_of_itself(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio")
    held.register.close()
    made = make_bag(held.folder, tmp_path / "studio" / "images" / "x", "archive", clock=clock())
    assert len(list((made.path / "data" / "studio" / "images").iterdir())) == 1
    bagit.Bag(str(made.path)).validate()


def test_the_studio_of_a_later_release_is_restored_and_told(tmp_path: Path) -> None:
    held = desk(tmp_path / "studio")
    held.register.close()
    made = make_bag(held.folder, tmp_path / "bag", "archive", clock=clock())
    register = made.path / "data" / "studio" / "register.db"
    with closing(sqlite3.connect(register)) as other:
        other.execute("PRAGMA user_version = 99")
    bag = bagit.Bag(str(made.path))
    bag.save(manifests=True)
    with pytest.raises(NewerRegister, match="it is restored, but the register is of form 99"):
        restore(made.path, tmp_path / "new")
    assert (tmp_path / "new" / "register.db").read_bytes() == register.read_bytes()


def test_a_bag_of_an_edition_says_nothing_of_a_print_that_one_of_it_was_held_against(
    tmp_path: Path,
) -> None:
    held = desk(tmp_path / "studio")
    register = held.register
    other = enter(register, edition(held.shelf.negative, code="XQBIG", name="Xqbig"))
    seen = enter(register, sheet(replace(held.shelf, edition=other), "Xqunseen"))
    mine = enter(register, reading(held.print))
    theirs = enter(register, reading(seen, note="Xqnote"))
    enter(register, match_report(held.print, seen, mine, theirs))
    register.close()
    made = make_bag(held.folder, tmp_path / "bag", "archive", edition="QUAY", clock=clock())
    assert _found(made.path, ("Xqunseen", "XQBIG", "Xqnote")) == set()
    table = (made.path / "data" / "tables" / "matches.csv").read_text()
    (row,) = csv.DictReader(table.splitlines())
    assert (row["print"], row["reference"]) == ("QUAY 7/25", f"#{seen}")
