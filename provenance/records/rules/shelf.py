"""Rules for the shelf: formulas, stocks, baths."""

from collections import Counter
from collections.abc import Iterator, Sequence

from provenance.craft.dilution import part_volumes_hundredth_ml
from provenance.craft.fixing import limit_named
from provenance.craft.solutions.drawing import left_hundredth_ml
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Draw, Stock
from provenance.model.formula import Formula
from provenance.model.printing import Step
from provenance.model.quantity_text import format_dilution, format_volume
from provenance.records.rules.case import Case, before, in_order


def formula(case: Case[Formula]) -> Iterator[Problem]:
    """A formula is for a bath or for a test, and something goes into it."""
    body = case.body
    if (body.role is None) == (body.test is None):
        yield case.problem("is for a bath or for a test, one of the two", "role", "give one")
    if not body.ingredients:
        yield case.problem("nothing goes into it", "part", "add what it is made of")


def stock(case: Case[Stock]) -> Iterator[Problem]:
    """A stock is mixed, then drawn, then retired; no more is drawn than was mixed."""
    body = case.body
    if body.volume_hundredth_ml == 0:
        yield case.problem("is nought", "volume", "say how much was mixed")
    dated = [
        *in_order(case, "mixed_on", body.mixed_on, "retired_on", body.retired_on),
        *case.edtf("keeps_until", body.keeps_until, ahead=True),
    ]
    yield from dated
    yield from _retiring(case)
    if dated:
        return
    if body.keeps_until is not None and before(body.keeps_until, body.mixed_on):
        yield case.problem(
            f"kept until {body.keeps_until}, before it was mixed on {body.mixed_on}",
            "keeps_until",
            "check both dates",
        )
    if case.record is not None:
        yield from _draws_agree(case, case.record)


def _draws_agree(case: Case[Stock], record: int) -> Iterator[Problem]:
    body = case.body
    baths = case.act.linked(record, Bath, "drawn_from")
    drawn = sum(draw.volume_hundredth_ml for bath in baths for draw in _from(bath.body, record))
    if drawn > body.volume_hundredth_ml:
        yield case.problem(
            f"{format_volume(drawn)} were drawn from it already",
            "volume",
            "correct the baths that were made from it first",
        )
    for bath in baths:
        yield from _drawn_in_time(case, "mixed_on", body, bath.body)


def _from(bath: Bath, stock: int) -> list[Draw]:
    return [draw for draw in bath.drawn if draw.stock == stock]


def _drawn_in_time(
    case: Case[Stock] | Case[Bath], field: str, stock: Stock, bath: Bath
) -> Iterator[Problem]:
    """A bottle is drawn from between its mixing and its retirement."""
    if bath.made_on is None:
        return
    if before(bath.made_on, stock.mixed_on):
        yield case.problem(
            f"{stock.code} was mixed on {stock.mixed_on}, after bath {bath.code} was made from it"
            f" on {bath.made_on}",
            field,
            "check both dates",
        )
    if stock.retired_on is not None and before(stock.retired_on, bath.made_on):
        yield case.problem(
            f"{stock.code} was retired on {stock.retired_on}, before bath {bath.code} was made"
            f" from it on {bath.made_on}",
            field if field != "mixed_on" else "retired_on",
            "name the bottle in use",
        )


def _retiring(case: Case[Stock] | Case[Bath]) -> Iterator[Problem]:
    """What is retired says when and why; what is not says neither."""
    body = case.body
    if body.retired_on is not None and not body.retired_why.strip():
        yield case.problem("does not say why it was retired", "retired_why", "add a few words")
    if body.retired_on is None and (body.retired_why or body.disposed):
        yield case.problem("does not say when it was retired", "retired_on", "add the day")


def bath(case: Case[Bath]) -> Iterator[Problem]:
    """A bath is made of what there was, before it is used, and retired after."""
    body = case.body
    dated = list(in_order(case, "made_on", body.made_on, "retired_on", body.retired_on))
    yield from dated
    yield from _retiring(case)
    yield from _limit(case)
    if dated:
        return
    yield from _drawn(case)
    yield from _pair(case)
    if case.record is not None:
        yield from _steps_agree(case, case.record)


def _limit(case: Case[Bath]) -> Iterator[Problem]:
    if not case.body.limit:
        return
    try:
        limit_named(case.body.limit)
    except Refused as error:
        yield case.problem(error.problems[0].what, "limit", error.problems[0].mend)
        return
    if case.body.role != "fix":
        yield case.problem(
            f"a limit for silver is for a fixing bath, and this is for {case.body.role}",
            "limit",
            "leave it out",
        )


