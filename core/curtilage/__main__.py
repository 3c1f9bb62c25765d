"""The `curtilage` command. The version is answered before anything else is imported, so it costs no more than starting Python."""
import sys

from curtilage import __version__


def main() -> int:
    if sys.argv[1:] == ["--version"]:
        sys.stdout.write(f"curtilage {__version__}\n")
        return 0
    from curtilage.cli import main as run
    return run()


if __name__ == "__main__":
    sys.exit(main())
