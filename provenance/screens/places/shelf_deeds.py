"""What can be done to bottles and trays, in the list of them and on the page of one."""

import asyncio

from provenance.errors import ProvenanceError
from provenance.model.chemistry import Bath, Stock
from provenance.records.reader import Reader, Stored
from provenance.screens.actions import with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.retire import Retire
from provenance.screens.frame import Frame


class ShelfDeeds(Frame):
    """Labels and retirement for what is `chosen`."""

    def __init__(self) -> None:
        super().__init__()
        self._labels = ""
        """Where the last labels are."""

    @property
    def chosen(self) -> tuple[int, ...]:
        """The records that a deed is about."""
        raise NotImplementedError

    def done(self) -> None:
        """What was chosen is dealt with."""

    @property
    def today(self) -> str:
        """The date in the studio."""
        return self.studio.register.clock().local_date().isoformat()

    @property
    def keys(self) -> dict[str, str]:
        """The key of each action, as it is printed on the keyboard."""
        return {one.name: shown_key(one.key) for one in with_keys(self.studio.settings.keys)}

    def _held(self) -> list[Stored[Bath] | Stored[Stock]]:
        """The chosen bottles and trays that are in use; else says why there is none."""
        held = shelved(self.studio.register.read, self.chosen)
        in_use = [one for one in held if one.body.retired_on is None]
        if not in_use:
            self.say(
                f"{held[0].body.code} was retired on {held[0].body.retired_on}."
                if held
                else "Put the cursor on a tray or a bottle, or mark several."
            )
        return in_use

    def action_retire(self) -> None:
        """Record that what is chosen was thrown away."""
        if held := self._held():
            form = Retire([one.id for one in held])
            self.studio.push_screen(form, lambda saved: self.done() if saved else None)

    def action_print_labels(self) -> None:
        """Print labels for what is chosen into the studio folder."""
        if held := self._held():
            self.run_worker(self._print([f"#{one.id}" for one in held]), group="labels")

    async def _print(self, references: list[str]) -> None:
        # brings what draws pages with it, which the terminal does not need before
        from provenance.studio.labels import next_label_file, print_labels

        folder, clock, day = self.studio.folder, self.studio.register.clock, self.today
        self.say("drawing the labels")
        try:
            printed = await asyncio.to_thread(
                lambda: print_labels(
                    folder, next_label_file(folder, day), references=references, clock=clock
                )
            )
        except ProvenanceError as error:
            self.say(str(error))
            return
        self._labels = str(printed.path)
        count = len(printed.labels)
        said = [
            f"{'1 label' if count == 1 else f'{count} labels'};"
            f" {self.keys['copy_path']} copies where they are:",
            f"{printed.path}",
        ]
        said += [
            f"{label.code}: no room for {', '.join(left)}; a larger label has it"
            for label, left in zip(printed.labels, printed.left_off, strict=True)
            if left
        ]
        self.done()
        self.say("\n".join(said))

    def action_copy_path(self) -> None:
        """Copy where the last labels are."""
        if not self._labels:
            self.say(f"No labels were printed here yet; {self.keys['print_labels']} prints them.")
            return
        self.studio.copy_to_clipboard(self._labels)
        self.say(f"copied: {self._labels}")


def shelved(reader: Reader, records: tuple[int, ...]) -> list[Stored[Bath] | Stored[Stock]]:
    """The bottles and trays among `records`."""
    found: list[Stored[Bath] | Stored[Stock]] = []
    for record in records:
        kind = reader.kind_of(record)
        if kind == Bath.KIND:
            found.append(reader.get(Bath, record))
        elif kind == Stock.KIND:
            found.append(reader.get(Stock, record))
    return found
