"""The pages of the store room in every state worth looking at."""

from django.urls import reverse

from tests.browser.scenes import Scene, at


def of(name):
    return lambda house: getattr(house.store, name).pk


def calculated(page, house):
    """A recipe with cadmium, in old measures: everything that can be said beside it is said."""
    asked = "recipe=iodised_estabrooke_29&volume=500&unit=ml&told=imperial&ounces=imperial"
    return page.goto(f"{reverse('plates:recipes')}?{asked}")


STORE_SCENES = [
    Scene("store room", at("plates:store"), studio=True),
    Scene("recipes, worked out", calculated, studio=True),
    Scene("mix", at("plates:mix"), studio=True),
    Scene("batch", at("plates:batch", of("batch")), studio=True),
    Scene("bath, weak", at("plates:bath", of("bath")), studio=True),
    Scene("supply, ether", at("plates:supply", of("supply")), studio=True),
    Scene("shopping list", at("plates:shopping"), studio=True),
    Scene("supplies", at("plates:supplies"), studio=True),
    Scene("what a plate costs", at("plates:costs"), studio=True),
]
