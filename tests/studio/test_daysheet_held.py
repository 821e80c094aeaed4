"""Day sheets about people, beginnings, numbers that change places, and where prints go."""

from pathlib import Path

import pytest

from provenance.errors import Problem, Refused
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.prints import Print
from provenance.records.dossier import print_history
from provenance.records.private import Contacts
from provenance.records.private_folder import PrivateFolder
from provenance.records.reader import Reader
from provenance.records.terms import TermsBook
from provenance.studio.custody import custody_of
from provenance.studio.drawer import view_edition
from provenance.studio.references import resolve_as, resolve_print
from tests.studio.sheets import Desk, open_desk, print_id

NUMBERED = '[[number]]\nedition = "QUAY"\nsheets = ["Q1", "Q2", "Q3"]\nfirst = "1/25"\n'


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A studio whose three sheets bear numbers."""
    held = open_desk(tmp_path)
    held.enter(NUMBERED)
    return held


def reader(desk: Desk) -> Reader:
    return desk.folder.open().read


def test_numbers_change_places_until_a_print_leaves(desk: Desk) -> None:
    desk.enter('[[sign]]\nprints = ["QUAY 1/25"]\n')
    before = print_history(reader(desk), print_id(reader(desk), "QUAY Q1"))
    desk.enter('[[number]]\nedition = "QUAY"\nsheets = ["Q3", "Q1", "Q2"]\nfirst = "1/25"\n')
    read = reader(desk)
    marks = {resolve_print(read, f"QUAY {n}/25").body.mark: n for n in (1, 2, 3)}
    assert marks == {"Q3": 1, "Q1": 2, "Q2": 3}
    after = print_history(read, print_id(read, "QUAY Q1"))
    assert after.print.body.signature == before.print.body.signature
    desk.enter('[[release]]\nprints = ["QUAY 1/25"]\n')
    (told,) = desk.refused('[[number]]\nedition = "QUAY"\nsheets = ["Q3"]\nfirst = "9/25"\n')
    assert told.what == "it was released as 1/25"


def test_one_page_for_one_name(desk: Desk) -> None:
    sale = '[[custody]]\nprints = ["QUAY {n}/25"]\nevent = "sold"\nto = "One Buyer"\n'
    desk.enter(sale.format(n=1) + sale.format(n=2))
    desk.enter(sale.format(n=3).replace("One Buyer", "one buyer"))
    book = Contacts(desk.folder.path)
    assert [page.name for _key, page in book.list()] == ["One Buyer"]
    key = book.add(name="One Buyer", place="Elsewhere")
    back = '[[custody]]\nprints = ["QUAY 3/25"]\nevent = "returned"\nfrom = "{who}"\n'
    (told,) = desk.refused(back.format(who="One Buyer"))
    assert told.what == "2 pages of the contact book bear that name"
    assert (told.record, told.field) == ("custody 1", "from")
    (told,) = desk.refused(back.format(who=key))
    assert "never had it" in told.what
    assert told.record == "QUAY 3/25"


def test_terms_stay_out_of_the_journal(desk: Desk) -> None:
    desk.enter(
        '[[custody]]\nprints = ["QUAY 1/25"]\nevent = "consigned"\nto = "Rooms"\nuntil = "2032"\n'
        'price = "1234 guineas"\nplace = "the blue room"\nconditions = "half each"\n'
        'condition = "a nick, lower left"\n'
    )
    read = reader(desk)
    seen = custody_of(read, desk.folder, print_id(read, "QUAY 1/25"), private=True)
    assert seen.steps[0].terms == "1234 guineas; the blue room; half each"
    (finish,) = read.all(Finish)
    assert finish.body.condition is not None
    assert finish.body.condition.occasion == "going out"
    journal = b"".join(data for _seq, data, _digest in read.entries())
    assert all(one not in journal for one in (b"guineas", b"blue room", b"half each", b"Rooms"))


def test_terms_that_were_altered_are_not_shown(desk: Desk) -> None:
    desk.enter('[[custody]]\nprints = ["QUAY 1/25"]\nevent = "sold"\nprice = "10 USD"\n')
    (page,) = (desk.folder.path / "private" / "terms").glob("*.json")
    page.write_text(page.read_text().replace("10 USD", "90 USD"))
    read = reader(desk)
    seen = custody_of(read, desk.folder, print_id(read, "QUAY 1/25"), private=True)
    assert seen.steps[0].terms == "terms not legible"
    assert TermsBook(desk.folder.path).erase(page.stem)
    seen = custody_of(read, desk.folder, print_id(read, "QUAY 1/25"), private=True)
    assert seen.steps[0].terms == "terms erased, or left out of this copy"


def test_a_sheet_whose_pages_cannot_all_be_kept_leaves_none(
    desk: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last of three pages finds no room: the act is refused, and nobody stays in the book."""
    written: list[str] = []
    write = PrivateFolder.write

    def third_is_refused(folder: PrivateFolder, name: str, data: bytes) -> None:
        written.append(name)
        if len(written) == 3:
            raise Refused(Problem("the disk is full", name))
        write(folder, name, data)

    monkeypatch.setattr(PrivateFolder, "write", third_is_refused)
    before = desk.files()
    sale = 'event = "sold"\nto = "N. N."\nprice = "900 EUR"\n'
    more = '[[contact]]\nname = "M. M."\n[[custody]]\nprints = ["QUAY 1/25"]\n'
    (told,) = desk.refused(more + sale)
    assert told.what == "the disk is full"
    assert len(written) == 3
    assert desk.files() == before


