// Dragging a stop by its check, with mouse, pen or finger: a line shows where it would come to stand, Escape lets it be.

const FAR_PX = 6; // less is a press, not a drag

/** Listen on `bench`; `moved(from, to)` is told the places when a stop is let go elsewhere. */
export function dragging(bench, moved) {
  let held = null;

  bench.addEventListener("pointerdown", (event) => {
    const grip = event.target.closest("[data-grip]");
    if (!grip || event.button !== 0) return;
    held = { stop: grip.closest("[data-drag]"), grip, y: event.clientY, pointer: event.pointerId, moving: false, to: null };
    grip.setPointerCapture(event.pointerId);
  });

  bench.addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.pointer) return;
    if (!held.moving && Math.abs(event.clientY - held.y) < FAR_PX) return;
    held.moving = true;
    held.stop.classList.add("is-held");
    held.to = mark(held.stop, event.clientY);
    scrollAlong(event.clientY);
  });

  bench.addEventListener("pointerup", (event) => {
    if (!held || event.pointerId !== held.pointer) return;
    const { stop, moving, to } = held;
    letGo();
    if (moving && to !== null && to !== stop.dataset.at) moved(stop.dataset.at, to);
  });

  bench.addEventListener("pointercancel", () => letGo());
  bench.addEventListener("keydown", (event) => event.key === "Escape" && letGo());

  function letGo() {
    if (!held) return;
    held.stop.classList.remove("is-held");
    clear(held.stop.parentElement);
    held = null;
  }
}

/** Draw the line where the stop would come to stand, and give the place there; null where it stands already. */
function mark(stop, y) {
  const all = [...stop.parentElement.querySelectorAll("[data-drag]")];
  clear(stop.parentElement);
  const from = all.indexOf(stop);
  const after = all.filter((one) => middle(one) < y).length;
  const to = after > from ? after - 1 : after;
  if (to === from) return null;
  all[to].classList.add(to < from ? "is-before" : "is-after");
  return all[to].dataset.at;
}

function clear(list) {
  for (const one of list.querySelectorAll(".is-before, .is-after")) one.classList.remove("is-before", "is-after");
}

function middle(one) {
  const { top, height } = one.getBoundingClientRect();
  return top + height / 2;
}

/** Near the edge of the window the page moves on. */
function scrollAlong(y) {
  const edge = window.innerHeight / 10;
  if (y < edge) window.scrollBy(0, -12);
  else if (y > window.innerHeight - edge) window.scrollBy(0, 12);
}
