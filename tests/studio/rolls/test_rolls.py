"""Edition lists and heir's pages: what they say, to whom, and what they keep to themselves."""

from dataclasses import dataclass
from itertools import chain
from pathlib import Path

import pytest
from msgspec.structs import replace

from provenance.craft.roll import Facts, Roll, Says
from provenance.documents.roll import draw_roll
from provenance.errors import Refused
from provenance.model.edition import Edition
from provenance.model.instruction import Instruction
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.private import Contacts
from provenance.records.private_folder import overwriting
from provenance.records.register import Register
from provenance.records.terms import Terms, TermsBook
from provenance.resources import resource
from provenance.studio.editions.promise import change_promise
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.ring import make_key, retire_key
from provenance.studio.rolls.held import runs
from provenance.studio.rolls.paper import proposed_name, write_roll
from provenance.studio.rolls.text import as_data, as_lines
from provenance.studio.rolls.view import edition_list, heirs_page
from provenance.studio.rolls.words import read_words
from tests import studios
from tests.studios import enter, release, revise, sheet, signature

PERSON = "Ottoline Farrowby"
ADDRESS = "3 Ropewalk Lane"


@dataclass
class Lists:
    """A studio with prints in every state, and what is read of it."""

    folder: StudioFolder
    register: Register
    edition: int
    prints: dict[str, int]

    def listed(self, *, full: bool) -> Roll:
        """The list of its edition."""
        read = self.register.read
        held = read.get(Edition, self.edition)
        return edition_list(read, self.folder, held, self.register.clock(), full=full)

    def heir(self, *, whole: bool = False) -> Roll:
        """The heir's page."""
        read = self.register.read
        held = None if whole else read.get(Edition, self.edition)
        return heirs_page(read, self.folder, held, self.register.clock())


def part(roll: Roll, heading: str) -> list[str]:
    """The lines of a part, cells with a bar between them."""
    found: list[str] = []
    for body in chain(*(p.body for c in roll.chapters for p in c.parts if p.heading == heading)):
        if isinstance(body, Says):
            found += [text for text, _known in body.sentences]
        elif isinstance(body, Facts):
            found += [f"{label}: {value}" for label, value in body.pairs]
        else:
            found += ["|".join(row) for row in body.rows]
    return found


@pytest.fixture
def lists(tmp_path: Path) -> Lists:
    """Released, certified, destroyed and replaced, lent, and bare sheets."""
    folder = StudioFolder(tmp_path / "studio")
    register = studios.new_register(folder.path)
    with register.act(studios.WHO) as act:
        shelf = studios.furnish(act)
        prints = {
            mark: act.enter(sheet(shelf, mark, designation=number, signature=signature()))
            for mark, number in (("Q1", "1/25"), ("Q2", "2/25"), ("Q3", "3/25"), ("Q4", "AP I/II"))
        }
        prints["Q5"] = act.enter(sheet(shelf, "Q5"))
    person = Contacts(folder.path).add(name=PERSON, address=ADDRESS)
    enter(register, release(prints["Q1"], party=person))
    terms, keep = TermsBook(folder.path).prepare(Terms(conditions="behind glass"))
    keep()
    lent = release(prints["Q4"], event="lent", party=person, until="2032-01-31", terms=terms)
    enter(register, lent)
    enter(register, studios.certificate(register, prints["Q2"], b"%PDF-"))
    revise(
        register,
        prints["Q3"],
        existence="destroyed",
        gone_on="2031-05-01",
        gone_why="torn in the press",
        gone_evidence="the torn sheet was photographed",
    )
    again = sheet(shelf, "Q6", designation="3/25", replaces=prints["Q3"], signature=signature())
    prints["Q6"] = enter(register, again)
    return Lists(folder, register, shelf.edition, prints)


def test_every_impression_is_listed_and_what_is_left_to_print(lists: Lists) -> None:
    roll = lists.listed(full=True)
    said = part(roll, "Impressions")
    assert [line.split("|")[1] for line in said] == ["Q1", "Q2", "Q3", "Q6", "Q4", "Q5"]
    assert said[0] == f"1/25|Q1|2031-03-02|left the studio 2031-04-01, to {PERSON}|"
    assert said[1].split("|")[3:] == ["in the studio", "DR-" + said[1].rpartition("DR-")[2]]
    assert "destroyed 2031-05-01, replaced by Q6, torn in the press" in said[2]
    assert "the torn sheet was photographed" in said[2]
    assert "in the studio, replaces Q3" in said[3]
    assert f"lent 2031-04-01, to {PERSON}, until 2032-01-31" in said[4]
    assert part(roll, "Promise")[-1] == "To be printed: 4–25, AP II"


