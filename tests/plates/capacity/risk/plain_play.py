"""One day played by plain loops and numbers: the second reading of the rules in plates/capacity/risk/simulate.py.

It shares the order of the turns with the engine, and nothing of how days are played. A sitter who does not come is
simply left out. Every piece of work is written down, so that a test can look at who held what.
"""

import math


class PlainDay:
    """`work`: (step, sitting, plate, pair of hands, begin, end) in the order it was begun by the hands."""

    def __init__(self, bench, opens, order, luck, day):
        self.bench, self.times, self.order = bench, bench.timings, order
        self.luck, self.day = luck, day
        self.plates = [plate for sitter in luck for plate in sitter.plates]
        self.hands = [float(opens)] * bench.operators
        self.work, self.missing, self.washing = [], [], []
        self.left = [-math.inf] * bench.tank_places
        self.settled, self.gone, self.fixed, self.began, self.ended = {}, {}, {}, {}, {}
        self.bath, self.wet, self.lifted, self.racked = {}, {}, {}, {}

    def came(self, sitting):
        return bool(self.luck[sitting].came[self.day])

    def again(self, plate):
        return int(self.plates[plate].again[self.day])

    def minutes(self, step, sitting, plate):
        array = getattr(self.luck[sitting], step) if plate < 0 else self.plates[plate].work[step]
        return float(array[self.day])

    def take(self, step, sitting, plate, ready, minutes):
        idle = [hand for hand, free in enumerate(self.hands) if free <= ready]
        hand = max(idle or [self.hands.index(min(self.hands))], key=self.hands.__getitem__ if idle else None)
        begin = max(self.hands[hand], ready)
        self.hands[hand] = begin + minutes
        self.work.append((step, sitting, plate, hand, begin, begin + minutes))
        return begin, begin + minutes

    def play(self):
        for place, turn in enumerate(self.order.turns):
            self.before(place, turn)
            if self.came(turn.sitting):
                getattr(self, turn.step)(turn.sitting, turn.plate, place)
        self.make_again(len(self.order.turns))
        for plate in self.order.lifts:
            if plate not in self.racked and self.came(self.order.plates[plate].sitting):
                self.lift(plate, math.inf)
        return self

    def before(self, place, turn):
        self.make_again(place)
        for sitting in list(self.missing):
            last = place == self.order.first_pour[sitting]
            due = self.due(sitting)
            if last or (
                self.order.calm[place] and due <= max(min(self.hands), turn.planned - self.times.settle)
            ):
                self.missing.remove(sitting)
                self.let_in(sitting, due)
        owed = [plate for plate in self.order.lifts if self.order.plates[plate].owed_at == place]
        owed = [plate for plate in owed if self.came(self.order.plates[plate].sitting)]
        self.washing += owed
        for plate in list(self.washing if self.order.calm[place] else owed):
            self.lift(plate, max(self.order.plates[plate].lift, turn.planned - self.times.lift))

    def due(self, sitting):
        due = max(float(self.luck[sitting].arrived[self.day]), self.order.starts[sitting])
        seat = self.order.seat_after[sitting]
        return max(due, self.gone[seat]) if seat in self.gone else due

    def let_in(self, sitting, due):
        minutes = self.minutes("settle", sitting, -1)
        self.settled[sitting] = self.take("settle", sitting, -1, due, minutes)[0]

    def settle(self, sitting, plate, place):
        bath = self.times.sensitise
        expected = max(min(self.hands), self.order.starts[sitting])
        late = float(self.luck[sitting].arrived[self.day]) > expected + bath.most - bath.least
        if late and self.order.first_pour[sitting] > place + 1:
            self.missing.append(sitting)
        else:
            self.let_in(sitting, self.due(sitting))

    def step(self, name, sitting, plate, ready):
        begin, end = self.take(name, sitting, plate, ready, self.minutes(name, sitting, plate))
        self.began[name, plate], self.ended[name, plate] = begin, end

    def earlier(self, name, plate):
        return self.ended[name, plate - 1] if self.order.plates[plate].follows else -math.inf

    def pour(self, sitting, plate, place):
        own = self.order.plates[plate]
        free = self.left[own.tank]
        if ("pour", own.behind) in self.ended:
            free = max(free, self.ended["pour", own.behind] + self.times.sensitise.least)
        free -= self.minutes("pour", sitting, plate)
        free = max(free, own.pour_from or -math.inf)
        self.step("pour", sitting, plate, max(self.settled[sitting], free, self.earlier("pour", plate)))

    def load(self, sitting, plate, place):
        own = self.order.plates[plate]
        bathed = max(self.ended["pour", plate], self.left[own.tank])
        self.step(
            "load", sitting, plate, max(bathed + self.times.sensitise.least, own.load_from or -math.inf)
        )
        self.left[own.tank] = self.began["load", plate]
        self.bath[plate] = self.left[own.tank] - bathed

    def expose(self, sitting, plate, place):
        settled = self.settled[sitting] + self.minutes("settle", sitting, -1)
        ready = max(self.ended["load", plate], settled, self.earlier("expose", plate))
        self.step("expose", sitting, plate, ready)

    def develop(self, sitting, plate, place):
        self.step("develop", sitting, plate, self.ended["expose", plate])
        self.wet[plate] = self.ended["develop", plate] - self.began["load", plate]

    def fix(self, sitting, plate, place):
        self.step("fix", sitting, plate, self.ended["develop", plate])
        self.fixed[plate] = self.ended["fix", plate]

    def own(self, sitting):
        return [plate for plate, each in enumerate(self.order.plates) if each.sitting == sitting]

    def farewell(self, sitting, plate, place):
        own = self.own(sitting)
        if not any(self.again(each) and self.order.plates[each].again_at > place for each in own):
            self.say_goodbye(sitting, max(self.fixed[each] for each in own))

    def say_goodbye(self, sitting, ready):
        minutes = self.minutes("farewell", sitting, -1)
        self.gone[sitting] = self.take("farewell", sitting, -1, ready, minutes)[1]

    def make_again(self, place):
        for plate, own in enumerate(self.order.plates):
            if own.again_at == place and self.again(plate):
                self.one_more(plate, own)

    def one_more(self, plate, own):
        work = {step: self.minutes(step, own.sitting, plate) for step in self.plates[plate].work}
        after_bath = work["load"] + work["expose"] + work["develop"] + work["fix"]
        minutes = self.again(plate) * (work["pour"] + self.times.sensitise.least + after_bath)
        ready = max(self.fixed[plate], self.left[own.tank] - work["pour"])
        _, end = self.take("again", own.sitting, plate, ready, minutes)
        self.fixed[plate], self.left[own.tank] = end, end - after_bath
        rest = [
            (self.order.plates[each].again_at, each) for each in self.own(own.sitting) if self.again(each)
        ]
        if own.again_at > self.order.farewell[own.sitting] and max(rest) == (own.again_at, plate):
            self.say_goodbye(own.sitting, end)

    def lift(self, plate, latest):
        washed = [self.fixed[plate]]
        for before in self.order.plates[plate].washed_after:
            if self.came(self.order.plates[before].sitting):
                washed.append(self.lifted.get(before, math.inf))
        due = max(washed) + self.times.wash.least
        if due <= max(min(self.hands), latest):
            sitting = self.order.plates[plate].sitting
            self.lifted[plate], self.racked[plate] = self.take(
                "lift", sitting, plate, due, self.minutes("lift", sitting, plate)
            )
            if plate in self.washing:
                self.washing.remove(plate)
