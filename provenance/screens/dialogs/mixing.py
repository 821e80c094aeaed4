"""What the forms for mixing share: fields above, and below them what comes of what is typed."""

from collections.abc import Iterable, Sequence
from functools import cached_property

from provenance.errors import Problem, Refused
from provenance.screens.widgets.fields import Field
from provenance.screens.widgets.form import Form
from provenance.screens.widgets.working import Said, Shown, Working
from provenance.studio.chemicals import Chemicals, load_chemicals


class MixingForm(Form):
    """Works out anew at every key.

    What cannot be read yet is said quietly below while it is typed, and at its
    field once the cursor leaves it; what is too much for a bottle is said at
    its field at once.
    """

    WORKED_FROM: Sequence[str] = ()
    """The fields that the working rests on."""
    DEFAULT_CSS = """
    MixingForm #fields { height: auto; max-height: 70%; }
    """

    @cached_property
    def chemicals(self) -> Chemicals:
        """The tables of the studio."""
        return load_chemicals(self.studio_folder)

    def work_out(self) -> Iterable[Shown]:
        """What comes of what stands in the fields.  Raises Refused, naming fields."""
        raise NotImplementedError

    def too_much(self) -> Iterable[Problem]:
        """What forbids the mix that was worked out last."""
        return ()

    def opened(self) -> None:
        """Room for the working."""
        self.mount(Working(), after="#fields")
        self.call_after_refresh(self._work)

    def typed(self, field: Field) -> None:
        """Work out anew."""
        self._work()

    def left(self, field: Field) -> None:
        """Say at its field what is wrong."""
        self._work()

    def _work(self) -> None:
        if not self.query(Working):
            return
        working = self.query_one(Working)
        try:
            shown = list(self.work_out())
        except Refused as error:
            at_fields = [one for one in error.problems if self._at_its_field(one)]
            rest = [one for one in error.problems if one not in at_fields]
            working.show([Said(_told(one), quiet=True) for one in rest])
            self._tell(at_fields)
            return
        working.show(shown)
        self._tell(self.too_much())

    def _at_its_field(self, problem: Problem) -> bool:
        """Whether it is said there: something stands in it, and it is not being typed."""
        field = self.fields.get(problem.field)
        return field is not None and bool(field.value.strip()) and not field.has_focus_within

    def _tell(self, problems: Iterable[Problem]) -> None:
        wrong: dict[str, str] = {}
        for problem in problems:
            wrong.setdefault(problem.field, _told(problem))
        for key in self.WORKED_FROM:
            self.fields[key].tell(wrong.get(key, ""))


def with_unit(text: str, unit: str) -> str:
    """A figure that is being typed, with the unit that its label promises."""
    typed = text.strip()
    return f"{typed} {unit}" if typed and not any(one.isalpha() for one in typed) else typed


def _told(problem: Problem) -> str:
    return f"{problem.what}; {problem.mend}" if problem.mend else problem.what
