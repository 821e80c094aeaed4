"""The door: bases, reasons, undoing, retiring, and what is refused before anything is written."""

import msgspec
import pytest

from provenance.errors import Conflict, NotFound, Refused
from provenance.model.body import Body
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.audit import audit
from provenance.records.register import Register
from tests.studios import (
    WHO,
    Shelf,
    edition,
    enter,
    negative,
    release,
    revise,
    sheet,
    signature,
    step,
)


def title(register: Register, record: int) -> str:
    return register.read.get(Negative, record).body.title


def undo(register: Register, act: int) -> None:
    with register.act(WHO) as again:
        again.undo(act, "entered by mistake")


def test_a_stale_base_is_a_conflict(register: Register) -> None:
    record = enter(register, negative())
    revise(register, record, title="Slipway at low water")
    with pytest.raises(Conflict), register.act(WHO) as act:
        act.change(record, record, negative(title="Ramp"))
    assert title(register, record) == "Slipway at low water"


def test_a_retired_record_is_not_changed(register: Register) -> None:
    record = enter(register, negative())
    with register.act(WHO) as act:
        act.void(record, record, "a duplicate")
    with pytest.raises(Conflict), register.act(WHO) as act:
        act.change(record, record, negative(title="Ramp"))


def test_a_record_keeps_its_kind(register: Register, shelf: Shelf) -> None:
    with pytest.raises(Refused, match="it is a paper, not a negative"), register.act(WHO) as act:
        act.change(shelf.paper, shelf.paper, negative(code="N-2"))


def test_a_change_changes_something(register: Register) -> None:
    record = enter(register, negative())
    with pytest.raises(Refused, match="nothing would change"), register.act(WHO) as act:
        act.change(record, record, negative())


@pytest.mark.parametrize("reason", ["", "  ", "\n"])
def test_correcting_voiding_and_undoing_need_a_reason(register: Register, reason: str) -> None:
    record = enter(register, negative())
    before = register.read.head()
    with pytest.raises(Refused, match="a reason is needed"), register.act(WHO) as act:
        act.correct(record, record, negative(title="Ramp"), reason)
    with pytest.raises(Refused, match="a reason is needed"), register.act(WHO) as act:
        act.void(record, record, reason)
    with pytest.raises(Refused, match="a reason is needed"), register.act(WHO) as act:
        act.undo(record, reason)
    assert register.read.head() == before


@pytest.mark.parametrize(
    "reason", ["a\x00b", "bell\x07", "cafe\N{COMBINING ACUTE ACCENT}", "\ud800"]
)
def test_a_reason_is_text_like_any_other(register: Register, reason: str) -> None:
    record = enter(register, negative())
    with pytest.raises(Refused), register.act(WHO) as act:
        act.void(record, record, reason)
    assert title(register, record) == "Slipway"


@pytest.mark.parametrize("who", ["", " ", "_", "x" * 25, "a\nb", "\N{ANGSTROM SIGN}"])
def test_who_is_a_role_or_initials(register: Register, who: str) -> None:
    with pytest.raises(Refused), register.act(who) as act:
        act.enter(negative())
    assert register.read.head()[0] == 1


def test_old_values_stay_readable(register: Register) -> None:
    record = enter(register, negative(title="Slipwai"))
    revise(register, record, verb="correct", title="Slipway")
    versions = register.read.versions(record)
    assert [v.body.title for v in versions if isinstance(v.body, Negative)] == [
        "Slipwai",
        "Slipway",
    ]
    assert versions[1].entry.reason == "it was written down wrongly"


def test_nothing_is_retired_while_something_refers_to_it(register: Register, shelf: Shelf) -> None:
    with pytest.raises(Refused, match="other records refer to it"), register.act(WHO) as act:
        act.void(shelf.negative, shelf.negative, "a duplicate")
    assert title(register, shelf.negative) == "Slipway"


def test_the_studio_is_never_retired(register: Register) -> None:
    with pytest.raises(Refused, match="never retired"), register.act(WHO) as act:
        act.undo(1, "start again")


def test_undoing_restores_what_was(register: Register) -> None:
    record = enter(register, negative())
    changed = revise(register, record, title="Ramp")
    undo(register, changed)
    assert title(register, record) == "Slipway"
    undo(register, register.read.head()[0])
    assert title(register, record) == "Ramp"


def test_undoing_an_entry_retires_it_and_undoing_that_brings_it_back(register: Register) -> None:
    record = enter(register, negative())
    undo(register, record)
    with pytest.raises(NotFound):
        register.read.get(Negative, record)
    undo(register, register.read.head()[0])
    assert title(register, record) == "Slipway"


