import { MediaQuery } from "svelte/reactivity";

/** A phone, upright or on its side: the same question as in the style sheets of the frame, for use in code. */
export const narrow = new MediaQuery("(max-width: 599px), (max-width: 1099px) and (max-height: 500px)");
