"""Addresses for visitors, for clients with a link, and for the photographer."""

from django.urls import include, path

from bookings.access import views as step_up
from bookings.books.views import accounts
from bookings.books.views import open as books
from bookings.cards.views import client as cards
from bookings.cards.views import studio as cards_desk
from bookings.changes.views import client as mine_change
from bookings.changes.views import studio as changes
from bookings.checkout.views import choosing as public
from bookings.checkout.views import details as checkout
from bookings.clients import views as mine
from bookings.day.views import attendance, late, papers, queue
from bookings.desk import views as orders
from bookings.handover.views import desk as handover
from bookings.handover.views import rack as finishing
from bookings.handover.views.closed_days import close_holidays, closed_days, open_again
from bookings.invoices.views import invoices
from bookings.invoices.views import runs as invoice_runs
from bookings.invoices.views import sealed as kept_away
from bookings.letters import views as reminders
from bookings.payments import views as cash
from bookings.planner.views import days as planner
from bookings.planner.views import feed
from bookings.vouchers.views import client as vouchers
from bookings.vouchers.views import studio as voucher_desk
from bookings.waitlist import views as waiting
from bookings.walkups.views import client as line
from bookings.walkups.views import studio as line_desk

studio = (
    [
        path("", queue.today, name="today"),
        path("day/<int:day_id>/", queue.day, name="day"),
        path("day/<int:day_id>/late/", late.late, name="late"),
        path("day/<int:day_id>/late/again/", late.again, name="late_again"),
        path("day/<int:day_id>/late/tell/", late.tell_all, name="late_tell_all"),
        path("sitting/<int:sitting_id>/late/tell/", late.tell, name="late_tell"),
        path("day/<int:day_id>/state/", queue.state, name="state"),
        path("sitting/<int:sitting_id>/mark/", attendance.mark, name="mark"),
        path("sitting/<int:sitting_id>/mark-back/", attendance.take_mark_back, name="take_mark_back"),
        path("day/<int:day_id>/run-sheet.pdf", papers.run_sheet, name="run_sheet"),
        path("day/<int:day_id>/rack-sheet.pdf", papers.rack_sheet, name="rack_sheet"),
        path("day/<int:day_id>/labels.pdf", papers.day_labels, name="day_labels"),
        path("plate/<int:number>/label.pdf", papers.plate_label, name="plate_label"),
        path("plate/<int:number>/order/", papers.plate_order, name="plate_order"),
        path("pour/<int:slot_id>/", queue.pour, name="pour"),
        path("plate/<int:plate_id>/on/", queue.press, name="press"),
        path("plate/<int:plate_id>/back/", queue.take_back, name="take_back"),
        path("plate/<int:plate_id>/spoilt/", queue.spoil, name="spoil"),
        path("telephone/", feed.telephone, name="telephone"),
        path("telephone/stop/", feed.stop, name="telephone_stop"),
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
        path("day/<int:day_id>/waiting/", waiting.waiting_list, name="waiting_list"),
        path("waiting/<int:waiting_id>/strike/", waiting.strike, name="waiting_strike"),
        path("cards/", cards_desk.desk, name="cards"),
        path("cards/<int:notice_id>/looked/", cards_desk.looked, name="card_looked"),
        path("cards/<int:page_id>/give-back/", cards_desk.give_back, name="card_give_back"),
        path("cash/", cash.cash, name="cash"),
        path("finishing/", finishing.finishing, name="finishing"),
        path("closed-days/", closed_days, name="closed_days"),
        path("closed-days/holidays/", close_holidays, name="close_holidays"),
        path("closed-days/<int:closed_day_id>/open/", open_again, name="open_again"),
        path("hand-over/", handover.desk, name="handovers"),
        path("hand-over/<slug:reference>/", handover.hand_over, name="hand_over"),
        path("hand-over/<slug:reference>/post/", handover.post, name="post"),
        path("hand-over/<slug:reference>/packing-slip.pdf", handover.slip, name="packing_slip"),
        path("parcels/<int:parcel_id>/", handover.parcel, name="parcel"),
        path("orders/", orders.orders, name="orders"),
        path("orders/<slug:reference>/", orders.order, name="order"),
        path("orders/<slug:reference>/invoice/", invoices.issue, name="issue"),
        path("orders/<slug:reference>/made-out-to/", invoices.made_out_to, name="made_out_to"),
        path("invoices/<int:invoice_id>.pdf", invoices.paper, name="invoice"),
        path("invoices/<int:invoice_id>.xml", invoices.electronic, name="einvoice"),
        path("invoices/<int:invoice_id>/take-back/", invoices.take_back, name="take_back_invoice"),
        path("orders/<slug:reference>/pickup.pdf", orders.pickup_notice, name="pickup_notice"),
        path("orders/<slug:reference>/letters/", reminders.again, name="letters_again"),
        path("orders/<slug:reference>/cancel/", changes.cancel, name="cancel"),
        path("orders/<slug:reference>/move/", changes.move, name="move"),
        path("orders/<slug:reference>/voucher/", voucher_desk.redeem, name="redeem"),
        path("orders/<slug:reference>/voucher-back/", voucher_desk.give_back, name="give_back"),
        path("letters/", reminders.letters, name="wordings"),
        path("letters/<slug:kind>/", reminders.letter, name="wording"),
        path("vouchers/", voucher_desk.vouchers, name="vouchers"),
        path("vouchers/sell/", voucher_desk.sell, name="sell_voucher"),
        path("vouchers/<int:voucher_id>/", voucher_desk.voucher, name="voucher"),
        path("vouchers/<int:voucher_id>/voucher.pdf", voucher_desk.paper, name="voucher_paper"),
        path("vouchers/<int:voucher_id>/again/", voucher_desk.send_again, name="voucher_again"),
        path("vouchers/<int:voucher_id>/take-back/", voucher_desk.withdraw, name="withdraw_voucher"),
        path("orders/<slug:reference>/again/", changes.rebook, name="rebook"),
        path("books/", books.books, name="books"),
        path("books/open/", books.open_invoices, name="open_invoices"),
        path("books/invoice/<int:invoice_id>/paid/", books.settle, name="settle"),
        path("books/invoice/<int:invoice_id>/mail/", books.mail_paper, name="mail_paper"),
        path("books/invoices/", invoice_runs.to_invoice, name="to_invoice"),
        path("books/runs/<int:run_id>/", invoice_runs.invoice_run, name="invoice_run"),
        path("books/runs/<int:run_id>/state/", invoice_runs.state, name="invoice_run_state"),
        path("books/runs/<int:run_id>/invoices.zip", invoice_runs.papers, name="invoice_run_papers"),
        path("books/numbers/", accounts.year_end, name="numbers"),
        path("books/numbers.csv", accounts.numbers_file, name="numbers_file"),
        path("books/documents.csv", accounts.documents_file, name="documents_file"),
        path("books/payments.csv", accounts.payments_file, name="payments_file"),
        path("books/kept/", kept_away.kept_by_law, name="kept_by_law"),
        path("books/statements/", accounts.clients, name="statements"),
        path("books/statements/<int:client_id>/", accounts.statement, name="statement"),
        path(
            "books/statements/<int:client_id>/statement.pdf", accounts.statement_paper, name="statement_paper"
        ),
    ],
    "studio",
)

