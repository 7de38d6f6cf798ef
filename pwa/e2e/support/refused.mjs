// What the server does not take, for tests that need an entry to be refused.

const TOO_TALL = 9000; // cm; more than the server takes

/** A change on its way: its height grows beyond what the server takes, as of a phone that knows no bound. */
export async function outgrow(route) {
  const said = route.request().postDataJSON();
  for (const { set } of said?.changes ?? []) if (set?.heightCm) set.heightCm = TOO_TALL;
  await route.continue({ postData: said });
}
