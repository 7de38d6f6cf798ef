/** Texts that look alike but must not be mixed up, branded so that the compiler keeps them apart. */

declare const brand: unique symbol;
type Branded<Name extends string> = string & { readonly [brand]?: Name };

/** A UUIDv7 made on this phone. */
export type Uuid = Branded<"uuid">;

/** A hybrid logical clock's text; it sorts as text. See clock.ts. */
export type Stamp = Branded<"stamp">;

/** Lower-case hexadecimal SHA-256 of a file's bytes, which is its name. */
export type Sha256 = Branded<"sha256">;

/** "YYYY-MM-DD", the date in the garden. */
export type ISODay = Branded<"day">;

/** "YYYY", "YYYY-MM" or "YYYY-MM-DD". */
export type PartialDay = Branded<"partial-day"> | ISODay;

/** "MM-DD". */
export type MonthDay = Branded<"month-day">;

/** RFC 3339 with an offset. */
export type ISOInstant = Branded<"instant">;

/** Where a phone has read the feed up to, "epoch.seq"; empty at the start. */
export type Cursor = Branded<"cursor">;
