"""Pool and spa. Data for later work."""
from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from curtilage.model.base import Flag, Id, Item, Strict, Text
from curtilage.model.policy import Proof
from curtilage.model.site import Point
from curtilage.units import Coordinate, Inches, LengthOrNone, QuantityError, Volts


class PoolItem(Item):
    """A receptacle, switch, luminaire, box or machine near the water, with its distance from the inside wall."""
    id: Id = Field(description="short name")
    kind: Literal["receptacle", "switch", "luminaire", "fan", "junction box", "transformer", "disconnect", "cover control",
                  "outlet", "overhead conductor", "equipment"] = Field(description="what it is")
    basin: Id | None = Field(None, description="basin it is measured from; left out: the first")
    distance: LengthOrNone | None = Field(None, description="horizontal distance from the inside wall [ft]")
    height: LengthOrNone | None = Field(None, description="height above the highest water level [ft]")
    at: Point | None = Field(None, description="east and north [ft]")
    gfci: Flag | None = Field(None, description="whether ground-fault protection is provided")
    in_sight: Flag | None = Field(None, description="whether the water is in sight from it")
    listed: Flag | None = Field(None, description="whether it is listed for swimming pools")
    volts: Volts | None = Field(None, description="voltage [V]")
    load: Id | None = Field(None, description="load row it belongs to")
    note: Text = Field("", description="remark")


class Bond(Item):
    """One part of the equipotential bonding."""
    id: Id = Field(description="short name")
    part: Literal["shell", "perimeter", "metal parts", "underwater lighting", "metal fittings", "equipment", "water",
                  "pump"] = Field(description="what is bonded")
    done: Flag = Field(description="whether it is bonded")
    where: Text = Field("", description="where, in words")
    seen: Proof | None = Field(None, description="who saw it before it was covered")


def _corners(given: object) -> object:
    if isinstance(given, list | tuple) and len(given) >= 3:
        return given
    raise QuantityError("an edge needs three corners or more", "expected a list of points",
                        "write [[0 ft, 0 ft], [44 ft, 0 ft], [44 ft, 18 ft]]")


Polygon = Annotated[tuple[Point, ...], BeforeValidator(_corners)]


class Basin(Item):
    """A pool, spa or plunge."""
    id: Id = Field(description="short name")
    kind: Literal["pool", "spa", "plunge", "fountain", "hydromassage"] = Field(description="what it is")
    edge: Polygon | None = Field(None, description="corners of the inside wall, east and north [ft]")
    depth: LengthOrNone | None = Field(None, description="water depth [ft]")
    raised: Inches | None = Field(None, description="height above the deck [in]")
    cover: Flag = Field(False, description="whether it has a powered cover")
    permanent: Flag = Field(True, description="whether it is permanently installed")


class Pool(Strict):
    """Pool and spa of the estate."""
    structure: Id = Field(description="structure whose panel serves it")
    panel: Id | None = Field(None, description="panel that serves it")
    basins: tuple[Basin, ...] = Field((), description="pools and spas")
    deck: Polygon | None = Field(None, description="corners of the paved surface, east and north [ft]")
    perimeter: Coordinate | None = Field(None, description="width of the perimeter surface [ft]")
    items: tuple[PoolItem, ...] = Field((), description="electrical things near the water")
    bonds: tuple[Bond, ...] = Field((), description="the bonding ledger")
    note: Text = Field("", description="remark")
