// Opens the tent again without network, from the copy that the last visit left in the telephone. Only pages of the tent
// are under it, and on those are numbers only. The studio's own answer comes first whenever it comes in time.
"use strict"

const SHELF = "tent-1"
const PATIENCE = 4000

addEventListener("install", () => skipWaiting())
addEventListener("activate", event => event.waitUntil(clients.claim()))

// The page names itself and its files once it is drawn.
addEventListener("message", event => event.waitUntil(
    caches.open(SHELF).then(shelf => Promise.all(event.data.map(async file => {
        const answer = await fetch(file, {redirect: "manual"})
        if (answer.ok) await shelf.put(file, answer)
    })))
))

const shelved = async request => (await caches.open(SHELF)).match(request, {ignoreSearch: true, ignoreVary: true})

const fetched = async request => {
    try {
        return await fetch(request, {signal: AbortSignal.timeout(PATIENCE)})
    } catch (refused) {
        const copy = await shelved(request)
        if (copy) return copy
        throw refused
    }
}

// A press or the state of the day never comes from the shelf: the page itself keeps those.
addEventListener("fetch", event => {
    const {method, url} = event.request
    if (method === "GET" && !url.endsWith("/state/")) event.respondWith(fetched(event.request))
})