def _drawn(case: Case[Bath]) -> Iterator[Problem]:
    body = case.body
    if not body.drawn:
        return
    for held, times in Counter(body.drawn_from).items():
        name = case.act.get(Stock, held).body.code
        if times > 1:
            yield case.problem(f"draws on {name} twice", "drawn", "add the two together")
            return
    for draw in body.drawn:
        yield from _one_draw(case, draw)
    poured = sum(draw.volume_hundredth_ml for draw in body.drawn)
    if body.volume_hundredth_ml is None:
        yield case.problem("does not say how much there is", "volume", "give the volume")
    elif poured > body.volume_hundredth_ml:
        yield case.problem(
            f"{format_volume(poured)} were drawn for {format_volume(body.volume_hundredth_ml)}",
            "drawn",
            "check the volumes",
        )


def _one_draw(case: Case[Bath], draw: Draw) -> Iterator[Problem]:
    held = case.act.get(Stock, draw.stock)
    yield from _drawn_in_time(case, "drawn", held.body, case.body)
    others = [
        one.volume_hundredth_ml
        for bath in case.act.linked(draw.stock, Bath, "drawn_from")
        if bath.id != case.record
        for one in _from(bath.body, draw.stock)
    ]
    try:
        left_hundredth_ml(held.body.volume_hundredth_ml, [*others, draw.volume_hundredth_ml])
    except Refused as error:
        problem = error.problems[0]
        yield case.problem(f"{held.body.code}: {problem.what}", "drawn", problem.mend)


def _pair(case: Case[Bath]) -> Iterator[Problem]:
    body = case.body
    if body.second_of is None:
        return
    first = case.act.get(Bath, body.second_of).body
    if body.second_of == case.record:
        yield case.problem("is the second of itself", "second_of", "name the bath before it")
    for one in (body, first):
        if one.role != "fix":
            yield case.problem(
                f"bath {one.code} is for {one.role}; a pair is of two fixing baths",
                "second_of",
                "name the first fixing bath",
            )
    if first.retired_on is not None and body.made_on and before(first.retired_on, body.made_on):
        yield case.problem(
            f"bath {first.code} was retired on {first.retired_on}, before this was made",
            "second_of",
            "name the first bath in use",
        )


def _steps_agree(case: Case[Bath], record: int) -> Iterator[Problem]:
    """The steps in it are of its kind, and lie between its making and its end."""
    body = case.body
    for used in case.act.linked(record, Step, "bath"):
        if used.body.role != body.role:
            yield case.problem(
                f"step #{used.id} used it as {used.body.role}", "role", "correct that step first"
            )
            return
        if body.made_on is not None and before(used.body.done_on, body.made_on):
            yield case.problem(
                f"step #{used.id} used it on {used.body.done_on}", "made_on", "check both dates"
            )
            return
        if body.retired_on is not None and before(body.retired_on, used.body.done_on):
            yield case.problem(
                f"step #{used.id} used it on {used.body.done_on}", "retired_on", "check both dates"
            )
            return


def stock_cautions(case: Case[Stock]) -> Iterator[Problem]:
    """A bottle whose time was over when it was drawn from."""
    if case.record is None:
        return
    for bath in case.act.linked(case.record, Bath, "drawn_from"):
        yield from _stale(case, "keeps_until", case.body, bath.body)


def bath_cautions(case: Case[Bath]) -> Iterator[Problem]:
    """Bottles past their time, volumes at odds with the dilution, an older second bath."""
    body = case.body
    yield from _at_odds(case)
    for held in body.drawn_from:
        yield from _stale(case, "drawn", case.act.get(Stock, held).body, body)
    if body.second_of is None or body.made_on is None:
        return
    first = case.act.get(Bath, body.second_of).body
    if first.made_on is not None and before(body.made_on, first.made_on):
        yield case.problem(
            f"it was made before {first.code}; the second of two baths is the fresher",
            "second_of",
            "let the older bath go first",
        )


def _at_odds(case: Case[Bath]) -> Iterator[Problem]:
    """What was drawn is not what the dilution would take, by more than a hundredth."""
    body = case.body
    if body.dilution is None or not body.drawn or body.volume_hundredth_ml is None:
        return
    drawn = [draw.volume_hundredth_ml for draw in body.drawn]
    meant = part_volumes_hundredth_ml(body.dilution, body.volume_hundredth_ml)[:-1]
    if len(meant) == len(drawn) and all(
        abs(one - other) * 100 <= other for one, other in zip(drawn, meant, strict=True)
    ):
        return
    yield case.problem(
        f"{format_dilution(body.dilution)} would take {_listed(meant)}, and {_listed(drawn)} were"
        " drawn",
        "dilution",
        "check both; bottles stand in the order of the parts",
    )


def _listed(volumes: Sequence[int]) -> str:
    return " and ".join(map(format_volume, volumes))


def _stale(
    case: Case[Stock] | Case[Bath], field: str, stock: Stock, bath: Bath
) -> Iterator[Problem]:
    if stock.keeps_until and bath.made_on and before(stock.keeps_until, bath.made_on):
        yield case.problem(
            f"{stock.code} was good until {stock.keeps_until}, and {bath.code} was made from it"
            f" on {bath.made_on}",
            field,
            "test it before use, or mix it anew",
        )
