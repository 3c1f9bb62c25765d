"""What is stated of an overcurrent device beyond its rating: when it trips."""
from typing import Annotated

from pydantic import Field

from curtilage.model.base import NumberKind, Strict, Text
from curtilage.units import Percent, Seconds

Multiple = Annotated[float, NumberKind(1, 50)]


class TripPoint(Strict):
    """One point of the slow side of a trip curve."""
    multiple: Multiple = Field(description="current in multiples of the rating")
    time: Seconds = Field(description="longest time to clear at this current [s]")


class Trip(Strict):
    """When a breaker trips, by its maker; what is left out is bounded by standards and common practice."""
    instantaneous: Multiple | None = Field(
        None, description="pick-up of the instantaneous trip, as set or fixed, in multiples of the rating")
    tolerance: Percent | None = Field(None, description="how far the pick-up may lie above that [%]; left out: common practice")
    curve: tuple[TripPoint, ...] = Field((), description="points of the slow side of the trip curve")
    document: Text = Field("", description="where this is documented")
