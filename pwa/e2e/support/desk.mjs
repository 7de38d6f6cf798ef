// The demo garden open at a desk, for a file of tests that works it by the keyboard.
import { after, before } from "node:test";
import { deskSize, Phone } from "./browser.mjs";
import { Keys } from "./keys.mjs";
import { openDemo } from "./people.mjs";
import { Server } from "./server.mjs";

/** Opens it before the tests of a file and removes it after them; `have` gets what they work with. */
export function demoAtDesk(have) {
  let server, phone;

  before(async () => {
    server = await (await Server.make({ demo: true })).start();
    phone = new Phone(server.address, { size: deskSize });
    const page = await openDemo(phone);
    have({ phone, page, keys: new Keys(page) });
  });

  after(async () => {
    await phone?.remove();
    await server?.remove();
  });
}
