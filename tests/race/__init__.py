"""Races: sixteen processes of their own want the same thing at the same moment, on either database.

`worker.py` is one process that lays out a scene in a scratch database, forks the contenders and reports; `scenes.py`,
`mutants.py` say what they do; the tests ask what must hold afterwards.
"""
