// A browser may neither open the phone's storage nor refuse it for as long as it runs: another tab of an older tool holds
// it, or it was thrown away in the moment it was opened (Chromium, 6 of 20 tries). The page says so, and goes on by itself.

import { say } from "./words.js";

const LATE_MS = 8000; // of ours: no start measured here took as long until its storage was open (docs/decisions/phone.md)

// From now on it is waited for; what comes back is called once it has answered, however.
export function late(page) {
  const timer = setTimeout(() => {
    page.strip.drop("engine"); // Python waits for the same, and what is said of it says that values are kept
    page.strip.say("late", say("late"), { firm: true });
  }, LATE_MS);
  return () => {
    clearTimeout(timer);
    if (!page.strip.has("late")) return;
    page.strip.drop("late");
    if (["stuck", "dead"].includes(page.stage)) page.engine.restart("the storage opened late").catch(() => {});
  };
}
