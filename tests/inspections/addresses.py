"""What the addresses of the inspections app are about."""

from inspections.actions.observations import add_photo
from inspections.models import FaultRequest
from tests.factories import World, address
from tests.inspections import walking


def visit_of(world: World):
    """A visit that Ada has begun and found something wrong on."""

    def make():
        visit = walking.under_way(world.structure, world.ada)
        walking.wrong(visit, world.ada)
        return visit

    return world.once("visit", make)


@address("inspections:structure-visits", "inspections:look-begin")
def of_a_structure(world: World) -> dict:
    return {"tag": world.structure.tag}


@address(
    "inspections:visit-detail", "inspections:visit-report", "inspections:visit-start", "inspections:visit-before",
    "inspections:visit-walk", "inspections:visit-corners", "inspections:corner-keep", "inspections:visit-end",
    "inspections:visit-finish",
)
def of_a_visit(world: World) -> dict:
    return {"pk": visit_of(world).pk}


@address("inspections:walk-stretch", "inspections:walk-keep", "inspections:walk-rest")
def of_a_stretch(world: World) -> dict:
    return {"pk": visit_of(world).pk, "stretch": "B1-R"}


@address("inspections:observation-correct", "inspections:correction-keep")
def of_an_observation(world: World) -> dict:
    return {"pk": visit_of(world).observations.get().pk}


@address("inspections:photo-shown", "inspections:photo-small", "inspections:photo-original")
def of_a_photo(world: World) -> dict:
    def make():
        visit = visit_of(world)
        return add_photo(visit, walking.picture(), "p.jpg", by=world.ada, device_at=None, corner="tag right")

    return {"pk": world.once("photo on a walk", make).pk}


@address("inspections:storm-detail", "inspections:storm-widen", "inspections:storm-catch-up")
def of_a_storm(world: World) -> dict:
    return {"pk": world.once("storm", lambda: walking.storm(world.olive)).pk}


@address("inspections:wrong-detail", "inspections:wrong-step")
def of_something_wrong(world: World) -> dict:
    visit_of(world)
    return {"pk": FaultRequest.objects.get().pk}
