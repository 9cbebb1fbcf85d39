from plates.chemistry.sentences import Sentence


def test_a_sentence_reads_as_english_and_keeps_what_it_was_made_of():
    told = Sentence("{deed}: {made} plates.", deed=Sentence("Filter it"), made="25")

    assert told == "Filter it: 25 plates."
    assert (told.pattern, told.facts) == ("{deed}: {made} plates.", {"deed": "Filter it", "made": "25"})


def test_a_sentence_without_facts_may_hold_any_sign():
    assert Sentence("Read {it} at 20 °C.") == "Read {it} at 20 °C."