def test_the_form_for_buyers_keeps_to_itself_what_is_nobodys_business(lists: Lists) -> None:
    roll = lists.listed(full=False)
    said = "\n".join(as_lines(roll))
    for secret in (PERSON, ADDRESS, "Q1", "DR-", "2031-04-01", "lent", "torn", "2032"):
        assert secret not in said, secret
    assert part(roll, "Impressions")[:3] == [
        "1/25|2031-03-02|left the studio|",
        "2/25|2031-03-02|in the studio|certified",
        "3/25|2031-03-02|destroyed, replaced by a later print|",
    ]
    assert "beside the edition so far: 1" in part(roll, "Impressions")[-1]
    assert (roll.seal, "Full form" in lists.listed(full=True).seal) == ("", True)


def test_nothing_is_left_to_print_once_the_negative_or_the_edition_is_closed(lists: Lists) -> None:
    negative = lists.register.read.get(Edition, lists.edition).body.negative
    revise(lists.register, lists.edition, closed="2031-05-30", closed_why="the last was sold")
    assert part(lists.listed(full=False), "Promise")[-2:] == [
        "Closed: 30 May 2031. the last was sold",
        "To be printed: nothing: the edition is closed",
    ]
    revise(lists.register, lists.edition, verb="correct", closed=None, closed_why="")
    assert "closed: 2031-05-30, then –" in part(lists.listed(full=False), "Changed promises")[0]
    revise(lists.register, negative, state="destroyed", state_since="2031-05-20")
    roll = lists.heir()
    assert part(roll, "Promise")[-1] == "To be printed: nothing: the negative is destroyed"
    assert any(
        "No print may be made from negative N-1" in one for one in part(roll, "Must not be done")
    )
    assert not any("to be printed" in one for one in part(roll, "Still open"))


def test_a_changed_promise_is_shown_ever_after(lists: Lists) -> None:
    revise(lists.register, lists.edition, verb="correct", artist_proofs=3)
    (said,) = part(lists.listed(full=False), "Changed promises")
    assert said == "artist’s proofs: 2, then 3. it was written down wrongly"


def test_a_second_edition_is_named_with_how_it_is_disclosed(lists: Lists) -> None:
    negative = lists.register.read.get(Edition, lists.edition).body.negative
    other = studios.edition(negative, code="QUAY-S", numbered=40, disclosed="Buyers were told.")
    record = enter(lists.register, other)
    first = part(lists.listed(full=False), "Other editions")
    assert first == ["QUAY-S, Quay: 40 + 2 AP, image 24.0 × 30.0 cm"]
    lists.edition = record
    assert part(lists.listed(full=False), "Other editions")[-1] == "“Buyers were told.”"


