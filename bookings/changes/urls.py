"""Addresses of changes: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.changes.views import client, studio

public_urls: list[URLPattern] = [
    path("mine/change/", client.change, name="mine_change"),
    path("mine/change/move/", client.move, name="mine_move"),
    path("mine/change/plate/", client.add_plate, name="mine_add_plate"),
    path("mine/change/post/", client.by_post, name="mine_by_post"),
    path("mine/change/named/", client.name_person, name="mine_named"),
    path("mine/change/named/nobody/", client.remove_named_person, name="mine_unnamed"),
    path("mine/change/cancel/", client.cancel, name="mine_cancel"),
]
studio_urls: list[URLPattern] = [
    path("orders/<slug:reference>/cancel/", studio.cancel, name="cancel"),
    path("orders/<slug:reference>/move/", studio.move, name="move"),
    path("orders/<slug:reference>/again/", studio.rebook, name="rebook"),
]
