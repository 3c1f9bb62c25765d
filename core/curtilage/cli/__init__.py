"""The command line: the only room that prints. Each command is a few lines over the core; `main` turns errors into words."""

from __future__ import annotations

import argparse
import os
import sys

from curtilage.errors import CurtilageError


def main(argv: list[str] | None = None) -> int:
    """Run one command; returns the exit code: 0 done, 1 done and something does not hold, 2 refused."""
    args = parser().parse_args(argv)
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # matrices are small: threads would only wait for each other
    try:
        from curtilage.cli import commands

        return int(getattr(commands, args.run)(args))
    except CurtilageError as e:
        print(e, file=sys.stderr)
        return 2
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except KeyboardInterrupt:
        print("interrupted; nothing was written half-way", file=sys.stderr)
        return 130


_KINDS = {"--units": "unit system", "--as": "form"}
"""What the words behind an option are called; all other choices are commands."""


class _Parser(argparse.ArgumentParser):
    """argparse, with the nearest command named when a word is unknown."""

    def error(self, message: str) -> None:  # type: ignore[override]
        from curtilage.errors import listed, nearest

        if "invalid choice: " in message:
            given = message.split("invalid choice: ")[1].split("'")[1]
            known = [w.strip(" ')") for w in message.split("choose from ")[1].split(",")]
            near = nearest(given, known)
            kind = _KINDS.get(message.split("argument ")[1].split(":")[0], "command")
            message = f"no {kind} {given!r}; {f'did you mean {near}?' if near else f'the {kind}s are {listed(known)}'}"
        self.exit(2, f"curtilage: {message}\nTry: {self.prog} --help\n")


def edition_name(words: str) -> str:
    """An edition by its name, or by its year alone."""
    return f"nec{words}" if words.isascii() and words.isdigit() else words


def parser() -> argparse.ArgumentParser:
    """The commands and their options."""
    top = _Parser(
        prog="curtilage",
        description="Electrical design of a residential estate, every number explained.",
        epilog="Design and teaching aid. The authority having jurisdiction, the utility and a licensed person decide.",
    )
    top.add_argument("--version", action="store_true", help="print the version and stop")
    sub = top.add_subparsers(dest="command", required=True, metavar="COMMAND", parser_class=_Parser)

    def command(name: str, run: str, text: str) -> argparse.ArgumentParser:
        p = sub.add_parser(name, help=text, description=text)
        p.set_defaults(run=run)
        return p

    def estate(p: argparse.ArgumentParser, name: str = "estate") -> argparse.ArgumentParser:
        p.add_argument(name, metavar=name.upper(), help="folder of an estate, or its estate.yaml, or a frozen record")
        return p

    def choice(p: argparse.ArgumentParser) -> argparse.ArgumentParser:
        p.add_argument(
            "--variant",
            metavar="NAME",
            action="append",
            default=[],
            help="variant of the estate; may be repeated, applied in order",
        )
        p.add_argument(
            "--edition", metavar="NAME", type=edition_name, help="another code edition than the estate states, such as nec2026"
        )
        return p

    def json_too(p: argparse.ArgumentParser) -> argparse.ArgumentParser:
        p.add_argument("--json", action="store_true", help="print JSON; `curtilage schema` prints its schema")
        return p

    p = command("new", "new", "Write a small commented starter estate.")
    p.add_argument("folder", metavar="FOLDER", help="a folder that does not exist yet, or is empty")

    p = json_too(choice(estate(command("design", "design", "Design an estate: loads, service, feeders, checks."))))
    p.add_argument("--report", metavar="FILE", help="also write the report, one HTML file that opens by itself")
    p.add_argument("--units", choices=("us", "si"), help="feet or metres; without it, what the estate says")
    p.add_argument("--circuits", action="store_true", help="print the branch circuits too")

    p = json_too(choice(estate(command("explain", "explain", "Show the full working of one number."))))
    p.add_argument(
        "number", metavar="NUMBER", help="tag of a number, such as feeder/GH/drop; a part of a tag lists what it matches"
    )
    p.add_argument("--as", dest="form", choices=("text", "markdown", "html"), default="text", help="form of the working")
    p.add_argument("--short", action="store_true", help="stop at numbers that have a working of their own")

    p = json_too(choice(estate(command("show", "show", "Print one topic of the design: faults, grounding, raceways and more."))))
    p.add_argument("topic", metavar="TOPIC", nargs="?", help="such as faults; left out, the topics are listed")
    p.add_argument("--units", choices=("us", "si"), help="feet or metres; without it, what the estate says")

    words = "Print the load letter to the utility, in Markdown; or what a letter of the utility would change."
    p = choice(estate(command("letter", "letter", words)))
    p.add_argument("--to", metavar="FILE", help="write it to a file instead")
    p.add_argument(
        "--current", metavar="QUANTITY",
        help="show what a letter of this fault current, line to line at the transformer, would change, such as '22 kA'",
    )

    p = json_too(
        command("compare", "compare", "Compare two designs: inputs that changed, numbers that follow, checks that flipped.")
    )
    estate(p, "a")
    p.add_argument("b", metavar="B", nargs="?", help="the other estate or record; left out: the same as A")
    for side in "ab":
        p.add_argument(f"--variant-{side}", metavar="NAME", action="append", default=[], help=f"variant on side {side.upper()}")
        p.add_argument(f"--edition-{side}", metavar="NAME", type=edition_name, help=f"edition on side {side.upper()}")
    p.add_argument("--all", action="store_true", help="list every number that moved, not the main ones")

    p = choice(estate(command("freeze", "freeze", "Write a record of inputs, edition and results that can be replayed.")))
    p.add_argument("--to", metavar="FILE", required=True, help="the record to write; an existing file is refused")

    p = json_too(command("replay", "replay", "Open a frozen record: does it reproduce? What moves with other inputs?"))
    p.add_argument("record", metavar="RECORD", help="a file written by `curtilage freeze`")
    p.add_argument(
        "--set",
        metavar="PATH=VALUE",
        action="append",
        default=[],
        dest="changes",
        help="replay with another input, such as service.transformer.rating='167 kVA'",
    )

    estate(json_too(command("variants", "variants", "List the variants of an estate.")))

    p = json_too(choice(estate(command("later", "later", "What limits first when a load is added at a panel?"))))
    p.add_argument("--panel", metavar="PANEL", required=True, help="the panel that would feed the load")
    p.add_argument("--add", metavar="QUANTITY", required=True, help="the load, such as '11.5 kVA'")
    p.add_argument("--continuous", action="store_true", help="the load runs for three hours or more")

    p = command("edition", "edition", "What code editions say.")
    kinds = p.add_subparsers(dest="what", required=True, metavar="WHAT", parser_class=_Parser)
    kinds.add_parser("list", help="the editions at hand").set_defaults(run="edition_list")
    p = json_too(kinds.add_parser("changes", help="what moved between two editions"))
    p.add_argument("a", metavar="A", type=edition_name)
    p.add_argument("b", metavar="B", type=edition_name)
    p.set_defaults(run="edition_changes")

    p = json_too(command("reference", "reference", "Run files of published examples: printed, ours, difference."))
    p.add_argument("paths", metavar="PATH", nargs="+", help="a file or a folder of such files")

    estate(command("migrate", "migrate", "Bring an estate file of an older version up to this one; the old file is kept."))

    p = command("schema", "schema", "Print a JSON Schema.")
    names = "design, explain, show, compare, replay, later, variants, edition, reference: what --json prints"
    p.add_argument("name", metavar="NAME", help=f"estate, variant, record: files; {names}")
    return top
