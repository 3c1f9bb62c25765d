"""The estate file as a whole."""
from typing import Annotated

from pydantic import Field

from curtilage.model.base import Flag, Strict, Text, WholeKind, Words
from curtilage.model.feeders import Feeder
from curtilage.model.gas import Gas
from curtilage.model.grounding import GroundingPlan
from curtilage.model.later import Charging, Event, Link, Provision, Temporary, TierGoal
from curtilage.model.panels import Panel
from curtilage.model.policy import Attested, Authority, Basis, Group, Manager, Owner, Policy, Prepared, SharedNeutral
from curtilage.model.pool import Pool
from curtilage.model.raceways import Box, Penetration, Raceway
from curtilage.model.service import Metered, Service
from curtilage.model.site import Site, SiteGraph, Structure
from curtilage.model.sources import Sources

SCHEMA_VERSION = 1


class EstateFile(Strict):
    """An estate: what the user wrote, checked. Every quantity is a plain float in the unit its description names."""
    curtilage: Annotated[int, WholeKind(1, SCHEMA_VERSION)] = Field(description="version of this file's schema")
    name: Words = Field(description="name of the estate")
    demonstration: Flag = Field(False, description="whether the estate is invented; every page then says so")
    edition: Words = Field(description="edition of the code in force")
    amendments: Text = Field("", description="local amendments, in words")
    local: Text = Field("", description="name of a local layer, amendments/NAME.toml in the estate's folder")
    prepared: Prepared = Field(default_factory=Prepared, description="who prepared the design")
    authority: Authority = Field(default_factory=Authority, description="the authority having jurisdiction")
    site: Site = Field(description="site conditions")
    owner: Owner | None = Field(None, description="what the owner asked for")
    policy: Policy = Field(default_factory=Policy, description="margins and limits of the project")
    basis: Basis = Field(default_factory=Basis, description="how it is built unless a feeder or load says otherwise")
    service: Service = Field(description="the electrical service")
    structures: tuple[Structure, ...] = Field(min_length=1, description="buildings and yards")
    site_graph: SiteGraph | None = Field(None, description="nodes and trenches")
    panels: tuple[Panel, ...] = Field((), description="panels")
    feeders: tuple[Feeder, ...] = Field((), description="feeders")
    groups: tuple[Group, ...] = Field((), description="loads that cannot run together")
    managers: tuple[Manager, ...] = Field((), description="energy management systems")
    shared_neutrals: tuple[SharedNeutral, ...] = Field((), description="multiwire circuits")
    metered: Metered | None = Field(None, description="measured demand of an existing service")
    grounding: GroundingPlan | None = Field(None, description="electrodes and bonds")
    sources: Sources | None = Field(None, description="generators, storage, transfer")
    tiers: tuple[TierGoal, ...] = Field((), description="what each backup tier must do")
    charging: Charging | None = Field(None, description="vehicles and their energy")
    gas: Gas | None = Field(None, description="fuel gas")
    pool: Pool | None = Field(None, description="pool and spa")
    raceways: tuple[Raceway, ...] = Field((), description="raceways with what lies in them")
    boxes: tuple[Box, ...] = Field((), description="pull and junction boxes")
    penetrations: tuple[Penetration, ...] = Field((), description="holes in the structure")
    links: tuple[Link, ...] = Field((), description="communication between structures")
    provisions: tuple[Provision, ...] = Field((), description="what is put in for later")
    temporary: Temporary | None = Field(None, description="power during construction")
    sequence: tuple[Event, ...] = Field((), description="steps of construction")
    attested: tuple[Attested, ...] = Field((), description="facts that only a person can know")
    loads_file: Text = Field("", alias="loads", description="the load list, a CSV or XLSX file beside this one")
