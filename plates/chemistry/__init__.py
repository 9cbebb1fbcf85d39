"""Solutions of the wet plate, by exact numbers: pure Python, no Django, no clock.

Read what a published table, recipe or rule says of a bath, a batch or a plate; what the studio measures itself and its
suppliers' safety sheets go before all of it.
"""
