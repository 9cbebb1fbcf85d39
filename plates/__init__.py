"""The physical and chemical side: benches, plates, and what a day can make. Knows nothing of clients or money."""