def test_nothing_of_a_refused_sheet_is_left_beside_the_register(desk: Desk) -> None:
    before = desk.files()
    desk.refused('[[custody]]\nprints = ["QUAY 1/25"]\nevent = "returned"\nprice = "1 EUR"\n')
    desk.enter('[[contact]]\nname = "N. N."\n[[sign]]\nprints = ["QUAY 1/25"]\n', rehearse=True)
    assert desk.files() == before


def test_what_was_there_before_the_records(desk: Desk) -> None:
    opening = '[[opening]]\nedition = "QUAY"\nnumbers = ["10", "AP I"]\nprinted = "199X"\n'
    desk.enter(opening)
    read = reader(desk)
    held = resolve_print(read, "QUAY 10")
    assert (held.body.designation, held.body.mark, held.body.opening) == ("10/25", "", True)
    where = custody_of(read, desk.folder, held.id, private=False)
    assert (where.where.where, where.line) == ("unknown", "Whereabouts unknown.")
    taken = '[[number]]\nedition = "QUAY"\nsheets = ["Q1"]\nfirst = "10/25"\n'
    (told,) = desk.refused(taken)
    assert told.what.startswith("10/25 is taken by the print marked 10/25")
    view = view_edition(read, resolve_as(read, Edition, "QUAY"))
    assert {one.name: one.state for one in view.declared if one.record} == {
        "1": "w",
        "2": "w",
        "3": "w",
        "10": "r",
        "AP I": "r",
    }


def test_a_replacement_by_a_day_sheet(desk: Desk) -> None:
    torn = '[[gone]]\nprint = "QUAY 1/25"\nhow = "destroyed"\non = 2031-05-20\nwhy = "torn"\n'
    new = '[[printing]]\nedition = "QUAY"\nsheets = ["Q9"]\n'
    swap = '[[replace]]\nformer = "QUAY 1/25"\nsheet = "QUAY Q9"\n'
    (told,) = desk.refused(torn + new + swap)
    assert told.what.startswith("nothing on record shows that print Q1")
    desk.enter(torn + 'evidence = "the pieces are in box 3"\n' + new + swap)
    read = reader(desk)
    assert resolve_print(read, "QUAY 1/25").body.mark == "Q9"
    former = read.get(Print, print_id(read, "QUAY Q1"))
    assert custody_of(read, desk.folder, former.id, private=False).line == (
        "The artist; destroyed 2031-05-20."
    )


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ('[[describe]]\nprints = ["QUAY 1/25"]\n', "prints have features"),
        ('[[describe]]\nsubject = "a slip"\n', "prints have features"),
        ('[[promise]]\nedition = "QUAY"\nreason = "none"\n', "nothing would change"),
        ('[[promise]]\nedition = "QUAY"\nreason = "less"\nnumbered = 2\n', "3/25 exists already"),
        ('[artist]\ndied = "2040"\n', "2040 is still to come"),
        ('[[close]]\nedition = "NOPE"\n', "there is no edition NOPE"),
        ('[[opening]]\nedition = "QUAY"\nnumbers = ["1"]\nprinted = "199X"\n', "1/25 is taken"),
    ],
)
def test_mistakes(desk: Desk, text: str, what: str) -> None:
    assert any(problem.what.startswith(what) for problem in desk.refused(text))