def test_the_heir_is_told_what_is_open_away_wished_and_forbidden(
    lists: Lists, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PROVENANCE_PASSPHRASE", "a lantern on the quay")
    first = make_key(lists.folder)
    retire_key(lists.folder)
    second = make_key(lists.folder)
    wishes = (
        Instruction(topic="print", words="Nobody but my assistant.", given_on="2031-04-02"),
        Instruction(topic="must not", words="Never print it larger.", given_on="2031-04-02"),
    )
    enter(lists.register, *wishes)
    for whole in (False, True):
        roll = lists.heir(whole=whole)
        assert roll.seal
        said = part(roll, "Still open")
        assert "23 of the 27 declared are still to be printed: 4–25, AP II." in said
        assert "QUAY AP I/II is lent until 2032-01-31." in said
        assert "not on record whether sold, lent or consigned: QUAY 1/25" in said[-1]
        away = part(roll, "Away")
        assert f"QUAY AP I/II|lent 2031-04-01|{PERSON}, {ADDRESS}|2032-01-31|behind glass" in away
        assert part(roll, "May be done") == ["print: “Nobody but my assistant.”"]
        assert part(roll, "Must not be done")[0] == "“Never print it larger.”"
        keys = [one.replace(" ", "") for one in part(roll, "Keys")[:2]]
        assert keys == [second.fingerprint, first.fingerprint]
        assert len(part(roll, "Impressions")) == 6


def test_the_page_of_the_whole_studio_names_negatives_without_an_edition(lists: Lists) -> None:
    lost = studios.negative(code="N-9", title="Ferry", state="lost", state_since="2031-05-02")
    enter(lists.register, lost)
    assert part(lists.heir(whole=True), "Negatives") == [
        "N-1|Slipway|in use",
        "N-9|Ferry|lost since 2 May 2031",
    ]
    assert part(lists.heir(), "Negatives") == []


@pytest.mark.parametrize("which", ["contacts", "private/terms"])
def test_it_is_said_why_a_page_cannot_be_read(lists: Lists, which: str) -> None:
    """Erased for good, left out of a bag, spoiled: an heir is not told the one for the other."""
    pages = list((lists.folder.path / which).glob("*.json"))
    person = which == "contacts"

    def said() -> str:
        return "\n".join(as_lines(lists.heir()))

    spoilt = "a person whose page is not legible" if person else "terms that are not legible"
    gone = "a person whose page was erased" if person else "terms that were erased"
    absent = ("a person whose page is" if person else "terms") + (
        " not in this copy: erased, or left out of it"
    )
    assert not any(words in said() for words in (spoilt, gone, absent))
    for page in pages:
        page.write_bytes(page.read_bytes() + b"}")
    assert spoilt in said()
    for page in pages:
        page.write_bytes(overwriting(page.stat().st_size))
    assert gone in said()
    for page in pages:
        page.unlink()
    assert absent in said()
    assert not any(words in said() for words in (spoilt, gone))
    assert (PERSON in said()) is not person


def test_a_posthumous_print_is_said_to_be(lists: Lists) -> None:
    revise(lists.register, 1, died="2031-04-30")
    read = lists.register.read
    negative = read.get(Edition, lists.edition).body.negative
    printing = enter(lists.register, Printing(negative=negative, done_on="2031-05-10"))
    bare = read.get(Print, lists.prints["Q5"]).body
    late = replace(bare, mark="Q9", designation="9/25", printing=printing)
    enter(lists.register, late)
    said = part(lists.listed(full=False), "Impressions")
    assert "9/25|2031-05-10, posthumous|in the studio, not signed|" in said
    assert "2/25|2031-03-02|in the studio|certified" in said


@pytest.mark.parametrize("language", ["en", "fr"])
def test_both_languages_can_be_drawn(lists: Lists, language: str) -> None:
    lists.folder.settings.write_text(f'language = "{language}"\n', encoding="utf-8")
    for roll in (lists.listed(full=False), lists.heir(), lists.heir(whole=True)):
        assert draw_roll(roll).startswith(b"%PDF")
        assert "{" not in "\n".join(as_lines(roll))
    assert as_data(lists.listed(full=True))["full"] is True


def test_a_french_list_has_no_english_labels(lists: Lists) -> None:
    lists.folder.settings.write_text('language = "fr"\n', encoding="utf-8")
    edition = lists.register.read.get(Edition, lists.edition)
    with lists.register.act(studios.WHO) as act:
        change_promise(act, edition, "deux de plus", {"unnumbered": 2})
    said = part(lists.listed(full=True), "Promesse")
    assert next(one for one in said if one.startswith("Déclaré")).count("+ 2 sans numéro,") == 1
    assert said[-1] == "À tirer: 4–25, AP II, 2 sans numéro"
    assert part(lists.listed(full=True), "Promesses modifiées")[0].startswith("sans numéro\u00a0: ")
    assert "État: en service" in part(lists.listed(full=True), "Négatif")
    assert "sortie (2031-04-01), à" in part(lists.listed(full=True), "Épreuves")[0]


def test_a_full_form_lies_outside_of_the_studio_folder(lists: Lists, tmp_path: Path) -> None:
    roll = lists.heir()
    with pytest.raises(Refused, match="could no longer be erased"):
        write_roll(roll, lists.folder.path / "lists" / "heir.pdf", lists.folder)
    path = write_roll(roll, tmp_path / proposed_name(roll), lists.folder)
    assert path.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    ("names", "found"),
    [
        (["1", "2", "3", "7", "9", "10"], ["1–3", "7", "9–10"]),
        (["25", "AP I", "AP II", "AP IV", "PP I"], ["25", "AP I–II", "AP IV", "PP I"]),
        (["9", "AP X"], ["9", "AP X"]),
        ([], []),
    ],
)
def test_what_follows_each_other_is_one_run(names: list[str], found: list[str]) -> None:
    assert runs(names) == found


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ('edition_list = "Edition list"\n', "", "edition_list is missing"),
        ('since = "Since"', 'since = "Since"\nwhence = "Whence"', "whence is not known"),
        ("until {day}", "until {night}", "words in braces"),
        ("form = 1", "form = 2", "form must be 1"),
        ("[words.en]", "[words.en", "not TOML"),
    ],
)
def test_a_spoilt_file_of_words_is_refused(old: str, new: str, why: str) -> None:
    text = resource("templates", "roll.toml").read_text(encoding="utf-8")
    assert old in text
    with pytest.raises(Refused, match=why):
        read_words(text.replace(old, new, 1), "en")
