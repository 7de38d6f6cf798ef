import { describe, expect, it } from "vitest";
import type { Finding } from "../almanac/answers";
import type { About } from "./finding-words";
import { question, questions } from "./question";
import type { Reason } from "./reasons";

const about: About = { today: "2014-07-11", units: "metric", lastLook: "2014-06-12", season: 3, locale: "en-GB" };
const finding = (verdict: Finding["verdict"], evidence: Finding["evidence"] = []): Finding => ({
  planting: "p", flush: 0, year: 2014, verdict, days: [9, null], seasonDays: 6, probability: 0.01, worthALook: true, evidence, check: [], dismissed: null,
});

describe("question", () => {
  it("is nothing where nothing is open", () => expect(question([finding("on-time")], about)).toBeNull());
  it("says why it is asked", () =>
    expect(question([finding("late")], about)).toMatchObject({ ask: "Is it in flower?", why: "Late by at least 9 days; the season accounts for 6." }));
  it("asks first whether a plant is up", () => expect(question([finding("late"), finding("not-up")], about)?.ask).toBe("Has it come up?"));
  it("asks to look where nobody has, and does not say late", () => {
    const asked = question([finding("needs-a-look", [{ say: "no-look-since", day: "2014-06-12" }])], about)!;
    expect(asked.ask).toBe("Is it in flower?");
    expect(asked.why).toMatch(/^Not looked at since 12 June\./u);
    expect(asked.why).not.toMatch(/late/iu);
  });
  it("does not ask for flower that was seen over", () => {
    const over = [{ say: "over-by", day: "2014-07-04" }];
    expect(question([finding("late", over)], about)?.ask).toBe("What held it back?");
    expect(question([finding("far-early", over)], about)?.ask).toBe("Is it what its label says?");
  });
  it("asks whether what is reckoned dry is, and says how much it wants", () =>
    expect(question([finding("dry", [{ say: "give-water", litres: 10 }])], about)).toMatchObject({ ask: "Is it dry a finger deep?", why: "Dry at the root; it wants 10 litres." }));
  it("leaves what sleeps to the warning not to dig", () => expect(question([finding("dormant")], about)).toBeNull());
  it("asks for seed where flower can no longer be seen", () =>
    expect(question([finding("needs-a-look", [{ say: "too-late-to-tell" }])], about)?.ask).toBe("Is there any sign of flower or seed?"));
});

describe("the questions at a stop", () => {
  const quiet: Reason = { mark: "due", tone: "soft", words: "", rest: "", of: null, finding: null, open: true };
  const of = (code: NonNullable<Reason["of"]>["code"], words: string, flush?: number): Reason =>
    ({ ...quiet, words, of: { code, gain: 0.2, ...(flush !== undefined && { flush }) } });
  const read = (...reasons: Reason[]) => questions(reasons, [finding("on-time", [{ say: "expected-open", from: "2014-07-01", to: "2014-07-20" }])], about);

  it("come by what a look settles most, each once, with the row that answers it", () =>
    expect(read({ ...quiet, finding: finding("small-for-age") }, of("may-have-opened", "its flower may have opened", 0), { ...quiet, finding: finding("stalled") })
      .map(({ ask, row }) => [ask, row])).toEqual([["How tall is it now?", "height"], ["Has it opened?", "flower"]]));
  it("say of a flower that is not found late when it was likely to open, and draw it", () =>
    expect(read(of("may-have-opened", "its flower may have opened", 0))).toEqual([
      { ask: "Has it opened?", why: "Its flower may have opened. It was likely to open between 1 July and 20 July.", row: "flower", flush: { year: 2014, flush: 0 } }]));
  it("tell of care that is due as it is", () => expect(read({ ...quiet, words: "Deadhead by 20 July" })).toMatchObject([{ ask: "Deadhead by 20 July." }]));
  it("are what the findings leave, where nothing is worth a stop", () =>
    expect(questions([], [finding("due")], about).map(({ ask }) => ask)).toEqual(["Has it opened?"]));
});
