// The screens over a garden that lives in memory, to be looked at and held to
// the access rules without a server. Never part of what is shipped.

import { mount } from "svelte";
import App from "../../src/App.svelte";
import "../../src/style/fonts.css";
import "../../src/style/tokens.css";
import "../../src/style/base.css";
import "../../src/style/parts.css";
import { FixtureHaulm } from "./fixture.svelte";

const state = new URLSearchParams(location.search).get("state") ?? sessionStorage.getItem("state") ?? "inside";
sessionStorage.setItem("state", state);
const kinds = (await (await fetch("/catalogue.json")).json()).kinds;
mount(App, { target: document.body, props: { haulm: new FixtureHaulm(kinds, state) } });
