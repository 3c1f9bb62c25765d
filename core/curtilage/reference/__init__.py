"""Somebody else's printed numbers, run against ours: one small file per example, written without any Python.

`run(paths)` gives a report; `command(paths)` gives it as text or JSON with an exit code.
"""
from curtilage.reference.command import command
from curtilage.reference.methods import METHODS
from curtilage.reference.report import Report, Row
from curtilage.reference.run import run
from curtilage.reference.text import one, render, summary, working

__all__ = ["METHODS", "Report", "Row", "command", "one", "render", "run", "summary", "working"]
