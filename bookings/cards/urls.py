"""Addresses of cards: `public_urls` for visitors and clients with a link, `studio_urls` below studio/."""

from django.urls import URLPattern, path

from bookings.cards.views import client, studio

public_urls: list[URLPattern] = [
    path("sit/<str:token>/card/", client.pay_by_card, name="pay_by_card"),
    path("sit/<str:token>/card/thanks/", client.card_thanks, name="card_thanks"),
    path("voucher/<str:token>/card/", client.pay_voucher_by_card, name="pay_voucher_by_card"),
    path("card-messages/", client.card_messages_in, name="card_messages"),
    path("sitting/<str:token>/card/", client.pay_rest_by_card, name="sitting_card"),
    path("sitting/<str:token>/card/thanks/", client.sitting_card_thanks, name="sitting_card_thanks"),
]
studio_urls: list[URLPattern] = [
    path("cards/", studio.desk, name="cards"),
    path("cards/<int:notice_id>/looked/", studio.mark_looked_at, name="card_looked"),
    path("cards/<int:page_id>/give-back/", studio.refund, name="card_give_back"),
]
