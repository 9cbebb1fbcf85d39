"""Addresses of handover, below studio/."""

from django.urls import URLPattern, path

from bookings.handover.views import closed_days, desk, rack

studio_urls: list[URLPattern] = [
    path("finishing/", rack.finishing, name="finishing"),
    path("closed-days/", closed_days.closed_days, name="closed_days"),
    path("closed-days/holidays/", closed_days.close_holidays, name="close_holidays"),
    path("closed-days/<int:closed_day_id>/open/", closed_days.open_again, name="open_again"),
    path("hand-over/", desk.desk, name="handovers"),
    path("hand-over/<slug:reference>/", desk.hand_over, name="hand_over"),
    path("hand-over/<slug:reference>/post/", desk.post, name="post"),
    path("hand-over/<slug:reference>/packing-slip.pdf", desk.slip, name="packing_slip"),
    path("parcels/<int:parcel_id>/", desk.parcel, name="parcel"),
]
