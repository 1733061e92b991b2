// What the page needs once the screen as it last was stands: a file of its own, so that a start does not read it before.

import { bringBack, spareSettings } from "./spare.js";
import { drop } from "./heap.js";
import { late } from "./late.js";
import { openLog } from "./log.js";
import { watchBundle } from "./bundle.js";
import { Carry } from "./carry.js";
import { Engine, Planner } from "./engine.js";
import { openSheet } from "./sheet.js";
import { Sync } from "./sync.js";

export const rest = { bringBack, drop, late, openLog, openSheet, spareSettings, watchBundle, Carry, Engine, Planner, Sync };
