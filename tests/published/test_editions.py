"""Counts and figures of the law and of custom, against the handbook and its sources.

Standing: S read in the source named, S2 at second hand, M from memory, C computed.
"""

import pytest

from provenance.craft.counting import Share, count, together
from provenance.craft.disclosing import ITEMS
from provenance.craft.reminders import Facts, Money, Need, Reminder, Result, judge, resale_due
from provenance.model.edition import Edition
from provenance.studio.editions.disclosing import load_profile
from provenance.studio.editions.reminding import load_reminders
from tests.studios import edition

RULES = {one.id: one for one in load_reminders(None)}
ALL: dict[Need, bool | None] = {
    "taken by the artist": True,
    "printed by or under the artist": True,
    "signed": True,
    "numbered": True,
    "made for exhibition only": True,
}


def facts(*editions: Edition, **other: bool | None) -> Facts:
    """What is known of editions of one negative, with no print made yet."""
    counts = together(count(one, []) for one in editions)
    named: dict[str, Need] = {need.split()[0]: need for need in ALL}
    answers = ALL | {named[name]: answer for name, answer in other.items()}
    return Facts(counts.numbered, counts.copies, answers)


def of(numbered: int, artist_proofs: int = 0) -> Edition:
    return edition(1, numbered=numbered, artist_proofs=artist_proofs)


@pytest.mark.parametrize(
    ("rule", "editions", "result"),
    [
        # S: Directive 2006/112/EC Annex IX Part A (7): at most 30, all sizes and mounts
        ("eu-vat", [of(30)], "holds"),
        ("eu-vat", [of(31)], "does not hold"),
        ("eu-vat", [of(20), of(15)], "does not hold"),
        ("eu-vat", [of(20), of(10)], "holds"),
        # S2: whether proofs count is not said; counting them is the cautious reading
        ("eu-vat", [of(28, 2)], "holds"),
        ("eu-vat", [of(28, 3)], "cannot say"),
        # S: CPI R122-3
        ("fr-resale-right", [of(30)], "holds"),
        ("fr-resale-right", [of(31)], "does not hold"),
        # S: 17 USC 101
        ("us-vara", [of(200)], "holds"),
        ("us-vara", [of(201)], "does not hold"),
    ],
)
def test_at_most_so_many(rule: str, editions: list[Edition], result: Result) -> None:
    verdict = judge(RULES[rule], facts(*editions), None, None)
    assert verdict.result == result, verdict.why


@pytest.mark.parametrize("need", ["taken", "printed", "signed", "numbered"])
def test_what_else_the_directive_asks(need: str) -> None:
    # S: taken by the artist, printed by or under them, signed and numbered
    assert judge(RULES["eu-vat"], facts(of(30), **{need: False}), None, None).result == (
        "does not hold"
    )
    unknown = judge(RULES["eu-vat"], facts(of(30), **{need: None}), None, None)
    assert unknown.result == "cannot say"
    assert need in unknown.why


def test_vara_asks_for_what_prints_were_made() -> None:
    # S: 17 USC 101: a still photographic image produced for exhibition purposes only
    assert judge(RULES["us-vara"], facts(of(9), made=None), None, None).result == "cannot say"
    assert judge(RULES["us-vara"], facts(of(9), made=False), None, None).result == "does not hold"


@pytest.mark.parametrize(
    ("numbered", "proofs", "excess", "result"),
    [
        # S2: customs from 5 to 20 %; above 15 % warn, above 20 % warn strongly
        (25, 3, "", "holds"),
        (25, 4, "large", "does not hold"),  # C: 16 %
        (10, 2, "large", "does not hold"),  # C: 20 %, which is not above 20
        (10, 3, "very large", "does not hold"),
        (20, 3, "", "holds"),  # C: 15 %, which is not above 15
    ],
)
def test_the_share_of_proofs(numbered: int, proofs: int, excess: str, result: Result) -> None:
    share = Share(proofs, numbered)
    assert share.excess == excess
    assert judge(RULES["proofs"], facts(of(numbered, proofs)), share, None).result == result


@pytest.mark.parametrize(
    ("rule", "cents", "result"),
    [
        # S: California Civ. 1740-1745: from USD 100
        ("us-ca-disclosure", 9_999, "does not hold"),
        ("us-ca-disclosure", 10_000, "holds"),
        # S: New York ACAL art. 15: above USD 100
        ("us-ny-disclosure", 10_000, "does not hold"),
        ("us-ny-disclosure", 10_001, "holds"),
    ],
)
def test_prices_from_which_disclosure_is_owed(rule: str, cents: int, result: Result) -> None:
    assert judge(RULES[rule], facts(of(1)), None, Money(cents, "USD")).result == result
    assert judge(RULES[rule], facts(of(1)), None, Money(cents, "EUR")).result == "cannot say"
    assert judge(RULES[rule], facts(of(1)), None, None).result == "cannot say"


@pytest.mark.parametrize(
    ("price", "due"),
    [
        (50_000, 2_000),  # C: 4 %
        (100_000, 3_500),  # S: Directive 2001/84/EC, as the handbook has it
        (200_000, 6_500),  # C: 2,000 and 3 % of 150,000
        (350_000, 8_000),  # C: and 1 % of 150,000
        (500_000, 8_750),  # C: and 0.5 % of 150,000
        (2_000_000, 12_500),  # S: the cap; C: and 0.25 % of 1,500,000 reaches it exactly
        (9_000_000, 12_500),
    ],
)
def test_bands_of_the_resale_right(price: int, due: int) -> None:
    assert resale_due(price * 100, RULES["eu-resale-due"]) == due * 100


def test_rates_of_the_bands() -> None:
    # S: 4, 3, 1, 0.5 and 0.25 %
    assert [one.per_myriad for one in RULES["eu-resale-due"].bands] == [400, 300, 100, 50, 25]


def test_total_is_numbered_and_unnumbered_and_proofs() -> None:
    # S: North Carolina G.S. 25C-14; Hawaii 481F-4: "25 + 3 AP" is 28 in all
    assert of(25, 3).declared == 28


def test_the_union_of_the_statutes() -> None:
    # S: the fifteen items of the handbook's list
    profile = load_profile(None, "union")
    assert profile is not None
    assert set(profile.items) == set(ITEMS)
    assert len(ITEMS) == 15


@pytest.mark.parametrize("rule", RULES.values(), ids=list(RULES))
def test_every_rule_names_its_source_and_when_it_was_read(rule: Reminder) -> None:
    assert rule.source.source
    assert rule.read_on.startswith("20")
