"""Mass of conductors, written a second time: in grams and cubic centimetres, areas read from the table's own square inches."""
import csv
from pathlib import Path

import curtilage

TABLE = Path(curtilage.__file__).parent / "data" / "tables" / "nec_ch9_t8_conductor_properties.csv"
with open(TABLE, encoding="utf-8") as f:
    ROWS = [r for r in csv.DictReader(f) if not r["size_strand"].endswith("_sol")]
MILS = {r["size_strand"].removesuffix("_str"): float(r["cmil"]) for r in ROWS}
GRAMS = {"cu": 8.89, "al": 0.0975 * 453.59237 / 2.54 ** 3}                  # per cm3: ASTM B496; ASTM B231


def kilograms(count: float, size: str, feet: float, metal: str) -> float:
    """A round wire of the same area, 2 % longer than the run."""
    diameter_cm = MILS[size] ** 0.5 / 1000 * 2.54
    return count * 3.141592653589793 / 4 * diameter_cm ** 2 * (feet * 30.48 * 1.02) * GRAMS[metal] / 1000
