"""Addresses of day, below studio/."""

from django.urls import URLPattern, path

from bookings.day.views import attendance, late, papers, queue

studio_urls: list[URLPattern] = [
    path("", queue.today, name="today"),
    path("day/<int:day_id>/", queue.day, name="day"),
    path("day/<int:day_id>/late/", late.late, name="late"),
    path("day/<int:day_id>/late/again/", late.again, name="late_again"),
    path("day/<int:day_id>/late/tell/", late.notify_all, name="late_tell_all"),
    path("sitting/<int:sitting_id>/late/tell/", late.notify, name="late_tell"),
    path("day/<int:day_id>/state/", queue.state, name="state"),
    path("sitting/<int:sitting_id>/mark/", attendance.mark, name="mark"),
    path("sitting/<int:sitting_id>/mark-back/", attendance.undo_mark, name="take_mark_back"),
    path("day/<int:day_id>/run-sheet.pdf", papers.run_sheet, name="run_sheet"),
    path("day/<int:day_id>/rack-sheet.pdf", papers.rack_sheet, name="rack_sheet"),
    path("day/<int:day_id>/labels.pdf", papers.day_labels, name="day_labels"),
    path("plate/<int:number>/label.pdf", papers.plate_label, name="plate_label"),
    path("plate/<int:number>/order/", papers.plate_order, name="plate_order"),
    path("pour/<int:slot_id>/", queue.pour, name="pour"),
    path("plate/<int:plate_id>/on/", queue.press, name="press"),
    path("plate/<int:plate_id>/back/", queue.undo_press, name="take_back"),
    path("plate/<int:plate_id>/spoilt/", queue.spoil, name="spoil"),
]