def test_undoing_after_a_later_change_is_a_conflict(register: Register) -> None:
    record = enter(register, negative())
    changed = revise(register, record, title="Ramp")
    revise(register, record, title="Jetty")
    before = register.read.head()
    with pytest.raises(Conflict, match="take the later act back first"):
        undo(register, changed)
    assert register.read.head() == before


def test_undoing_twice_tells_the_act_that_took_it_back(register: Register) -> None:
    record = enter(register, negative())
    changed = revise(register, record, title="Ramp")
    for act in (changed, record):
        undo(register, act)
        by = register.read.head()[0]
        with pytest.raises(Conflict, match=f"act {act} was taken back already, by act {by}"):
            undo(register, act)
        assert register.read.head()[0] == by
    # brought back, and taken back once more: the first undoing stands again
    undo(register, by)
    undo(register, register.read.head()[0])
    with pytest.raises(Conflict, match=f"act {record} was taken back already, by act {by}"):
        undo(register, record)


def test_an_act_that_wrote_a_record_twice_is_undone_whole(register: Register, shelf: Shelf) -> None:
    with register.act(WHO) as act:
        number = act.number
        one = act.enter(sheet(shelf, "1"))
        numbered = act.change(one, one, sheet(shelf, "1", designation="1/25"))
        stored = act.get(Edition, shelf.edition)
        act.change(
            shelf.edition,
            stored.version,
            msgspec.structs.replace(stored.body, bon_a_tirer=one),
        )
        signed = sheet(shelf, "1", designation="1/25", signature=signature())
        act.change(one, numbered, signed)
    undo(register, number)
    assert register.read.find(one) is None
    assert register.read.get(Edition, shelf.edition).body.bon_a_tirer is None
    assert not audit(register.folder).findings
    undo(register, register.read.act_entries(number)[-1].seq + 1)
    assert register.read.get(Print, one).body == signed
    assert register.read.get(Edition, shelf.edition).body.bon_a_tirer == one


def test_a_number_that_went_out_is_not_undone(register: Register, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1"))
    numbered = revise(register, one, designation="1/25")
    enter(register, release(one))
    with pytest.raises(Refused, match="it was released as 1/25"):
        undo(register, numbered)


def test_what_is_undone_must_still_hold(register: Register, shelf: Shelf) -> None:
    one = enter(register, sheet(shelf, "1", designation="1/25"))
    renumbered = revise(register, one, designation="2/25")
    enter(register, sheet(shelf, "2", designation="1/25"))
    with pytest.raises(Refused, match="1/25 is taken"):
        undo(register, renumbered)


def test_no_act_no_undoing(register: Register, shelf: Shelf) -> None:
    for number in (shelf.edition, 999):
        with pytest.raises(Refused, match="no act begins with"):
            undo(register, number)


def test_an_act_is_saved_whole_or_not_at_all(register: Register) -> None:
    with pytest.raises(Refused, match="the code is taken"), register.act(WHO) as act:
        assert act.enter(negative()) < act.enter(negative())
    assert register.read.all(Negative) == []


def test_a_rehearsal_leaves_nothing_behind(register: Register) -> None:
    before = register.read.head()
    with register.act(WHO, rehearse=True) as act:
        record = act.enter(negative())
        assert act.get(Negative, record).body.title == "Slipway"
    assert register.read.head() == before
    assert register.read.all(Negative) == []


def test_a_link_leads_to_a_live_record_of_its_kind(register: Register, shelf: Shelf) -> None:
    for wrong, what in ((shelf.paper, "is a paper"), (999, "is not on record")):
        with pytest.raises(Refused, match=what):
            enter(register, edition(wrong, code="PIER"))


@pytest.mark.parametrize(
    "body",
    [
        negative(title="bell\x07"),
        negative(title="tab\t"),
        negative(title="delete\x7f"),
        negative(title="next line\x85"),
        negative(title="half a character \ud800"),
        negative(title="cafe\N{COMBINING ACUTE ACCENT}"),
        negative(title="\N{OHM SIGN}"),
        negative(title=17),
        negative(title=None),
        negative(state="eaten"),
    ],
)
def test_what_would_not_read_back_alike_is_refused(register: Register, body: Body) -> None:
    before = register.read.head()
    with pytest.raises(Refused):
        enter(register, body)
    assert register.read.head() == before


@pytest.mark.parametrize("length", [2**53, -(2**53), 1.5, 1.0, float("nan"), True, "60000"])
def test_numbers_are_whole_and_every_reader_keeps_them(
    register: Register, shelf: Shelf, length: object
) -> None:
    one = enter(register, sheet(shelf, "1"))
    before = register.read.head()
    with pytest.raises(Refused):
        enter(register, step(shelf, one, duration_ms=length))
    assert register.read.head() == before
