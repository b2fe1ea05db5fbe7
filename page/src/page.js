// The page's script, and that of its worker, which is the same text: there it makes tubes and has no document.

import { serve } from "./geometry/make.js";
import { start } from "./start.js";

if (typeof document === "undefined") serve(/** @type {any} */ (self));
else document.addEventListener("DOMContentLoaded", start);
