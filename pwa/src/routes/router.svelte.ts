import { createContext } from "svelte";
import { placeOf, type Place } from "./paths";

/**
 * Where the person is, by the History API, so that addresses work with no
 * network, from the home screen and with the phone's own back gesture.
 */
export class Router {
  #place: Place = $state.raw(placeOf(new URL(location.href)));
  /** Counts moves, so that a screen is made anew for each. */
  #moves = $state(0);
  #leaving = new Map<number, number>();
  #returning = false;
  #entry = 0;

  get place(): Place {
    return this.#place;
  }

  get moves(): number {
    return this.#moves;
  }

  /** Whether the screen is one gone back to, down to where the person was on it. */
  get returning(): boolean {
    return this.#returning;
  }

  /** Listens to links and to back and forward; gives what stops it. */
  listen(): () => void {
    history.scrollRestoration = "manual";
    history.replaceState({ entry: this.#entry }, "");
    const back = (event: PopStateEvent): void => this.#return(event.state as { entry?: number } | null);
    const click = (event: MouseEvent): void => this.#follow(event);
    addEventListener("popstate", back);
    document.addEventListener("click", click);
    return () => {
      removeEventListener("popstate", back);
      document.removeEventListener("click", click);
    };
  }

  /** Goes to an address of this app; `replace` leaves no way back to the present one. */
  go(path: string, replace = false): void {
    this.#leaving.set(this.#entry, scrollY);
    if (!replace) this.#entry++;
    history[replace ? "replaceState" : "pushState"]({ entry: this.#entry }, "", path);
    this.#arrive(0);
  }

  /** Goes where the person came from, or to `otherwise` when this is the first screen. */
  back(otherwise: string): void {
    if (this.#entry > 0) history.back();
    else this.go(otherwise, true);
  }

  #return(state: { entry?: number } | null): void {
    this.#leaving.set(this.#entry, scrollY);
    this.#entry = state?.entry ?? 0;
    this.#arrive(this.#leaving.get(this.#entry) ?? 0);
  }

  #arrive(scroll: number): void {
    this.#place = placeOf(new URL(location.href));
    this.#returning = scroll > 0;
    this.#moves++;
    requestAnimationFrame(() => {
      const named = scroll === 0 && location.hash ? document.getElementById(location.hash.slice(1)) : null;
      if (named) named.scrollIntoView();
      else scrollTo(0, scroll);
    });
  }

  #follow(event: MouseEvent): void {
    const plain = event.button === 0 && !event.defaultPrevented && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!plain || !link || link.target || link.hasAttribute("download")) return;
    const address = new URL(link.href);
    if (address.origin !== location.origin || address.pathname.startsWith("/api/")) return;
    if (address.hash && address.pathname === location.pathname && address.search === location.search) return;
    event.preventDefault();
    this.go(address.pathname + address.search + address.hash);
  }
}

export const [useRouter, provideRouter] = createContext<Router>();
