"""The one table of actions: every action does something, every key is documented and can change."""

from pathlib import Path

import pytest
from textual.binding import Binding

from provenance.errors import Refused
from provenance.screens.actions import ACTIONS, EVERYWHERE, MOVING, with_keys
from provenance.screens.app import StudioApp
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.commands import Commands
from provenance.screens.frame import Frame
from provenance.screens.places.answer_page import AnswerPage
from provenance.screens.places.disclosure_page import DisclosurePage
from provenance.screens.places.edition_page import EditionPage
from provenance.screens.places.entry_page import EntryPage
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.listed import Listed
from provenance.screens.places.match_page import MatchPage
from provenance.screens.places.negative_page import NegativePage
from provenance.screens.places.paper_page import PaperPage
from provenance.screens.places.print_page import PrintPage
from provenance.screens.places.registry import PLACES, place_class
from provenance.screens.places.reprint_page import ReprintPage
from provenance.screens.places.roll_page import RollPage
from provenance.screens.places.run_page import RunPage
from provenance.screens.widgets.form import Form
from provenance.screens.widgets.line_list import LineList
from provenance.screens.widgets.record_table import RecordTable
from tests.screens.house import at_work
from tests.screens.reading import screen_lines

PAGES: tuple[type[Frame], ...] = (
    *map(place_class, PLACES),
    NegativePage,
    PaperPage,
    ReprintPage,
    MatchPage,
    EditionPage,
    PrintPage,
    EvidencePage,
    HistoryPage,
    EntryPage,
    RunPage,
    RollPage,
    AnswerPage,
    DisclosurePage,
)


def who_does(where: str) -> list[type]:
    """The classes that have to know the actions of one place."""
    if where == EVERYWHERE:
        return [StudioApp]
    if where == "list":
        return [RecordTable]
    if where == "listed":
        return [Listed]
    if where == "form":
        return [Form]
    return [page for page in PAGES if where in page.WHERE.split()]


@pytest.mark.parametrize("action", ACTIONS, ids=lambda one: one.name)
def test_every_action_is_done_wherever_it_is_offered(action) -> None:  # type: ignore[no-untyped-def]
    for where in action.where.split():
        doing = who_does(where)
        assert doing, where
        for one in doing:
            assert callable(getattr(one, f"action_{action.name}"))


def test_names_are_given_once() -> None:
    names = [action.name for action in ACTIONS]
    assert len(set(names)) == len(names)


def test_no_two_actions_of_one_place_are_on_one_key() -> None:
    # each action, given the key that it has, clashes with none but the way out of a form
    for action in ACTIONS:
        if action.where in ("form", "run"):
            continue  # there the keys of everywhere are shadowed, on purpose
        with_keys(
            {action.name: action.key}, [one for one in ACTIONS if one.where not in ("form", "run")]
        )


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.__name__)
def test_every_bound_key_is_documented(page: type[Frame]) -> None:
    moving = {shown for keys in MOVING for shown in keys.split()}
    known = {key for action in ACTIONS for key in action.key.split(",")}
    for bearer in (page, RecordTable, LineList, Commands):
        for binding in bearer.BINDINGS:
            assert isinstance(binding, Binding)
            for key in binding.key.split(","):
                assert key in known or shown_key(key) in moving, f"{bearer.__name__}: {key}"


async def test_a_studio_changes_its_keys(studio: Path) -> None:
    (studio / "settings.toml").write_text('[keys]\nfinishing = "j"\nhelp = "f1"\n', "utf-8")
    async with at_work(studio) as printer:
        assert "f1 help" in screen_lines(printer.app)[-1]
        await printer.press("5")
        assert screen_lines(printer.app)[0].startswith(" Editions")
        await printer.press("j")
        assert screen_lines(printer.app)[0].startswith(" Finishing")
        await printer.press("f1")
        assert screen_lines(printer.app)[0].startswith(" Keys and words")
        while "Finishing: what" not in printer.text():
            await printer.press("pagedown")
        assert printer.line("Finishing: what").split()[0] == "j"


@pytest.mark.parametrize(
    ("chosen", "said"),
    [
        ({"number": "t"}, "taken by test"),
        ({"new_paper": "enter"}, "taken by open_record"),
        ({"print_more": "o"}, "taken by sort"),
        ({"certify": "u"}, "taken by undo"),
        ({"dance": "d"}, "no action called 'dance'"),
    ],
)
def test_a_key_that_is_taken_is_refused(chosen: dict[str, str], said: str) -> None:
    with pytest.raises(Refused, match=said):
        with_keys(chosen)


def test_two_actions_may_change_places() -> None:
    keyed = {one.name: one.key for one in with_keys({"test": "n", "number": "t"})}
    assert (keyed["test"], keyed["number"]) == ("n", "t")
