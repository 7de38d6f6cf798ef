import { createContext } from "svelte";
import { chooseLanguage, chosenLanguage, type Language } from "../words/language";

const CONTRAST = "haulm.contrast";
const SCHEME = "haulm.scheme";
const AWAKE = "haulm.awake";
const FIRST_STEPS = "haulm.first-steps";

export const schemes = ["phone", "light", "dark"] as const;
export type Scheme = (typeof schemes)[number];

/** The colour that browsers give their own bars, the paper's of each scheme in style/tokens.css. */
const barColours = { light: "#fbf8f1", dark: "#161a18" } as const;

/** How this phone wants to be read and used. It belongs to the phone, not to the garden. */
export class Preferences {
  #sun = $state(localStorage.getItem(CONTRAST) === "sun");
  #scheme = $state<Scheme>(schemes.find((scheme) => scheme === localStorage.getItem(SCHEME)) ?? "phone");
  #awake = $state(localStorage.getItem(AWAKE) !== "off");

  #firstSteps = $state(localStorage.getItem(FIRST_STEPS) !== "away");

  constructor() {
    this.#show();
  }

  /** Black on white and larger, for full sun. */
  get sun(): boolean {
    return this.#sun;
  }

  set sun(on: boolean) {
    this.#sun = on;
    localStorage.setItem(CONTRAST, on ? "sun" : "ordinary");
    this.#show();
  }

  /** Light or dark; "phone" as it asks. */
  get scheme(): Scheme {
    return this.#scheme;
  }

  set scheme(scheme: Scheme) {
    this.#scheme = scheme;
    localStorage.setItem(SCHEME, scheme);
    this.#show();
  }

  /** Keeps the screen on while a round is walked. */
  get awake(): boolean {
    return this.#awake;
  }

  set awake(on: boolean) {
    this.#awake = on;
    localStorage.setItem(AWAKE, on ? "on" : "off");
  }

  /** Whether a new garden's first steps are shown; false once they were put away. */
  get firstSteps(): boolean {
    return this.#firstSteps;
  }

  set firstSteps(shown: boolean) {
    this.#firstSteps = shown;
    localStorage.setItem(FIRST_STEPS, shown ? "shown" : "away");
  }

  /** Null is the phone's own. */
  get language(): Language | null {
    return chosenLanguage();
  }

  /** Opens the app anew in another language; all that was written is on disk by then. */
  set language(language: Language | null) {
    if (language === chosenLanguage()) return;
    chooseLanguage(language);
    location.reload();
  }

  #show(): void {
    const { dataset } = document.documentElement;
    dataset.contrast = this.#sun ? "sun" : "ordinary";
    dataset.scheme = this.#scheme;
    for (const meta of document.querySelectorAll<HTMLMetaElement>("meta[name=theme-color]")) {
      const asked = meta.media.includes("dark") ? "dark" : "light";
      meta.content = barColours[this.#scheme === "phone" ? asked : this.#scheme];
    }
  }
}

export const [usePreferences, providePreferences] = createContext<Preferences>();
