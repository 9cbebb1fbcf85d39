"""The addresses of the store room, below the studio's."""

from django.urls import path

from plates.views import batches, recipes

urlpatterns = [
    path("", batches.store, name="store"),
    path("recipes/", recipes.calculator, name="recipes"),
    path("recipes/new/", recipes.new_recipe, name="new_recipe"),
    path("recipes/<int:recipe_id>/", recipes.own_recipe, name="own_recipe"),
    path("mix/", batches.mix, name="mix"),
    path("batch/<int:batch_id>/", batches.batch, name="batch"),
    path("batch/<int:batch_id>/move/", batches.batch_move, name="batch_move"),
    path("batch/<int:batch_id>/days/", batches.batch_days, name="batch_days"),
    path("batch/<int:batch_id>/end/", batches.batch_end, name="batch_end"),
]
