// What the tent knows of plates, by the rows that the page was sent: no minute and no stage is written here.
// The same rules as plates/tent/clocks.py and plates/tent/selectors/screen.py; tests/browser/tent holds the two together.
"use strict"

const tent = {}

tent.SOON = 60

// What is said, in the studio's language as the studio sent it; as it stands here before that.
tent.words = {}
tent.say = (text, facts = {}) => Object.entries(facts).reduce(
    (said, [name, value]) => said.replace(`{${name}}`, value), tent.words[text] || text)

tent.stage = plate => plate.events.length ? plate.events.at(-1)[0] : ""
tent.step = (rows, plate) => rows.steps[tent.stage(plate)] || null
tent.poured = plate => !["", "spoilt"].includes(tent.stage(plate))
tent.clock = (rows, plate) => rows.clocks[tent.poured(plate) ? tent.stage(plate) : ""] || null

// When the clock of a plate began: at the event it counts from, or at the planned pour.
tent.began = (clock, plate) => Object.fromEntries(plate.events)[clock.since] ?? plate.planned

// What a clock says so many seconds after it began.
tent.read = (clock, seconds) => {
    if (seconds < clock.least) return {level: "wait", seconds: clock.least - seconds, words: clock.wait}
    if (clock.most === null) return {level: "go", seconds: seconds - clock.least, words: clock.go}
    if (seconds > clock.most) return {level: "late", seconds: seconds - clock.most, words: clock.late}
    const left = clock.most - seconds
    return {level: left <= tent.SOON ? "soon" : "go", seconds: left, words: clock.go}
}

tent.reading = (rows, plate, now) => {
    const clock = tent.clock(rows, plate)
    return clock && tent.read(clock, Math.floor((now - tent.began(clock, plate)) / 1000))
}

tent.digits = seconds => seconds < 6000
    ? `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`
    : `${Math.floor(seconds / 3600)} h ${String(Math.floor(seconds / 60) % 60).padStart(2, "0")}`

// What is wet goes first, whatever is promised; then whichever clock runs out first.
tent.mostPressing = rows => {
    const end = plate => {
        const clock = tent.clock(rows, plate)
        return tent.began(clock, plate) + 1000 * (clock.most ?? clock.least)
    }
    const wet = plate => rows.wet.includes(tent.stage(plate)) ? 0 : 1
    const left = rows.plates.filter(plate => tent.step(rows, plate))
    return left.sort((one, other) => wet(one) - wet(other) || end(one) - end(other) || one.slot - other.slot)[0]
}

// The other plates with work left: those being made with the few to be poured next, and those of later.
tent.others = (rows, hand) => {
    const left = rows.plates.filter(plate => tent.step(rows, plate) && plate !== hand)
    const toPour = left.filter(plate => !tent.poured(plate))
    const next = toPour.slice(0, rows.next_pours)
    return [[...left.filter(tent.poured), ...next], toPour.slice(rows.next_pours)]
}

// The plate whose newest press can still be taken back: the last one that was pressed.
tent.newest = (rows, now) => {
    const ours = stage => rows.steps[stage] || stage === rows.last
    const young = plate => plate.events.length && now - plate.events.at(-1)[1] <= rows.undo_for
    const pressed = rows.plates.filter(plate => young(plate) && ours(tent.stage(plate)))
    return pressed.sort((one, other) => other.events.at(-1)[1] - one.events.at(-1)[1])[0]
}

// What the day looks like once the presses that wait for the network have been entered.
tent.standing = (rows, presses) => {
    const day = structuredClone(rows)
    for (const press of presses) {
        const plate = day.plates.find(each => each.slot === press.slot)
        if (plate) tent.enter(plate, press)
    }
    return day
}

tent.enter = (plate, press) => {
    const at = Date.parse(press.at)
    if (press.kind === "pour") {
        const {events, number, pour} = plate
        if (events.length) plate.again.push(number)
        plate.before = {events, number, pour, before: plate.before}
        Object.assign(plate, {events: [["poured", at]], number: null, pour: press.press})
    }
    if (press.kind === "stage") plate.events.push([press.stage, at])
    if (press.kind === "spoil") plate.events.push(["spoilt", at])
    if (press.kind === "undo") {
        plate.events.pop()
        // A pour taken back: the plate spoilt before it is the newest again, if there was one.
        if (!plate.events.length) Object.assign(plate, plate.before || {number: null, pour: null})
    }
}
