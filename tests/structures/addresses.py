"""What the addresses of the structures app are about."""

from tests.factories import World, address


@address(
    "structures:structure-detail", "structures:structure-made-of", "structures:structure-why", "structures:structure-keep",
    "structures:structure-differs", "structures:structure-belongs", "structures:structure-drawings",
    "structures:structure-add-on", "structures:structure-ends",
)
def of_a_structure(world: World) -> dict:
    return {"tag": world.structure.tag}


@address("structures:belonging-end")
def of_a_belonging(world: World) -> dict:
    return {"tag": world.structure.tag, "pk": world.structure.belongings.get().pk}


@address("structures:design-detail", "structures:design-why", "structures:design-drawings")
def of_a_design(world: World) -> dict:
    return {"pk": world.structure.design.pk}


@address("structures:family-detail")
def of_a_family(world: World) -> dict:
    return {"code": world.structure.design.family.code, "revision": world.structure.design.family.revision}


@address("structures:person-change", "structures:person-keep")
def of_a_person(world: World) -> dict:
    return {"username": world.ada.username}
