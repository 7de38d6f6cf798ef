import { expect, it } from "vitest";
import { TroubleError } from "../words/trouble";
import { askWords } from "./ask-words";

const refusal = (code: string): TroubleError => new TroubleError("not-allowed", "Said by the server.", 403, { code, why: "Said by the server." });

it.each(["join_code_unknown", "join_code_expired", "join_code_used", "join_code_withdrawn"])("has a sentence of its own for %s", (code) => {
  expect(askWords(refusal(code))).not.toMatch(/Said by the server|part in this garden/u);
});
it("gives any other refusal as it is", () => expect(askWords(refusal("something_else"))).toContain("Said by the server."));
it("promises no second try where there is none", () => expect(askWords(new TroubleError("no-answer"))).not.toMatch(/will be tried again/u));
