// Which findings are worth a person's look now, planting by planting.

import type { Assessment, Finding } from "../almanac/answers";
import type { Book } from "../state/contract";
import type { Planting } from "../words/records";
import { hasWords } from "./finding-words";

export type Worth = Readonly<{ planting: Planting; findings: readonly Finding[] }>;

/** In the almanac's order, which puts the most telling first; what was put aside is left out. */
export function worthALook(assessment: Assessment | null, book: Pick<Book, "planting">): readonly Worth[] {
  const byPlanting = new Map<string, Finding[]>();
  for (const finding of assessment?.findings ?? []) {
    if (!finding.worthALook || finding.dismissed || !hasWords(finding)) continue;
    byPlanting.set(finding.planting, [...(byPlanting.get(finding.planting) ?? []), finding]);
  }
  return [...byPlanting].flatMap(([id, findings]) => {
    const planting = book.planting(id);
    return planting ? [{ planting, findings }] : [];
  });
}

const none: readonly Finding[] = [];
const indexes = new WeakMap<Assessment, ReadonlyMap<string, readonly Finding[]>>();

/** All findings of one planting, those worth a look first. */
export function findingsOf(assessment: Assessment | null, planting: string): readonly Finding[] {
  return (assessment && byPlantingIn(assessment).get(planting)) ?? none;
}

/** Sorted out once for an assessment: it has thousands, and each screen asks about some. */
function byPlantingIn(assessment: Assessment): ReadonlyMap<string, readonly Finding[]> {
  const known = indexes.get(assessment);
  if (known) return known;
  const index = new Map<string, Finding[]>();
  for (const finding of assessment.findings.filter(hasWords)) {
    const of = index.get(finding.planting);
    if (of) of.push(finding);
    else index.set(finding.planting, [finding]);
  }
  indexes.set(assessment, index);
  return index;
}
