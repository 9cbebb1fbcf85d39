// Draws the day on the page of the tent: the same page that the studio sends, filled in anew each second.
"use strict"

{
    const part = id => document.getElementById(id)
    const write = (id, words) => { if (part(id).textContent !== words) part(id).textContent = words }
    const field = (form, name, value) => { form.elements[name].value = value ?? "" }

    const name = plate => {
        if (!tent.poured(plate)) return tent.say("To pour")
        return plate.number ? tent.say("Plate {number}", {number: plate.number}) : tent.say("New plate")
    }

    const page = tent.page = {asked: Number(new URLSearchParams(location.search).get("plate")), shown: null}

    // The plate in hand: the one that was chosen while there is something to do on it, else the most pressing.
    page.inHand = day => {
        const chosen = day.plates.find(plate => plate.slot === page.asked && tent.step(day, plate))
        const plate = chosen || tent.mostPressing(day)
        page.asked = plate ? plate.slot : 0
        return plate
    }

    const drawClock = (day, plate, now) => {
        const clock = tent.clock(day, plate)
        const reading = tent.reading(day, plate, now)
        part("clock").dataset.level = reading ? reading.level : "none"
        write("clock-name", clock ? clock.name : "")
        write("clock-level", reading ? tent.say(reading.level) : "")
        write("clock-digits", reading ? tent.digits(reading.seconds) : "")
        write("clock-words", reading ? reading.words : "")
    }

    const drawHand = (day, plate, now) => {
        part("hand").hidden = !plate
        part("nothing").hidden = Boolean(plate)
        part("spoil").hidden = !plate || !tent.poured(plate)
        if (!plate) return
        const [following, word] = tent.step(day, plate)
        write("hand-name", name(plate))
        write("hand-size", plate.size)
        write("hand-place", plate.place)
        write("hand-stage", day.stages[tent.stage(plate)] || tent.say("Not poured"))
        part("step").querySelector("button").textContent = word
        field(part("step"), "kind", following === "poured" ? "pour" : "stage")
        field(part("step"), "stage", following)
        drawClock(day, plate, now)
    }

    const drawUndo = (day, now) => {
        const plate = page.newest = tent.newest(day, now)
        part("undo").hidden = !plate
        if (plate) write("undo-what", `${(day.stages_within || day.stages)[tent.stage(plate)]}, ${plate.size}`)
    }

    const line = plate => {
        const link = document.createElement("a")
        link.href = `?plate=${plate.slot}`
        link.dataset.slot = plate.slot
        link.append(document.createElement("span"), " ", document.createElement("span"))
        const item = document.createElement("li")
        item.append(link)
        return item
    }

    // Lines are kept where they are, so that a focus or a finger on one stays there.
    const drawStrip = (id, day, others, now) => {
        const drawn = [...part(id).querySelectorAll("a")].map(link => link.dataset.slot).join()
        if (drawn !== others.map(each => each.slot).join()) {
            part(id).replaceChildren(...others.map(each => line(each)))
        }
        others.forEach((each, place) => {
            const link = part(id).querySelectorAll("a")[place]
            const reading = tent.reading(day, each, now)
            const [which, how] = link.children
            which.textContent = `${name(each)}, ${each.size}, ${each.place}`
            const level = document.createElement("strong")
            level.textContent = tent.say(reading.level)
            const stage = day.stages[tent.stage(each)] || tent.say("Not poured")
            how.replaceChildren(`${stage}: ${tent.digits(reading.seconds)} `, level)
            link.dataset.level = reading.level
        })
    }

    const drawRefusals = refused => {
        const drawn = refused.map(each => each.key).join()
        if (part("refusals").dataset.drawn === drawn) return
        part("refusals").dataset.drawn = drawn
        part("refusals").replaceChildren(...refused.flatMap(each => {
            const words = document.createElement("p")
            words.className = "refusal"
            const what = each.stage || each.reason || each.kind
            const time = new Date(each.at).toLocaleTimeString()
            words.textContent = tent.say("Not entered ({what}, {time}): {sentence}", {what, time, sentence: each.sentence})
            const seen = document.createElement("button")
            seen.textContent = tent.say("Seen")
            seen.onclick = () => tent.store.dismiss(each.key)
            return [words, seen]
        }))
    }

    page.draw = () => {
        const now = tent.store.now()
        const day = tent.store.day()
        const plate = page.shown = page.inHand(day)
        drawHand(day, plate, now)
        drawUndo(day, now)
        const [others, later] = tent.others(day, plate)
        drawStrip("strip", day, others, now)
        drawStrip("later", day, later, now)
        part("more").hidden = !later.length
        drawRefusals(tent.store.refused())
        write("network", tent.store.network)
        part("leave").hidden = tent.store.network !== ""  // the browser's own page for "no network" is white
        return day.plates.map(each => [each.slot, tent.stage(each), tent.reading(day, each, now)?.level])
    }
}
