// Every mode of the page in every language by this light.
import { everywhereBy } from "./axe_everywhere.mjs";

everywhereBy("day");
