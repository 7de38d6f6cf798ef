import { describe, expect, it } from "vitest";
import type { Finding } from "../almanac/answers";
import type { About } from "./finding-words";
import { question } from "./question";

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
