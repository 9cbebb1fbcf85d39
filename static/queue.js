// Keeps the queue of a day as it is, on every screen that shows it. Without it the page is read anew by "Look again".
"use strict";

const EVERY = 2000; // milliseconds between two questions whether anything is new

async function answer(address, kind) {
  const response = await fetch(address, { headers: { Accept: kind }, credentials: "same-origin", cache: "no-store" });
  if (!response.ok || response.redirected) throw new Error(`${response.status}`);
  return response;
}

// The place where the reader is: the focused link or button, and which folds are open.
function whereabouts() {
  const at = document.activeElement;
  const form = at.closest("form");
  return {
    focus: at.id ? `#${CSS.escape(at.id)}` : form ? `form[action="${form.getAttribute("action")}"] button` : null,
    open: [...document.querySelectorAll("main details")].map((fold) => fold.open),
  };
}

function goBackTo(place) {
  document.querySelectorAll("main details").forEach((fold, number) => { fold.open = Boolean(place.open[number]); });
  const again = place.focus && document.querySelector(place.focus);
  if (again) again.focus({ preventScroll: true });
}

async function readAnew() {
  const page = new DOMParser().parseFromString(await (await answer(location.href, "text/html")).text(), "text/html");
  const place = whereabouts();
  document.querySelector("main").replaceWith(page.querySelector("main"));
  goBackTo(place);
}

async function look() {
  const queue = document.querySelector("[data-state-at]");
  if (!queue || document.hidden) return;
  try {
    const now = await (await answer(queue.dataset.stateAt, "application/json")).json();
    if (now.state !== queue.dataset.state) await readAnew();
    document.body.classList.remove("cut-off");
  } catch {
    document.body.classList.add("cut-off"); // said on the page by the stylesheet; the next question may be answered
  }
}

let asking = false;
setInterval(async () => {
  if (asking) return; // one question at a time, however slow the line
  asking = true;
  await look();
  asking = false;
}, EVERY);
