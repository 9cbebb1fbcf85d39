"""People, calendar, orders, money and notices; stands on plates."""
