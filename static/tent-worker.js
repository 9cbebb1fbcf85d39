// Opens the tent again without network, from the copy that the page has left in the telephone (tent.js). Only pages of the tent
// are under it, and on those are numbers only. The studio's own answer comes first whenever it comes in time.
"use strict"

const SHELF = "tent-1"
const PATIENCE = 4000

addEventListener("install", () => skipWaiting())
addEventListener("activate", event => event.waitUntil(clients.claim()))

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
