"""Every action of the terminal application, once: keys, footer, help and docs are made from it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from provenance.errors import Problem, Refused

EVERYWHERE = "everywhere"
HOLDING_LISTS = frozenset({"editions", "edition", "desk"})
"""The places with a table of records; its keys work there."""
_WITHIN = {
    "list": HOLDING_LISTS,
    "listed": ("dry_side", "negative", "paper", "wet_side", "shelf", "entry"),
}
"""What is shown in several places, each with keys of its own."""


@dataclass(frozen=True)
class Action:
    """Something a key does: `name` is also what settings.toml calls it under [keys]."""

    name: str
    key: str
    label: str
    """The word in the footer, where there is room for it."""
    about: str
    """The sentence in the help."""
    where: str = EVERYWHERE
    """The places where it works, with spaces between them."""
    footer: bool = False


ACTIONS: tuple[Action, ...] = (
    Action("editions", "1", "editions", "Editions: the drawer, and the prints in it."),
    Action("dry_side", "2", "dry side", "Dry side: negatives, papers, exposure."),
    Action("wet_side", "3", "wet side", "Wet side: the run in hand."),
    Action("shelf", "4", "shelf", "Shelf: paper, bottles and trays."),
    Action("finishing", "5", "finishing", "Finishing: what each print still owes."),
    Action("desk", "6", "desk", "Desk: certificates, and where prints went."),
    Action("find", "slash", "find", "Find anything by words, numbers or marks.", footer=True),
    Action("undo", "u", "undo", "Take the last thing written here back, by new entries."),
    Action("light", "l", "light", "Change between daylight, dark and safelight."),
    Action("commands", "ctrl+p", "commands", "Find what can be done here by its words."),
    Action("help", "question_mark", "help", "The keys that work here, and the words used.", footer=True),
    Action("leave", "q", "leave", "Leave the program; everything said to be saved is saved."),
    Action("back", "escape", "back", "Back to where you came from."),
    Action("open", "enter", "open", "Open what the cursor is on.", "list", footer=True),
    Action("mark", "space", "mark", "Mark or unmark what the cursor is on.", "list", footer=True),
    Action("sort", "o", "order", "Order the list by its next column.", "list"),
    Action("reverse", "O", "turn round", "The same order from its other end.", "list"),
    Action("new_edition", "n", "new", "Enter a new edition, with its negative.", "editions", footer=True),
    Action("evidence", "enter", "evidence", "Go to the records behind the line under the cursor.", "print answer", footer=True),
    Action("certify", "c", "certify", "Issue the certificate, or say what stands against it.", "print", footer=True),
    Action("certify_marked", "c", "certify", "Issue the certificates of the marked prints, one after the other.", "edition"),
    Action("revise", "v", "revise", "Issue the certificate anew after a correction; the one before stays on record.", "print"),
    Action("withdraw", "w", "withdraw", "Withdraw the certificate, with the reason.", "print"),
    Action("print_more", "p", "print more", "Enter a printing of this edition.", "editions edition", footer=True),
    Action("treat", "b", "baths", "Enter baths that the marked prints went through since.", "edition"),
    Action("test", "t", "test", "Record a residual test for the marked prints.", "edition print", footer=True),
    Action("finish", "f", "finish", "Enter how the marked prints were dried, spotted, mounted.", "edition print"),
    Action("number", "n", "number", "Number the marked prints in the order shown.", "edition print", footer=True),
    Action("sign", "s", "sign", "Record the signature on the marked prints.", "edition print", footer=True),
    Action("scan", "g", "picture", "Add a scan of this print.", "edition print"),
    Action("gone", "x", "gone", "Record that a print is spoiled, destroyed or lost.", "edition print"),
    Action("release", "r", "release", "Record that the marked prints left the studio.", "edition print"),
    Action("question", "a", "question", "Answer a question about a print: by number, certificate, or words of a title.", "desk", footer=True),
    Action("custody", "k", "custody", "Enter what happened to the marked prints: sold, lent, returned, lost.", "desk", footer=True),
    Action("custody_of", "k", "custody", "Enter who has these prints now: sold, lent, returned, lost.", "edition print"),
    Action("next_list", "right", "next list", "The next list of the desk.", "desk", footer=True),
    Action("list_before", "left", "list before", "The list of the desk before this one.", "desk"),
    Action("revise_one", "v", "revise", "Issue the certificate under the cursor anew, after a correction.", "desk"),
    Action("withdraw_marked", "w", "withdraw", "Withdraw the marked certificates, with one reason.", "desk"),
    Action("copy_certificate", "y", "copy path", "Copy where the certificate under the cursor lies.", "desk"),
    Action("answer_item", "enter", "answer", "Answer the item under the cursor.", "disclosure", footer=True),
    Action("edition_list", "e", "list", "The list of this edition, for a buyer or in full; one key to paper.", "edition desk"),
    Action("heirs_page", "i", "heir", "What an heir has to know: of this edition, from the desk of the whole studio.", "edition desk"),
    Action("open_print", "enter", "open", "Open the print under the cursor.", "roll", footer=True),
    Action("open_life", "o", "life", "Open the life of this print.", "answer", footer=True),
    Action("answer_of", "a", "answer", "What a collector is told of this print; one key to a letter.", "print"),
    Action("full_form", "v", "other form", "The list with persons and terms, or without.", "roll", footer=True),
    Action("write_pdf", "p", "PDF", "Write it as a PDF.", "roll answer", footer=True),
    Action("reprint", "p", "plan reprint", "Plan a print that matches an earlier one: exposure, trays, targets.", "dry_side negative paper", footer=True),
    Action("match", "m", "match", "Hold a print against the one that it is to match.", "dry_side", footer=True),
    Action("new_wedge", "w", "wedge", "Enter a step tablet printed on a paper.", "dry_side paper", footer=True),
    Action("new_reading", "d", "readings", "Enter what an instrument showed of a print.", "dry_side", footer=True),
    Action("open_behind", "enter", "open", "Open the record behind the line under the cursor.", "reprint match", footer=True),
    Action("change_plan", "e", "change", "The same plan under other conditions.", "reprint", footer=True),
    Action("print_worksheet", "p", "worksheet", "Write the darkroom worksheet (PDF) into the studio folder.", "reprint", footer=True),
    Action("copy_worksheet", "y", "copy path", "Copy where the worksheet lies.", "reprint"),
    Action("accept", "a", "accept", "Record that the print is accepted, and by whom.", "match", footer=True),
    Action("reject", "x", "not accept", "Record that the print is not accepted, and by whom.", "match", footer=True),
    Action("history", "h", "history", "Every version of this record.", "print edition evidence entry negative paper", footer=True),
    Action("copy_path", "y", "copy path", "Copy where the certificate is, or the labels.", "print shelf entry"),
    Action("return", "backspace", "return", "Return to where you came from.", "print evidence history entry roll answer disclosure negative paper reprint match", footer=True),
    Action("open_record", "enter", "open", "Open the record under the cursor.", "listed", footer=True),
    Action("answer", "enter", "answer", "Answer once for the marked prints that owe the same; for all, if none is marked.", "finishing", footer=True),
    Action("mark_owing", "space", "mark", "Mark or unmark the print under the cursor, or all that owe the same.", "finishing", footer=True),
    Action("unfold", "right", "unfold", "Show the prints that owe this one by one.", "finishing", footer=True),
    Action("fold", "left", "fold", "Show them in one line again.", "finishing"),
    Action("open_owing", "o", "open", "Open the print under the cursor.", "finishing", footer=True),
    Action("new_paper", "n", "new paper", "Enter a batch of paper.", "dry_side", footer=True),
    Action("mark_shelved", "space", "mark", "Mark or unmark a tray or bottle, for labels or to be retired.", "shelf", footer=True),
    Action("mix", "m", "bath", "Mix a bath from bottles or by a formula, worked out as you type.", "shelf", footer=True),
    Action("mix_stock", "b", "bottle", "Mix a bottle from a formula: what to weigh, in which order.", "shelf", footer=True),
    Action("retire", "x", "retire", "Record that the marked trays and bottles were thrown away.", "shelf entry", footer=True),
    Action("print_labels", "p", "labels", "Print labels for the marked trays and bottles into the studio folder.", "shelf entry", footer=True),
    Action("new_bath", "n", "new tray", "Enter a bath that stands ready.", "shelf"),
    Action("retired_too", "v", "retired too", "Show what was thrown away as well, or no longer.", "shelf"),
    Action("begin_run", "n", "new run", "Begin a run at the trays: a process sheet, sheets, trays.", "wet_side", footer=True),
    Action("print_run", "p", "print, then run", "Enter a printing, then take its sheets to the trays.", "wet_side", footer=True),
    Action("give_up_run", "x", "give up", "Break the run under the cursor off; what was clocked stays.", "wet_side"),
    Action("explain", "e", "explain", "Say after drying why a finding was overridden in the run under the cursor.", "wet_side"),
    Action("pick", "1,2,3,4,5,6,7,8,9", "sheet", "Pick a sheet, or put it back; several for one press together.", "run"),
    Action("press", "enter", "begin or end", "Begin the next step of the sheets, or end the one they are in.", "run"),
    Action("more_time", "plus,add", "longer", "Aim five seconds later.", "run"),
    Action("less_time", "minus,subtract", "aim", "Aim five seconds earlier.", "run"),
    Action("take_back", "0", "back", "Take the last press back, by a correcting entry.", "run"),
    Action("spoiled", "full_stop,decimal,comma", "spoiled", "The picked sheet is spoiled; a digit says how.", "run"),
    Action("other_step", "slash,divide", "other", "Another step than the next: repeat, join, wait in water, test, end the run.", "run"),
    Action("paper_shut", "asterisk,multiply", "paper shut", "Say that all paper is shut away; only that ends the red light.", "run"),
    Action("leave_run", "escape", "leave", "Leave the page; the run goes on, and its clocks.", "run"),
    Action("save", "ctrl+s,f2", "save", "Enter what stands in the form.", "form", footer=True),
    Action("leave_form", "escape", "leave", "Leave the form; it asks when something was typed.", "form", footer=True),
)  # fmt: skip

MOVING: dict[str, str] = {
    "up down": "One line. In a form: the field before, and the next.",
    "pageup pagedown": "A screenful.",
    "home end": "The first line, and the last.",
    "tab shift+tab": "In a form: the next field, and the field before.",
    "left right": "In a form: another of the words that a field offers; right completes a name.",
    "+ -": "In an order of prints: later, and earlier.",
    "y n": "Yes and no, where a question is asked.",
    "ctrl+q": "Leave the program from anywhere; a half-filled form is kept.",
}
"""Keys that cannot be changed, and what they do."""


def applying(where: str, actions: Iterable[Action]) -> tuple[list[Action], ...]:
    """The actions of the places that `where` names, those of lists, those that work everywhere."""
    here, actions = set(where.split()), tuple(actions)
    return (
        [one for one in actions if here & set(one.where.split())],
        [one for one in actions if one.where == "list" and here & HOLDING_LISTS],
        [one for one in actions if one.where == EVERYWHERE],
    )


def with_keys(chosen: Mapping[str, str], actions: Iterable[Action] = ACTIONS) -> tuple[Action, ...]:
    """The actions with the keys that a studio has chosen.

    Raises Refused for an unknown action, or two actions of one place on one key.
    """
    actions = tuple(actions)
    known = {action.name for action in actions}
    for name in chosen:
        if name not in known:
            raise Refused(
                Problem(
                    f"there is no action called {name!r}",
                    "settings.toml",
                    f"keys.{name}",
                    f"actions are: {', '.join(sorted(known))}",
                )
            )
    keyed = tuple(replace(action, key=chosen.get(action.name, action.key)) for action in actions)
    for action in keyed:
        for other in keyed:
            if other is not action and action.name in chosen and _clash(action, other):
                raise Refused(
                    Problem(
                        f"the key {action.key} is taken by {other.name}",
                        "settings.toml",
                        f"keys.{action.name}",
                        "choose another",
                    )
                )
    return keyed


def _clash(action: Action, other: Action) -> bool:
    if action.key != other.key:
        return False
    here, there = _places(action), _places(other)
    return bool(here & there) or EVERYWHERE in here | there


def _places(action: Action) -> set[str]:
    """Where a key has to be free for an action."""
    here = set(action.where.split())
    return here | {place for name in here for place in _WITHIN.get(name, ())}
