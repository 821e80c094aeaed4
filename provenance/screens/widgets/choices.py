"""A question on the page itself, answered by a digit, while the clocks go on above it."""

from dataclasses import dataclass

from rich.text import Text
from textual.widgets import Static

PAGE = 8
"""So many answers at a time; 9 turns to the next ones where there are more."""


@dataclass(frozen=True)
class Question:
    """What is asked, why, and what can be answered."""

    asks: str
    about: str = ""
    answers: tuple[str, ...] = ()
    leave: str = "leave it as it is"
    """What 0 means."""
    timed: bool = False
    """Whether a time is typed instead: minutes and seconds as a clock shows them."""


class Choices(Static):
    """Shows a question and reads its digits."""

    DEFAULT_CSS = """
    Choices { height: 1fr; padding: 0 1; display: none; }
    Choices.asking { display: block; }
    """

    def __init__(self, *, classes: str | None = None) -> None:
        super().__init__(classes=classes)
        self._question = Question("")
        self._from = 0
        self._typed = ""

    def ask(self, question: Question) -> None:
        """Show a question."""
        self._question, self._from, self._typed = question, 0, ""
        self._show()

    def digit(self, digit: str) -> int | None:
        """The answer that a digit gives, counted from 0; None when it gives none yet."""
        if self._question.timed:
            self._typed = (self._typed + digit)[-5:]
            self._show()
            return None
        place = int(digit) - 1
        if self._more and place == PAGE:
            self._from = (self._from + PAGE) % (-(-len(self._question.answers) // PAGE) * PAGE)
            self._show()
            return None
        chosen = self._from + place
        there = place < (PAGE if self._more else 9) and chosen < len(self._question.answers)
        return chosen if there else None

    @property
    def typed_ms(self) -> int | None:
        """The time that was typed: ``215`` is 2 min 15 s."""
        if not self._question.timed or not self._typed:
            return None
        minutes, seconds = divmod(int(self._typed), 100)
        return (minutes * 60 + seconds) * 1000 or None

    def erase(self) -> None:
        """Take the last typed digit away."""
        self._typed = self._typed[:-1]
        self._show()

    @property
    def timed(self) -> bool:
        """Whether a time is being typed, so that 0 is a figure."""
        return self._question.timed

    @property
    def _more(self) -> bool:
        return len(self._question.answers) > 9

    def _show(self) -> None:
        question = self._question
        quiet = self.app.theme_variables["quiet"]
        text = Text()
        text.append(f"{question.asks}\n", f"bold {self.app.theme_variables['accent']}")
        if question.about:
            text.append(f"{question.about}\n", quiet)
        if question.timed:
            minutes, seconds = divmod(int(self._typed or 0), 100)
            text.append(f"\n  {minutes}:{seconds:02d}\n\n", "bold")
            text.append("digits  minutes and seconds   -  one back   enter  that long;", quiet)
            text.append(f" with nothing typed: {question.leave}", quiet)
            self.update(text)
            return
        shown = question.answers[self._from : self._from + (PAGE if self._more else 9)]
        numbered = [(str(number), answer) for number, answer in enumerate(shown, 1)]
        if self._more:
            numbered.append(("9", "more"))
        for line in _columns(numbered, self.size.width):
            for key, answer in line:
                text.append(f"{key}  ", "bold").append(answer)
            text.append("\n")
        text.append("0  ", "bold").append(question.leave, quiet)
        self.update(text)


def _columns(answers: list[tuple[str, str]], width: int) -> list[list[tuple[str, str]]]:
    """The answers in lines: in two columns, read downwards, where all are short enough."""
    half = max(0, width // 2 - 4)
    if len(answers) < 4 or any(len(answer) > half for _key, answer in answers):
        return [[one] for one in answers]
    rows = -(-len(answers) // 2)
    left, right = answers[:rows], answers[rows:]
    lines = [[(key, answer.ljust(half + 1))] for key, answer in left]
    for line, one in zip(lines, right, strict=False):
        line.append(one)
    return lines
