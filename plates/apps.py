from django.apps import AppConfig


class PlatesConfig(AppConfig):
    name = "plates"
    verbose_name = "Plates and benches"
