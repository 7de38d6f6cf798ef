import { expect, it } from "vitest";
import { flowerOpen } from "./flower";

it.each([[undefined, false], [59, false], [60, true], [68, true], [69, false]])("at stage %s flower is open: %s", (stage, open) => expect(flowerOpen(stage)).toBe(open));
