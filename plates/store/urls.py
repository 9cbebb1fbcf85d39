"""Addresses of the store room, below studio/store/."""

from django.urls import URLPattern, path

from plates.store.views import batches, baths, recipes, safety, supplies

studio_urls: list[URLPattern] = [
    path("", batches.store, name="store"),
    path("recipes/", recipes.calculator, name="recipes"),
    path("recipes/new/", recipes.new_recipe, name="new_recipe"),
    path("recipes/<int:recipe_id>/", recipes.own_recipe, name="own_recipe"),
    path("mix/", batches.mix, name="mix"),
    path("batch/<int:batch_id>/", batches.batch, name="batch"),
    path("batch/<int:batch_id>/move/", batches.batch_move, name="batch_move"),
    path("batch/<int:batch_id>/days/", batches.batch_days, name="batch_days"),
    path("batch/<int:batch_id>/end/", batches.batch_end, name="batch_end"),
    path("bath/<int:batch_id>/", baths.bath_page, name="bath"),
    path("bath/<int:batch_id>/read/", baths.bath_read, name="bath_read"),
    path("bath/<int:batch_id>/care/", baths.bath_care, name="bath_care"),
    path("supplies/", supplies.supplies, name="supplies"),
    path("supplies/new/", supplies.new_supply, name="new_supply"),
    path("supply/<int:supply_id>/", supplies.supply, name="supply"),
    path("supply/<int:supply_id>/change/", supplies.change_supply, name="change_supply"),
    path("supply/<int:supply_id>/move/", supplies.supply_move, name="supply_move"),
    path("supply/<int:supply_id>/seen/", supplies.supply_seen, name="supply_seen"),
    path("shopping/", supplies.shopping, name="shopping"),
    path("safety/", safety.safety, name="safety"),
    path("safety/batch/<int:batch_id>/label.pdf", safety.batch_label, name="batch_label"),
    path("safety/substance/<slug:key>/label.pdf", safety.substance_label, name="substance_label"),
    path("waste/", safety.waste, name="waste"),
    path("waste/container/", safety.mark_container, name="mark_container"),
    path("waste/clearing/", safety.note_clearing, name="note_clearing"),
    path("costs/", supplies.costs, name="costs"),
]
