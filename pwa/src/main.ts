import { mount } from "svelte";
import App from "./App.svelte";
import { openHaulm } from "./state/open";
import "./style/fonts.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/parts.css";
import { chosenLanguage, type Language, languageOf, localeOf, setLocale } from "./words/language";
import { fetchWords } from "./words/messages";

/** Says to browsers and screen readers, and to the home screen, which language this is. */
function announce(language: Language): void {
  document.documentElement.lang = language;
  const manifest = document.querySelector<HTMLLinkElement>("link[rel=manifest]");
  if (manifest) manifest.href = language === "en" ? "/manifest.webmanifest" : `/manifest.${language}.webmanifest`;
}

// The store opens while the texts come.
const haulm = openHaulm();
const wanted = navigator.languages;
void fetchWords(chosenLanguage() ?? languageOf(wanted)).then((language) => {
  setLocale(localeOf(language, wanted));
  announce(language);
  mount(App, { target: document.body, props: { haulm } });
});
