// Where signing out leads: tours that the Desk kept on this device go. Logs that wait to be handed in stay.
if ("caches" in globalThis) {
  const kept = (await caches.keys()).filter((name) => name.startsWith("lemel-tour "));
  await Promise.all(kept.map((name) => caches.delete(name)));
}
// A worker that is fetching a tour at this moment would write it down after all.
for (const { active } of (await navigator.serviceWorker?.getRegistrations()) ?? []) active?.postMessage({ letGo: true });
