import { describe, expect, it } from "vitest";
import type { Finding } from "../almanac/answers";
import { digWarning } from "./dig-warning";

const finding = (verdict: Finding["verdict"], evidence: Finding["evidence"] = []): Finding => ({
  planting: "p", flush: null, year: 2014, verdict, days: null, seasonDays: null, probability: null, worthALook: false, evidence, check: [], dismissed: null,
});
const warning = (...findings: Finding[]): string => digWarning(findings, "2014-07-11", "en-GB");

describe("where one would dig", () => {
  it("says until when something sleeps", () =>
    expect(warning(finding("on-time"), finding("dormant", [{ say: "asleep-until", day: "2015-03-27" }]))).toBe("Something sleeps here: no spade, no fork before 27 March 2015."));
  it("warns where nobody can say until when", () => expect(warning(finding("dormant"))).toBe("Something sleeps here: no spade, no fork."));
  it("spares what is late to come up, without a day on which it may be dug out", () =>
    expect(warning(finding("dormant", [{ say: "asleep-until", day: "2015-03-27" }]), finding("not-up"))).toBe("Something may still sleep here: no spade, no fork."));
  it("is silent over what stands above the ground", () => expect(warning(finding("late"), finding("shaded"))).toBe(""));
});
