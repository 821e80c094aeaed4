"""Finishes and studies survive the disk, and keep what was not recorded apart from what is not."""

import msgspec
import pytest
import rfc8785

from provenance.model.body import Body, links_of
from provenance.model.finish import Condition, Finish, Inscription
from provenance.model.study import (
    BleachedPatch,
    SpotCalibration,
    SpotPoint,
    ToningStudy,
    WashReading,
    WashStudy,
)

KINDS: tuple[type[Body], ...] = (Finish, WashStudy, ToningStudy, SpotCalibration)


FILLED: tuple[Body, ...] = (
    Finish(
        prints=(7, 9),
        done_on="2031-03-04",
        place=4,
        drying="on screens",
        flattening="under weight",
        spotting="dye",
        trimmed=True,
        mount="hinged to a window mat",
        adhesive="wheat starch paste",
        coating="",
        enclosure="a folder of unbuffered paper",
        inscriptions=(Inscription(text="7/25", medium="pencil", where="verso, lower left"),),
        condition=Condition(occasion="finished", text="no marks seen in raking light"),
    ),
    WashStudy(
        code="W-1",
        paper=5,
        done_on="2031-03",
        aid=True,
        temperature_tenth_c=200,
        method="methylene blue",
        readings=(WashReading(washed_ms=0, left_ng_per_cm2=180_000),),
    ),
    ToningStudy(
        code="T-1",
        paper=5,
        process=6,
        done_on="2031-03",
        bleach="toning bleach",
        bleached_ms=60_000,
        d_min_md=60,
        patches=(BleachedPatch(before_md=960, after_md=360),),
    ),
    SpotCalibration(
        code="C-1",
        paper=5,
        done_on="2031-03",
        method="silver-nitrate spot",
        points=(SpotPoint(darker_md=100, found_ng_per_cm2=500),),
    ),
)


@pytest.mark.parametrize("body", FILLED, ids=lambda body: body.KIND)
def test_what_is_written_is_read_again_as_the_same_bytes(body: Body) -> None:
    written = msgspec.json.encode(body, order="sorted")
    assert written == rfc8785.dumps(msgspec.to_builtins(body))
    assert msgspec.json.decode(written, type=type(body)) == body


@pytest.mark.parametrize("body", FILLED, ids=lambda body: body.KIND)
def test_links_name_fields_that_hold_ids(body: Body) -> None:
    assert {field for field, _record in links_of(body)} == body.LINKS.keys()


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.KIND)
def test_no_body_holds_a_floating_point_number(kind: type[Body]) -> None:
    schema = msgspec.json.encode(msgspec.json.schema(kind)).decode()
    assert '"type":"integer"' in schema
    assert '"type":"number"' not in schema


def test_a_finish_leads_to_its_prints() -> None:
    finish = Finish(prints=(7, 9), done_on="2031-03-04", drying="on screens")
    assert links_of(finish) == (("prints", 7), ("prints", 9))


def test_not_recorded_and_not_done_are_two_things() -> None:
    silent = Finish(prints=(7,), done_on="2031-03-04")
    said = Finish(
        prints=(7,),
        done_on="2031-03-04",
        spotting="none",
        trimmed=False,
        coating="",
        inscriptions=(),
    )
    assert silent != said
    assert (silent.spotting, silent.trimmed, silent.coating, silent.inscriptions) == (None,) * 4


@pytest.mark.parametrize(
    "fields", [{"drying": "in the sun"}, {"spotting": "ink"}, {"condition": {"occasion": "x"}}]
)
def test_words_that_a_finish_does_not_know_are_refused(fields: dict[str, object]) -> None:
    with pytest.raises(msgspec.ValidationError):
        msgspec.convert({"prints": (7,), "done_on": "2031", **fields}, Finish)
