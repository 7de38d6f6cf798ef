import { expect, it } from "vitest";
import { Chosen } from "./chosen.svelte";

it("follows what is offered until a person chooses, and keeps the choice from then on", () => {
  let beds = $state.raw([{ id: "north" }]);
  const bed = new Chosen(() => beds[0]?.id ?? "");
  expect(bed.current).toBe("north");
  beds = [{ id: "pond" }, { id: "north" }];
  expect(bed.current).toBe("pond");
  bed.current = "";
  beds = [{ id: "pond" }];
  expect(bed.current).toBe("");
});
