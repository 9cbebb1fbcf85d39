// The hands on the tent: presses, keys, warnings, and what keeps the page alive. Without it the page works by its forms.
"use strict"

{
    const {page, store} = tent
    const part = id => document.getElementById(id)
    // A wet glove taps twice: a second press so soon after the first is taken for the same one (milliseconds).
    const DEAF = 600
    const DONE = ["washing", "drying"]
    let last = 0

    const press = (plate, what) => {
        if (Date.now() - last < DEAF) return
        last = Date.now()
        const known = plate.number === null ? {pour: plate.pour} : {plate: plate.number}
        store.press({slot: plate.slot, ...(what.kind === "pour" ? {} : known), ...what})
        if (DONE.includes(what.stage) || what.kind === "spoil") page.asked = 0
        if (what.kind === "undo") page.asked = plate.slot
        draw()
    }

    const step = () => {
        const [kind, stage] = ["kind", "stage"].map(name => part("step").elements[name].value)
        if (page.shown) press(page.shown, kind === "pour" ? {kind} : {kind, stage})
    }

    const on = (form, act) => part(form).addEventListener("submit", event => {
        event.preventDefault()
        act(event)
    })
    on("step", step)
    on("undo", () => page.newest && press(page.newest, {kind: "undo"}))
    on("spoil-form", event => {
        press(page.shown, {kind: "spoil", reason: event.submitter.value})
        part("spoil").open = false
        part("step").querySelector("button").focus()
    })

    document.querySelector("nav").addEventListener("click", event => {
        const link = event.target.closest("a")
        if (!link) return
        event.preventDefault()
        page.asked = Number(new URLSearchParams(link.search).get("plate"))
        part("more").open = false
        draw()
        part("step").querySelector("button").focus()
    })

    // Space or Enter is the next step, wherever no other control has the focus; held down it counts once.
    document.addEventListener("keydown", event => {
        if (event.key !== " " && event.key !== "Enter") return
        if (event.target.closest("#undo, #spoil, #tent, nav, #refusals")) return
        event.preventDefault()
        if (!event.repeat) step()
    })

    // --- Warnings: drawn always; heard and felt only where switched on ---
    const chosen = name => localStorage.getItem(`tent:${name}`) === "on"
    let sound = null
    const warn = () => {
        if (chosen("shake") && navigator.vibrate) navigator.vibrate([300, 150, 300])
        if (!chosen("sound")) return
        sound ||= new AudioContext()
        const tone = sound.createOscillator()
        tone.connect(sound.destination)
        tone.start()
        tone.stop(sound.currentTime + 0.4)
    }
    const toggle = (id, on, off) => {
        const show = () => {
            part(id).setAttribute("aria-pressed", chosen(id))
            part(id).textContent = tent.say(chosen(id) ? on : off)
        }
        part(id).hidden = false
        part(id).onclick = () => {
            localStorage.setItem(`tent:${id}`, chosen(id) ? "off" : "on")
            show()
            warn()
        }
        show()
    }
    toggle("sound", "Sound: on", "Sound: off")
    toggle("shake", "Vibration: on", "Vibration: off")

    let before = new Map()
    const draw = () => {
        const levels = new Map()
        for (const [slot, stage, level] of page.draw()) {
            levels.set(slot, `${stage} ${level}`)
            const same = before.get(slot)?.startsWith(`${stage} `)
            if (stage && same && before.get(slot) !== levels.get(slot)) warn()
        }
        before = levels
        document.body.dataset.waiting = store.unsent()
    }

    // --- What keeps it alive ---
    const keepAwake = async () => {
        part("awake").hidden = false
        let kept = "Screen kept awake: no"
        try {
            if (navigator.wakeLock && document.visibilityState === "visible") {
                await navigator.wakeLock.request("screen")
                kept = "Screen kept awake: yes"
            }
        } catch {
            kept = "Screen kept awake: no"  // a low battery refuses; the page says so
        }
        part("awake").textContent = tent.say(kept)
    }
    document.addEventListener("visibilitychange", keepAwake)
    keepAwake()

    part("full").hidden = !document.documentElement.requestFullscreen
    part("full").onclick = () => document.fullscreenElement
        ? document.exitFullscreen()
        : document.documentElement.requestFullscreen()

    // A copy of the page and its files, for the worker to open when there is no network.
    const shelve = async () => {
        if (!navigator.serviceWorker) return
        await navigator.serviceWorker.register(document.body.dataset.workerUrl)
        await navigator.serviceWorker.ready
        const files = [...document.querySelectorAll("script[src], link[rel=stylesheet]")].map(file => file.src || file.href)
        const shelf = await caches.open("tent-1")
        for (const file of [location.origin + location.pathname, part("light").href, ...files]) {
            const answer = await fetch(file, {redirect: "manual"})
            if (answer.ok) await shelf.put(file, answer)
        }
        document.body.dataset.shelved = "yes"
    }
    shelve().catch(() => { document.body.dataset.shelved = "no" })

    navigator.storage?.persist?.()  // asks that the kept presses are not thrown away when room gets short
    store.changed = draw
    addEventListener("online", store.send)
    setInterval(draw, 500)
    setInterval(store.send, 5000)
    draw()
    store.send()
}
