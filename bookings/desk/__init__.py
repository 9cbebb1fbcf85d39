"""The photographer's pages of orders: all of them, the search, and one with its money, papers and letters.

It shows what every other room knows of an order, so it stands above them and nothing imports it. Entry points:
`views.orders` (list and search), `views.order` (one order), `views.pickup_notice`.

Rules
- The page only reads; each button belongs to the room whose service it calls.
- An order is found by its reference, by the name or mail address of its client, or by a plate's number.
- A page of one order asks the same number of queries however many lines, payments and letters it has.
"""
