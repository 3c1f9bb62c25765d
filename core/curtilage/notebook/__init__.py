"""What the notebooks call: cases and their designs, inputs, the parts of each page. A notebook holds no engineering.

To import this room is enough for a design or a told number to show itself where it ends a cell, in Jupyter and in marimo.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")          # the network's matrices are small: threads would only wait

from curtilage.notebook import (
    compared,
    demand,
    feeder_inputs,
    feeders,
    inputs,
    links,
    raceway_inputs,
    raceways,
    service,
    service_inputs,
    start,
    workings,
)
from curtilage.notebook.cases import default_estate, design, editions, variants
from curtilage.notebook.compared import edition_table
from curtilage.notebook.frame import asked, attempt, estate_asked, head, opened, section, show, trouble
from curtilage.notebook.links import ways
from curtilage.notebook.workings import working
from curtilage.report.show import attach

__all__ = [
    "asked", "attempt", "compared", "default_estate", "demand", "design", "edition_table", "editions", "estate_asked",
    "feeder_inputs", "feeders", "head", "inputs", "links", "opened", "raceway_inputs", "raceways", "section", "service",
    "service_inputs", "show", "start", "trouble", "variants", "ways", "working", "workings",
]

attach()
