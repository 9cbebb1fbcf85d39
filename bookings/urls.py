"""Addresses for visitors, for clients with a link, and for the photographer."""

from django.urls import include, path

from bookings.views import attendance, checkout, client, line, line_desk, orders, papers, planner, public, queue

studio = (
    [
        path("", queue.today, name="today"),
        path("day/<int:day_id>/", queue.day, name="day"),
        path("day/<int:day_id>/state/", queue.state, name="state"),
        path("sitting/<int:sitting_id>/mark/", attendance.mark, name="mark"),
        path("sitting/<int:sitting_id>/mark-back/", attendance.take_mark_back, name="take_mark_back"),
        path("day/<int:day_id>/run-sheet.pdf", papers.run_sheet, name="run_sheet"),
        path("day/<int:day_id>/rack-sheet.pdf", papers.rack_sheet, name="rack_sheet"),
        path("plate/<int:number>/label.pdf", papers.plate_label, name="plate_label"),
        path("plate/<int:number>/order/", papers.plate_order, name="plate_order"),
        path("pour/<int:slot_id>/", queue.pour, name="pour"),
        path("plate/<int:plate_id>/on/", queue.press, name="press"),
        path("plate/<int:plate_id>/back/", queue.take_back, name="take_back"),
        path("plate/<int:plate_id>/spoilt/", queue.spoil, name="spoil"),
        path("planner/", planner.planner, name="planner"),
        path("planner/<int:day_id>/", planner.plan_day, name="plan_day"),
        path("planner/<int:day_id>/what-if/", planner.what_if, name="what_if"),
        path("planner/<int:day_id>/chances/", planner.chances, name="chances"),
        path("day/<int:day_id>/line/", line_desk.desk, name="line"),
        path("day/<int:day_id>/line/sheet/", line_desk.sheet, name="line_sheet"),
        path("day/<int:day_id>/line/keep/", line_desk.keep, name="line_keep"),
        path("line/<int:place_id>/call/", line_desk.call, name="line_call"),
        path("line/<int:place_id>/come/", line_desk.come, name="line_come"),
        path("line/<int:place_id>/did-not-come/", line_desk.strike, name="line_strike"),
        path("line/<int:place_id>/let-in-again/", line_desk.take_back, name="line_take_back"),
        path("orders/", orders.orders, name="orders"),
        path("orders/<slug:reference>/", orders.order, name="order"),
        path("orders/<slug:reference>/invoice/", orders.issue, name="issue"),
        path("orders/<slug:reference>/invoice.pdf", orders.invoice, name="invoice"),
        path("orders/<slug:reference>/pickup.pdf", orders.pickup_notice, name="pickup_notice"),
        path("orders/<slug:reference>/cancel/", orders.cancel, name="cancel"),
        path("orders/<slug:reference>/move/", orders.move, name="move"),
    ],
    "studio",
)

urlpatterns = [
    path("", public.home, name="home"),
    path("sit/", public.choose, name="choose"),
    path("sit/times/", public.times, name="times"),
    path("sit/hold/", public.hold, name="hold"),
    path("sit/<str:token>/details/", checkout.details, name="details"),
    path("sit/<str:token>/deposit/", checkout.deposit, name="deposit"),
    path("sit/<str:token>/practice-card/", checkout.practice_card, name="practice_card"),
    path("sitting/<str:token>/", client.sitting, name="sitting"),
    path("sitting/<str:token>/sitting.ics", client.sitting_calendar, name="sitting_calendar"),
    path("line/<str:token>/", line.join, name="line_join"),
    path("line/<str:token>/large/", line.large, name="line_large"),
    path("in-line/<str:token>/", line.place, name="line_place"),
    path("in-line/<str:token>/leave/", line.leave, name="line_leave"),
    path("studio/", include(studio)),
]
