// Keeps a page of the walk-up line as it is. Without it the pages are read anew by their links, or by themselves.
"use strict";

const EVERY = 15000; // milliseconds

async function lookAgain() {
  if (document.hidden) return;
  try {
    const answer = await fetch(location.href, { credentials: "same-origin", cache: "no-store" });
    if (!answer.ok || answer.redirected) return;
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const now = document.getElementById("fresh");
    const anew = page.getElementById("fresh");
    // A form token is another one each time; nothing is said aloud again for that alone.
    if (!now || !anew || now.textContent === anew.textContent || now.contains(document.activeElement)) return;
    now.replaceChildren(...anew.childNodes);
    document.title = page.title;
  } catch {
    // No network for a while: the page says as of when it is, and the next look may be answered.
  }
}

setInterval(lookAgain, EVERY);
document.addEventListener("visibilitychange", lookAgain);
