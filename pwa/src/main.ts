import { mount } from "svelte";
import App from "./App.svelte";
import { openHaulm } from "./state/open";
import "./style/fonts.css";
import "./style/tokens.css";
import "./style/base.css";
import "./style/parts.css";

mount(App, { target: document.body, props: { haulm: openHaulm() } });
