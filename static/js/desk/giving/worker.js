// Keeps tours for when the network is gone. One cache for each tour, and in it only what the Desk lists for that tour.
// The network is asked first, always; what is kept answers only where it fails or is too slow. Each time the Desk is
// reached, every kept tour is brought in step with what is allowed now: what is no longer listed goes at once.

const PREFIX = "lemel-tour ";
const PATIENCE = 4000;
const BETWEEN_LOOKS = 60000;
let looked = 0;
let timesLetGo = 0;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event) => {
  if (event.data.keep) event.waitUntil(bringInStep(event.data.keep).then((told) => event.ports[0].postMessage(told)));
  if (event.data.letGo) event.waitUntil(letGo());
});
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== self.location.origin) return;
  event.respondWith(answer(event, request));
});

async function answer(event, request) {
  const instead = find(request);
  const fresh = fetch(request);
  try {
    const first = await Promise.race([fresh, tooSlow(instead)]);
    if (first) {
      if (request.mode === "navigate") event.waitUntil(lookAgain());
      return first;
    }
  } catch (problem) {
    if (!(problem instanceof TypeError)) throw problem; // What fetch raises when the network is gone.
  }
  const kept = await instead;
  return kept ? partOf(request, kept) : fresh;
}

/** Nothing, after a while, if there is something kept to answer with; else it waits for the network for good. */
async function tooSlow(instead) {
  await new Promise((later) => setTimeout(later, PATIENCE));
  return (await instead) ? undefined : new Promise(() => {});
}

/** A kept answer. Caches are asked by name, since to open one that went this moment would make it anew. */
async function find(request) {
  const options = { ignoreVary: true, ignoreSearch: request.mode === "navigate" };
  for (const name of await tours()) {
    const { manifest } = await noteOf(name);
    const found = manifest && (await caches.match(request.url, { ...options, cacheName: name }));
    if (found && manifest.until >= today()) return found;
    if (manifest && manifest.until < today()) await caches.delete(name);
  }
  return undefined;
}

/** The stretch of a kept sound that the player asks for. */
async function partOf(request, kept) {
  const asked = /^bytes=(\d*)-(\d*)$/.exec(request.headers.get("Range") ?? "");
  if (!asked || (asked[1] === "" && asked[2] === "")) return kept;
  const whole = await kept.blob();
  const first = asked[1] === "" ? Math.max(0, whole.size - Number(asked[2])) : Number(asked[1]);
  const last = asked[1] !== "" && asked[2] !== "" ? Math.min(Number(asked[2]), whole.size - 1) : whole.size - 1;
  if (first > last) return new Response(null, { status: 416, headers: { "Content-Range": `bytes */${whole.size}` } });
  const headers = new Headers(kept.headers);
  headers.set("Content-Range", `bytes ${first}-${last}/${whole.size}`);
  headers.set("Content-Length", String(last - first + 1));
  return new Response(whole.slice(first, last + 1), { status: 206, headers });
}

async function lookAgain() {
  if (Date.now() - looked < BETWEEN_LOOKS) return;
  looked = Date.now();
  for (const name of await tours()) await bringInStep(name.slice(PREFIX.length));
}

/** Let every tour go. One that is being kept at this moment goes as soon as it is. */
async function letGo() {
  timesLetGo += 1;
  for (const name of await tours()) await caches.delete(name);
}

/** Make what is kept of a tour what its list at this address says; nothing, if somebody signed out meanwhile. */
async function bringInStep(address) {
  const before = timesLetGo;
  const kept = await keptInStep(address);
  if (before === timesLetGo) return kept;
  await caches.delete(PREFIX + address);
  return told("signed-out", {});
}

async function keptInStep(address) {
  const before = await noteOf(PREFIX + address);
  const asked = await reached(address);
  if (!asked) return told("unreached", before);
  if (asked.type === "opaqueredirect") return told("signed-out", before);
  if (!asked.ok) {
    if (asked.status < 500) await caches.delete(PREFIX + address);
    return told(asked.status < 500 ? "refused" : "unreached", asked.status < 500 ? {} : before);
  }
  const manifest = await asked.json();
  const cache = await caches.open(PREFIX + address);
  const listed = new Set([address, ...manifest.files].map((file) => new URL(file, self.location).href));
  for (const { url } of await cache.keys()) if (!listed.has(url)) await cache.delete(url, { ignoreVary: true });
  const same = before.manifest?.version === manifest.version && before.kept === manifest.files.length;
  const note = { manifest, kept: same ? before.kept : await keepAll(cache, manifest.files), since: Date.now() };
  await cache.put(address, Response.json(note));
  return told("kept", note);
}

/** Fetch all files anew, the pages first. One that is refused is not kept, and an older one of it goes. */
async function keepAll(cache, files) {
  let kept = 0;
  for (const file of files) {
    const got = await reached(file);
    if (got?.ok) await cache.put(file, got);
    else if (got) await cache.delete(file, { ignoreVary: true });
    kept += got?.ok ? 1 : 0;
  }
  return kept;
}

/** What an address answers now, past every cache; null where it is not reached. */
async function reached(address) {
  try {
    return await fetch(address, { cache: "no-store", redirect: "manual" });
  } catch (problem) {
    if (problem instanceof TypeError) return null;
    throw problem;
  }
}

async function tours() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX));
}

/** What is written down of a kept tour: its list, how much of it is kept, and since when. */
async function noteOf(name) {
  const note = await caches.match(name.slice(PREFIX.length), { cacheName: name });
  return note ? note.json() : {};
}

function told(state, note) {
  return { state, manifest: note.manifest, since: note.since, kept: note.kept };
}

function today() {
  const now = new Date();
  return [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
}
