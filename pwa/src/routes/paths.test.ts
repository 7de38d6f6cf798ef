import { describe, expect, it } from "vitest";
import { paths, placeOf } from "./paths";

const at = (path: string) => placeOf(new URL(path, "https://garden.example"));

describe("placeOf", () => {
  it("reads back every address that is written", () => {
    expect(at(paths.today).screen).toBe("today");
    expect(at(paths.stop("a/b"))).toMatchObject({ screen: "stop", id: "a/b" });
    expect(at(paths.stop("x", true)).query.has("open")).toBe(true);
    expect(at(paths.addPlanting("iris-sibirica"))).toMatchObject({ screen: "add-planting", id: "iris-sibirica" });
    expect(at(paths.addLabelled("Geranium 'Rozanne' & co")).query.get("label")).toBe("Geranium 'Rozanne' & co");
    expect(at(paths.mendPlanting("a/b"))).toMatchObject({ screen: "mend-planting", id: "a/b" });
    expect(at(paths.cane("a/b"))).toMatchObject({ screen: "cane", id: "a/b" });
    expect(at(paths.photos(["a", "b"])).query.get("of")).toBe("a,b");
    expect(at(paths.entry("0192"))).toMatchObject({ screen: "entry", id: "0192" });
    expect(at(paths.bed("a/b"))).toMatchObject({ screen: "bed", id: "a/b" });
    expect(at(paths.plan()).screen).toBe("plan");
    expect(at(paths.plan("a/b")).query.get("planting")).toBe("a/b");
    for (const path of [paths.round, paths.plants, paths.tray, paths.scan, paths.sending, paths.household, paths.garden, paths.settings, paths.about, paths.join]) expect(at(path).screen, path).toBe(path.slice(1));
  });
  it("takes a closing slash and the shell's own name", () => {
    expect(at("/plants/").screen).toBe("plants");
    expect(at("/index.html").screen).toBe("today");
  });
  it.each(["/nothing", "/planting/", "/planting/a/b"])("says that %s is no screen", (path) => expect(at(path).screen).toBe("lost"));
  it("does not fail on a broken address", () => expect(at("/planting/%E0%A4%A").screen).toBe("planting"));
});
