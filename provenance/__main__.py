"""The `provenance` command."""

import sys

TYPE_CHECKING = False  # the module `typing` alone would take longer than the answer

if TYPE_CHECKING:
    from provenance.studio.folder import StudioFolder


def main() -> None:
    """Run the command line; `--version` answers before anything heavy is loaded."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        from provenance import __version__

        sys.stdout.write(f"provenance {__version__}\n")
        return
    import gc

    from provenance.cli.main import run

    status = run(_open_screens)
    # What is still there goes with the process; taking it apart would take as long as a short list.
    gc.freeze()
    sys.exit(status)


def _open_screens(folder: "StudioFolder", light: str, mouse: bool) -> int:
    # the two faces do not know each other; the terminal application is loaded only here
    from provenance.screens.run import run_screens

    return run_screens(folder, light=light, mouse=mouse)


if __name__ == "__main__":
    main()
