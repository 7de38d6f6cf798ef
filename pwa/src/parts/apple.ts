/** An iPhone or iPad, which puts an app on the home screen by hand alone and gives it a store of its own there. An iPad calls itself a Mac, but is touched. */
export function isApple({ userAgent, maxTouchPoints }: Pick<Navigator, "userAgent" | "maxTouchPoints"> = navigator): boolean {
  return /iPhone|iPad|iPod/u.test(userAgent) || (userAgent.includes("Macintosh") && maxTouchPoints > 1);
}
