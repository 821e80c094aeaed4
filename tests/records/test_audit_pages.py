"""An audit looks after pages of persons and terms, and lets no file go while anything is lost."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

import pytest

from provenance.model.custody import CustodyEvent
from provenance.model.instruction import Instruction
from provenance.records.audit import audit
from provenance.records.checks.finding import KEEP, Level
from provenance.records.checks.shape import guards
from provenance.records.private import Contacts
from provenance.records.private_folder import overwriting
from provenance.records.register import Register
from provenance.records.terms import Terms, TermsBook
from tests.studios import WHO, clock, enter, furnish, new_register, release, revise, sheet


@dataclass
class Studio:
    """A studio with one print that was sold on terms, and an assistant who may print; closed."""

    folder: Path
    sale: int
    wish: int
    buyer: str
    assistant: str
    terms: str

    def page(self, which: str) -> Path:
        """The file of a page."""
        key = getattr(self, which)
        return self.folder / ("private/terms" if which == "terms" else "contacts") / f"{key}.json"

    def found(self, level: Level) -> list[str]:
        """What an audit finds, as it is shown."""
        return [str(f.problem) for f in audit(self.folder).findings if f.level == level]


@pytest.fixture
def studio(folder: Path) -> Studio:
    book = Contacts(folder)
    with new_register(folder) as register:
        with register.act(WHO) as act:
            one = act.enter(sheet(furnish(act), "1", designation="1/25"))
        buyer, assistant = book.add(name="A. Collector"), book.add(name="B. Assistant")
        terms, keep = TermsBook(folder).prepare(Terms(price="900 guineas", place="the north wall"))
        keep()
        sale = enter(register, release(one, event="sold", party=buyer, terms=terms))
        said = Instruction(topic="print", words="As she does.", person=assistant, given_on="2031")
        wish = enter(register, said)
    return Studio(folder, sale, wish, buyer, assistant, terms)


def test_pages_in_order(studio: Studio) -> None:
    assert audit(studio.folder).findings == ()


def cut(data: bytes) -> bytes:
    """Half of a file."""
    return data[: len(data) // 2]


def other(data: bytes) -> bytes:
    """A page that says something else."""
    return data.replace(b"900", b"100").replace(b"Collector", b"Collecter")


@pytest.mark.parametrize("spoil", [cut, other])
@pytest.mark.parametrize(
    ("which", "told"), [("buyer", "is not the one that was entered"), ("terms", "not what was")]
)
def test_a_page_that_was_altered_is_damage(
    studio: Studio, which: str, told: str, spoil: Callable[[bytes], bytes]
) -> None:
    page = studio.page(which)
    page.write_bytes(spoil(page.read_bytes()))
    (line,) = studio.found("damage")
    assert told in line
    assert page.stem[:12] in line
    assert "bring it back from a backup" in line
    assert studio.found("note") == []


@pytest.mark.parametrize(
    ("which", "told"),
    [
        ("buyer", "custody #{sale}: its page in the contact book was erased, or is missing"),
        ("terms", "custody #{sale}: its page of terms was erased, or is missing"),
        ("assistant", "instruction #{wish}: its page in the contact book was erased"),
    ],
)
def test_a_page_that_is_missing_is_a_note(studio: Studio, which: str, told: str) -> None:
    page = studio.page(which)
    page.write_bytes(overwriting(page.stat().st_size))
    missing = told.format(sale=studio.sale, wish=studio.wish)
    first, second = studio.found("note")
    assert first.startswith(missing)
    half = page.relative_to(studio.folder)
    assert second.startswith(f"{half} was being erased by a program that was ended")
    page.unlink()
    (line,) = studio.found("note")
    assert line.startswith(missing)
    assert not audit(studio.folder).damaged


def test_a_page_that_no_entry_names_is_told(studio: Studio) -> None:
    """As a command leaves it that was killed after it had kept its pages."""
    key = Contacts(studio.folder).add(name="C. Nobody")
    terms, keep = TermsBook(studio.folder).prepare(Terms(price="1 guinea"))
    keep()
    assert not audit(studio.folder).damaged
    assert studio.found("note") == [
        f"no record speaks of the page {key[:12]}… of the contact book; unless it is kept for"
        f" later, it may be erased: `provenance erase {key[:12]}`, or all of this sort:"
        " `provenance erase --unnamed --contacts`",
        f"no record speaks of private/terms/{terms}.json; it may be erased, with all of this sort:"
        " `provenance erase --unnamed`",
    ]


def test_many_pages_that_no_entry_names_are_counted_by_their_sort(studio: Studio) -> None:
    for number in range(25):
        Contacts(studio.folder).add(name=f"Nobody {number}")
        for price in ("1 guinea", "2 guineas"):
            _terms, keep = TermsBook(studio.folder).prepare(Terms(price=price))
            keep()
    told = studio.found("note")
    assert len(told) == 42
    assert [one for one in told if " more page" in one] == [
        "no record speaks of 5 more pages of the contact book; unless any is kept for later, they"
        " may be erased: `provenance erase --unnamed --contacts`",
        "no record speaks of 30 more pages of terms; they may be erased:"
        " `provenance erase --unnamed`",
    ]


def test_a_page_of_what_was_corrected_or_voided_is_spoken_of(studio: Studio) -> None:
    with Register.open(studio.folder, clock=clock()) as register:
        revise(register, studio.sale, party=None, terms=None)
        held = register.read.get(CustodyEvent, studio.sale)
        with register.act(WHO) as act:
            act.void(held.id, held.version, "it was another print")
    assert audit(studio.folder).findings == ()


def lose_the_end(folder: Path) -> None:
    """Take the last two entries off, as an old copy of the register would lack them."""
    with closing(sqlite3.connect(folder / "register.db")) as other:
        other.execute("DROP TRIGGER journal_is_never_cut")
        other.execute("DELETE FROM journal WHERE seq > (SELECT max(seq) - 2 FROM journal)")
        other.execute(guards()["journal_is_never_cut"])
        other.commit()


def lose_the_end_and_its_witness(folder: Path) -> None:
    """The same, after `head` was moved away."""
    lose_the_end(folder)
    (folder / "head").unlink()


def spoil_a_page(folder: Path) -> None:
    """One page of a person becomes another."""
    (page, *_) = (folder / "contacts").glob("*.json")
    page.write_bytes(b"{}")


@pytest.mark.parametrize("amiss", [lose_the_end, lose_the_end_and_its_witness, spoil_a_page])
def test_nothing_may_be_deleted_while_anything_is_lost(
    studio: Studio, amiss: Callable[[Path], None]
) -> None:
    """A certificate that no record speaks of may be all that is left of one."""
    for place in ("certificates", "images"):
        (studio.folder / place).mkdir(exist_ok=True)
        (studio.folder / place / "DR-1.pdf").write_bytes(b"%PDF")
        (studio.folder / place / f".DR-1.pdf.{'0a' * 8}.part").write_bytes(b"%PDF")
    (studio.folder / f".register.before-2.db.{'0b' * 8}.part").write_bytes(b"")
    fine = studio.found("note")
    assert len(fine) == 5
    assert all("may be deleted" in line for line in fine)
    amiss(studio.folder)
    left = [line for line in studio.found("note") if "no record" in line or "was left by" in line]
    assert len(left) >= 5
    assert all(line.endswith(KEEP) for line in left)
    assert not any("may be deleted" in line or "may be erased" in line for line in left)


def test_of_many_files_too_none_may_go(studio: Studio) -> None:
    (studio.folder / "images").mkdir()
    for number in range(150):
        (studio.folder / "images" / f"{number}.jpg").write_bytes(b"")
    lose_the_end(studio.folder)
    rest = [line for line in studio.found("note") if line.startswith("and 50 more")]
    assert rest == [f"and 50 more of this sort; {KEEP}"]
