"""The `provenance` command."""

import sys


def main() -> None:
    """Run the command line; `--version` answers before anything heavy is loaded."""
    if sys.argv[1:] in (["--version"], ["-V"]):
        from provenance import __version__

        sys.stdout.write(f"provenance {__version__}\n")
        return
    from provenance.cli.main import run

    sys.exit(run())


if __name__ == "__main__":
    main()
