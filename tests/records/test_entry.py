"""The bytes of the journal are those of RFC 8785, for every kind of body and for the envelope."""

import unicodedata
from typing import Any

import msgspec
import pytest
import rfc8785
from hypothesis import given, settings
from hypothesis import strategies as st

from provenance.errors import Damaged, Refused
from provenance.model.body import Body
from provenance.model.formula import Ingredient
from provenance.model.quantities import Dilution, Point, Size
from provenance.model.readings import How, Lab, Patch, Reading, Tone
from provenance.records.clock import Moment
from provenance.records.entry import Entry, body_bytes, decode, encode
from provenance.records.forms import KINDS, read_body

WHOLE = 2**53 - 1
CHOSEN = (Size, Point, Dilution, Ingredient, Tone, Reading)
"""Types that refuse some values of their fields."""
LONGEST_TENTH_MM = 100_000


def welcome(character: str) -> bool:
    return character == "\n" or unicodedata.category(character) not in ("Cc", "Cs")


TEXT = (
    st.text(st.characters(exclude_categories=["Cs"]).filter(welcome), max_size=12)
    .map(lambda text: unicodedata.normalize("NFC", text))
    # a mark after a line break would look composed with the letter of its escape
    .filter(lambda text: unicodedata.is_normalized("NFC", msgspec.json.encode(text).decode()))
)
SIDE = st.integers(1, LONGEST_TENTH_MM)
st.register_type_strategy(Size, st.builds(Size, height_tenth_mm=SIDE, width_tenth_mm=SIDE))
PERMILLE = st.integers(0, 1000)
st.register_type_strategy(Point, st.builds(Point, across_permille=PERMILLE, down_permille=PERMILLE))
st.register_type_strategy(
    Dilution,
    st.builds(
        Dilution,
        parts_hundredths=st.lists(st.integers(1, 10**6), min_size=2, max_size=4).map(tuple),
        typed=TEXT,
    ),
)


st.register_type_strategy(
    Ingredient,
    st.builds(
        Ingredient,
        substance=TEXT,
        formula=TEXT,
        assay_hundredth_percent=st.integers(1, 10_000),
        mg_per_l=st.integers(1, WHOLE),
        note=TEXT,
    )
    | st.builds(Ingredient, substance=TEXT, formula=TEXT, hundredth_ml_per_l=st.integers(1, WHOLE)),
)

HUNDREDTHS = st.integers(0, 10_000)
TONES = st.lists(
    st.builds(Tone, density_md=st.integers(-500, 6000))
    | st.builds(Tone, lab=st.builds(Lab, lightness_hundredth=HUNDREDTHS, a_hundredth=HUNDREDTHS)),
    min_size=1,
    max_size=3,
).map(tuple)
st.register_type_strategy(Tone, TONES.map(lambda tones: tones[0]))
st.register_type_strategy(
    Reading,
    st.builds(
        Reading,
        print=st.integers(1, WHOLE),
        done_on=TEXT,
        how=st.builds(How, instrument=TEXT),
        patches=st.lists(
            st.builds(Patch, spot=TEXT, tones=TONES),
            max_size=3,
            unique_by=lambda patch: patch.spot,
        ).map(tuple),
        note=TEXT,
    ),
)


def values(kind: Any) -> st.SearchStrategy[Any]:
    """Any value that a field of that type may hold."""
    match kind:
        case msgspec.inspect.IntType():
            low, high = kind.ge, kind.le
            return st.integers(-WHOLE if low is None else low, WHOLE if high is None else high)
        case msgspec.inspect.StrType():
            return TEXT
        case msgspec.inspect.BoolType():
            return st.booleans()
        case msgspec.inspect.NoneType():
            return st.none()
        case msgspec.inspect.LiteralType():
            return st.sampled_from(kind.values)
        case msgspec.inspect.EnumType():
            return st.sampled_from(list(kind.cls))
        case msgspec.inspect.UnionType():
            return st.one_of(*(values(one) for one in kind.types))
        case msgspec.inspect.VarTupleType():
            return st.lists(values(kind.item_type), max_size=3).map(tuple)
        case msgspec.inspect.DictType():
            return st.dictionaries(TEXT, values(kind.value_type), max_size=3)
        case msgspec.inspect.StructType() if kind.cls in CHOSEN:
            return st.from_type(kind.cls)
        case msgspec.inspect.StructType():
            return st.builds(kind.cls, **{f.name: values(f.type) for f in kind.fields})
    raise AssertionError(f"no values for {kind}")


def bodies(kind: type[Body]) -> st.SearchStrategy[Body]:
    return values(msgspec.inspect.type_info(kind))


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_bodies_are_canonical_and_read_back(kind: type[Body], data: st.DataObject) -> None:
    body = data.draw(bodies(kind))
    written = body_bytes(body)
    assert written == rfc8785.dumps(msgspec.to_builtins(body))
    assert read_body(kind.KIND, kind.FORM, written) == body


@settings(max_examples=100, deadline=None)
@given(
    body=st.sampled_from(list(KINDS.values())).flatmap(bodies),
    seq=st.integers(1, WHOLE),
    base=st.none() | st.integers(1, WHOLE),
    who=TEXT,
    reason=TEXT,
    offset_min=st.integers(-900, 900),
)
def test_the_envelope_is_canonical_and_reads_back(
    body: Body, seq: int, base: int | None, who: str, reason: str, offset_min: int
) -> None:
    moment = Moment(at="2031-03-02T12:00:00.000Z", offset_min=offset_min, boot="b", boot_ms=seq)
    entry = Entry(
        seq=seq,
        act=seq,
        verb="correct",
        moment=moment,
        who=who,
        record=seq,
        base=base,
        kind=body.KIND,
        form=body.FORM,
        body=msgspec.Raw(body_bytes(body)),
        reason=reason,
        undoes=base,
        previous="ab" * 32,
    )
    written = encode(entry)
    assert written == rfc8785.dumps(msgspec.json.decode(written))
    assert decode(written) == entry


@settings(max_examples=200)
@given(text=st.text(st.characters(exclude_categories=[]), min_size=1))
def test_text_is_written_as_it_is_or_not_at_all(text: str) -> None:
    body = KINDS["negative"](code="N", title=text)  # type: ignore[call-arg]
    try:
        written = body_bytes(body)
    except Refused:
        unwelcome = not all(map(welcome, text)) or not unicodedata.is_normalized("NFC", text)
        assert unwelcome or "\n" in text
        return
    assert written == rfc8785.dumps(msgspec.to_builtins(body))


@pytest.mark.parametrize("data", [b"", b"null", b"{}", b"\xff", b'{"seq":1}'])
def test_bytes_that_hold_no_entry_are_damage(data: bytes) -> None:
    with pytest.raises(Damaged):
        decode(data)
