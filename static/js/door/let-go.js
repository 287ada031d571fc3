// Where signing out leads: tours that the Desk kept on this device go. Logs that wait to be handed in stay.
if ("caches" in globalThis) {
  const kept = (await caches.keys()).filter((name) => name.startsWith("lemel-tour "));
  await Promise.all(kept.map((name) => caches.delete(name)));
}
