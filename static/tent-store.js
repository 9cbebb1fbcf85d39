// Keeps every press in the telephone until the studio has answered it, and sends them in order, each under its own key.
// Sent twice it counts once: the studio knows the key. Each press is a row of its own, so that two windows never
// write over each other.
"use strict"

{
    const day = document.body.dataset.day
    const {stateUrl, pressUrl} = document.body.dataset
    const SLOW = 4000 // milliseconds
    const at = name => `tent:${day}:${name}`

    const rows = beginning => Object.keys(localStorage)
        .filter(key => key.match(beginning))
        .sort()
        .map(key => ({key, ...JSON.parse(localStorage.getItem(key))}))

    // crypto.randomUUID is missing where the studio is reached without encryption.
    const uuid = () => {
        const bytes = crypto.getRandomValues(new Uint8Array(16))
        bytes[6] = bytes[6] & 15 | 64
        bytes[8] = bytes[8] & 63 | 128
        const hex = Array.from(bytes, byte => byte.toString(16).padStart(2, "0")).join("")
        return hex.replace(/^(.{8})(.{4})(.{4})(.{4})/, "$1-$2-$3-$4-")
    }

    const told = JSON.parse(document.body.dataset.state)
    const kept = JSON.parse(localStorage.getItem(at("state")) || "null")
    let state = kept && kept.now > told.now ? kept : told
    tent.words = told.words
    // How far the studio's clock is ahead of this one. A page out of the telephone's own copy was written long ago, so
    // only a first visit, which cannot come from there, goes by the time on the page.
    let ahead = Number(localStorage.getItem(at("ahead")) ?? told.now - Date.now())
    let token = document.querySelector("[name=csrfmiddlewaretoken]").value
    let sending = null

    // Another window of this telephone was answered: what it has learned holds here too.
    addEventListener("storage", event => {
        if (event.key === at("state") && event.newValue) state = JSON.parse(event.newValue)
        store.changed()
    })

    const store = tent.store = {network: "", changed: () => {}}

    store.now = () => Date.now() + ahead
    store.waiting = () => rows(`^${at("press:")}`)
    store.unsent = () => unsent().length
    store.refused = () => rows("^tent:[0-9]+:refused:")
    store.day = () => tent.standing(state, store.waiting())
    store.dismiss = key => { localStorage.removeItem(key); store.changed() }

    store.press = what => {
        // Clocks are set right while presses wait: the next one still comes after them, in time and in order.
        const newest = Math.max(0, ...store.waiting().map(press => Date.parse(press.at)))
        const made = Math.max(store.now(), newest + 1)
        const place = Number(localStorage.getItem(at("place")) || 0) + 1
        localStorage.setItem(at("place"), place)
        const press = {press: uuid(), at: new Date(made).toISOString(), ...what}
        localStorage.setItem(at(`press:${String(place).padStart(9, "0")}:${press.press}`), JSON.stringify(press))
        store.changed()
        store.send()
    }

    const take = (answer, asked) => {
        token = answer.token
        // A slow answer says little of the studio's clock: what was known before it is the better guess.
        const took = Date.now() - asked
        if (took < SLOW) ahead = Math.round(answer.now - asked - took / 2)
        state = answer
        localStorage.setItem(at("ahead"), ahead)
        localStorage.setItem(at("state"), JSON.stringify({...answer, token: ""}))
    }

    // The answer to a request as {status, ...}; status 0 without network, "out" when signed out.
    const ask = async (url, options) => {
        const asked = Date.now()
        try {
            const limit = AbortSignal.timeout(10000)
            const answer = await fetch(url, {redirect: "manual", cache: "no-store", signal: limit, ...options})
            if (answer.type === "opaqueredirect") return {status: "out"}
            const readable = (answer.headers.get("Content-Type") || "").startsWith("application/json")
            return {status: answer.status, asked, state: readable ? await answer.json() : null}
        } catch {
            return {status: 0}
        }
    }

    // This day's presses first, then what another day has left in the telephone.
    const unsent = () => [...store.waiting(), ...rows(`^tent:(?!${day}:)[0-9]+:press:`)]
    const dayOf = press => press.key.split(":")[1]

    const post = press => ask(pressUrl.replace(`/${day}/`, `/${dayOf(press)}/`), {
        method: "POST",
        headers: {"Content-Type": "application/json", "X-CSRFToken": token},
        body: JSON.stringify({...press, key: undefined}),
    })

    // Send one press; true when it has been answered for good.
    const settle = async press => {
        const answer = await post(press)
        if (!answer.state) return answer
        if (dayOf(press) === day) take(answer.state, answer.asked)
        if (answer.state.refusal) {
            const {key, ...sent} = press
            const row = {...sent, sentence: answer.state.refusal}
            localStorage.setItem(key.replace(":press:", ":refused:"), JSON.stringify(row))
        }
        localStorage.removeItem(press.key)
        return answer
    }

    const say = (answer, left) => {
        const presses = left === 1
            ? tent.say("1 press kept in this telephone")
            : tent.say("{number} presses kept in this telephone", {number: left})
        if (answer.state) return ""
        if (answer.status === "out") return tent.say("Signed out: {presses}. Sign in again to send (a bright page).", {presses})
        const facts = {presses, status: answer.status}
        if (answer.status) return tent.say("The studio cannot answer ({status}): {presses}, sent when it can.", facts)
        return tent.say("No network: {presses}, sent when it is back.", facts)
    }

    // The state first: it brings the token of whoever is signed in now, and says how the clocks stand.
    const sendAll = async () => {
        let answer = await ask(stateUrl, {})
        if (answer.state) take(answer.state, answer.asked)
        while (answer.state && unsent().length) answer = await settle(unsent()[0])
        sending = null
        store.network = say(answer, unsent().length)
        store.changed()
    }

    // One sending at a time; who asks meanwhile waits for the one that is under way.
    store.send = () => sending ??= sendAll()
}