urlpatterns = [
    path("", public.home, name="home"),
    path("sit/", public.choose, name="choose"),
    path("sit/times/", public.times, name="times"),
    path("sit/hold/", public.hold, name="hold"),
    path("sit/wait/", waiting.wait, name="wait"),
    path("waiting/<str:token>/", waiting.place, name="waiting"),
    path("waiting/<str:token>/leave/", waiting.leave, name="waiting_leave"),
    path("sit/<str:token>/details/", checkout.details, name="details"),
    path("sit/<str:token>/deposit/", checkout.deposit, name="deposit"),
    path("sit/<str:token>/practice-card/", checkout.practice_card, name="practice_card"),
    path("sit/<str:token>/voucher/", vouchers.use, name="use_voucher"),
    path("voucher/", vouchers.give, name="give_voucher"),
    path("voucher/<str:token>/", vouchers.given, name="voucher"),
    path("voucher/<str:token>/voucher.pdf", vouchers.paper, name="voucher_paper"),
    path("voucher/<str:token>/practice-card/", vouchers.practice_card, name="voucher_practice_card"),
    path("sit/<str:token>/card/", cards.pay_by_card, name="pay_by_card"),
    path("sit/<str:token>/card/thanks/", cards.card_thanks, name="card_thanks"),
    path("voucher/<str:token>/card/", cards.pay_voucher_by_card, name="pay_voucher_by_card"),
    path("card-messages/", cards.card_messages_in, name="card_messages"),
    path("sitting/<str:token>/card/", cards.pay_rest_by_card, name="sitting_card"),
    path("sitting/<str:token>/card/thanks/", cards.sitting_card_thanks, name="sitting_card_thanks"),
    path("sitting/<str:token>/", mine.sitting, name="sitting"),
    path("sitting/<str:token>/sitting.ics", mine.sitting_calendar, name="sitting_calendar"),
    path("sitting/<str:token>/ask/", step_up.ask, name="sitting_ask"),
    path("open/<str:token>/", step_up.open_link, name="step_up"),
    path("reminders/<str:token>/", reminders.stop, name="stop_reminders"),
    path("mine/change/", mine_change.change, name="mine_change"),
    path("mine/change/move/", mine_change.move, name="mine_move"),
    path("mine/change/plate/", mine_change.add_plate, name="mine_add_plate"),
    path("mine/change/post/", mine_change.by_post, name="mine_by_post"),
    path("mine/change/named/", mine_change.name_person, name="mine_named"),
    path("mine/change/named/nobody/", mine_change.take_name_back, name="mine_unnamed"),
    path("mine/change/cancel/", mine_change.cancel, name="mine_cancel"),
    path("mine/papers/", mine.papers, name="mine_papers"),
    path("mine/papers/<int:invoice_id>.pdf", mine.invoice, name="mine_invoice"),
    path("mine/papers/plate-<int:number>.jpg", mine.picture, name="mine_picture"),
    path("mine/data/", mine.data, name="mine_data"),
    path("mine/data/copy.zip", mine.copy, name="mine_copy"),
    path("mine/data/erase/", mine.erase, name="mine_erase"),
    path("line/<str:token>/", line.join, name="line_join"),
    path("line/<str:token>/large/", line.large, name="line_large"),
    path("in-line/<str:token>/", line.place, name="line_place"),
    path("in-line/<str:token>/leave/", line.leave, name="line_leave"),
    path("calendar/<str:secret>.ics", feed.calendar, name="calendar_feed"),
    path("studio/", include(studio)),
]
