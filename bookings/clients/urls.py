"""Addresses of clients, for visitors and clients with a link."""

from django.urls import URLPattern, path

from bookings.clients import views

public_urls: list[URLPattern] = [
    path("sitting/<str:token>/", views.sitting, name="sitting"),
    path("sitting/<str:token>/sitting.ics", views.sitting_calendar, name="sitting_calendar"),
    path("mine/papers/", views.papers, name="mine_papers"),
    path("mine/papers/<int:invoice_id>.pdf", views.invoice, name="mine_invoice"),
    path("mine/papers/plate-<int:number>.jpg", views.picture, name="mine_picture"),
    path("mine/data/", views.data, name="mine_data"),
    path("mine/data/copy.zip", views.copy, name="mine_copy"),
    path("mine/data/erase/", views.erase, name="mine_erase"),
]
