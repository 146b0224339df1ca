import type { references, table } from "./table";

/** What a quantity is, in the words of the result document. */
export type Kind = keyof typeof table;

declare const kindOf: unique symbol;

/** A number in the SI unit of its kind. A length cannot be used as a force. */
export type Si<K extends Kind> = number & { readonly [kindOf]: K };

/** Names a plain number of the result document as what it is. The only door into Si. */
export const si = <K extends Kind>(_kind: K, value: number): Si<K> => value as Si<K>;

export type Reference = keyof typeof references;
export type System = "metric" | "imperial";
