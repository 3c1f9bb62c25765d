"""Estate and edition to design: stages in order, choice of sizes, comparison, records."""

from curtilage.design.design import Design, Number

__all__ = ["Design", "Number"]
