import { describe, expect, it } from "vitest";
import { learn, newClock, newSuffix, observe, suffixOf, tick, type ClockState } from "./clock";

const nine = Date.parse("2026-06-02T09:15:00.123Z");

describe("the clock", () => {
  it("stamps the wall clock's time with the phone's suffix", () => {
    expect(tick(newClock, nine, "k7f3q2")[0]).toBe("2026-06-02T09:15:00.123Z-0000-k7f3q2");
  });

  it("counts within a millisecond and when the wall clock goes back", () => {
    const [first, one] = tick(newClock, nine, "k7f3q2");
    const [second, two] = tick(one, nine, "k7f3q2");
    const [third] = tick(two, nine - 86_400_000, "k7f3q2");
    expect([second, third]).toEqual(["2026-06-02T09:15:00.123Z-0001-k7f3q2", "2026-06-02T09:15:00.123Z-0002-k7f3q2"]);
    expect(first < second && second < third).toBe(true);
  });

  it("goes on into the next millisecond when the counter is full", () => {
    const full: ClockState = { last: "2026-06-02T09:15:00.123Z-ffff-aaaaaa", offsetMs: 0 };
    expect(tick(full, nine, "k7f3q2")[0]).toBe("2026-06-02T09:15:00.124Z-0000-k7f3q2");
  });

  it("writes after what it has seen, though its own clock stands in 1970", () => {
    const seen = observe(newClock, "2026-06-02T09:15:00.123Z-0004-zzzzzz");
    expect(tick(seen, 0, "k7f3q2")[0]).toBe("2026-06-02T09:15:00.123Z-0005-k7f3q2");
  });

  it("is not moved back by an earlier stamp", () => {
    const [, clock] = tick(newClock, nine, "k7f3q2");
    expect(observe(clock, "2020-01-01T00:00:00.000Z-0000-zzzzzz")).toBe(clock);
  });

  it("adds the offset to the server's clock", () => {
    const clock = learn(newClock, "2026-06-02T09:15:10.123Z", nine);
    expect(clock.offsetMs).toBe(10_000);
    expect(tick(clock, nine + 1, "k7f3q2")[0]).toBe("2026-06-02T09:15:10.124Z-0000-k7f3q2");
  });

  it("ignores a server time that is none", () => {
    expect(learn(newClock, "soon", nine)).toEqual(newClock);
  });

  it("draws suffixes that Go's sync/change takes: 4 to 16 of a-z and 0-9", () => {
    for (let i = 0; i < 50; i++) expect(newSuffix()).toMatch(/^[a-z0-9]{4,16}$/);
    expect(suffixOf("2026-06-02T09:15:00.123Z-0000-k7f3q2")).toBe("k7f3q2");
  });
});
