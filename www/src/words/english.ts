// English texts that are said later: those in tables. Types and marks alone, for what has no catalogue as well.

/** The names in braces of a text. */
export type Places<T extends string> = T extends `${string}{${infer Name}}${infer Rest}` ? Name | Places<Rest> : never;

/** An English text that is said later. `phrase` says it; to the compiler it is no text, so that nothing shows it as it is. */
export type English = symbol;

/** The same with places for values. */
export interface Template<P extends string> {
  readonly places: P;
}

/** Marks an English text to be said later. */
export const english = <const T extends string>(text: T) => text as unknown as [Places<T>] extends [never] ? English : Template<Places<T>>;

/** The English of such a text. */
export const inEnglish = (text: English): string => text as unknown as string;
