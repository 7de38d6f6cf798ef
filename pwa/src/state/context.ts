import { createContext } from "svelte";
import type { Haulm } from "./contract";

/** `provideHaulm` in App, `useHaulm` in any component under it. */
export const [useHaulm, provideHaulm] = createContext<Haulm>();
