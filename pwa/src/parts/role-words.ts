import { m } from "../paraglide/messages.js";
import type { Role } from "../state/contract";

/** What a member may do, in a word. */
export function roleWord(role: Role): string {
  return { keeper: m.role_keeper, helper: m.role_helper, viewer: m.role_viewer }[role]();
}

/** What a member may do, in a sentence. */
export function roleMeans(role: Role): string {
  return { keeper: m.role_keeper_means, helper: m.role_helper_means, viewer: m.role_viewer_means }[role]();
}
