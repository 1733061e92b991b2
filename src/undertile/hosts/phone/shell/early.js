// The screen last shown is looked up while the page is still being read; Python comes after the pad (page.js).

import { lastKept } from "./last.js";

window.undertileLast = lastKept();
