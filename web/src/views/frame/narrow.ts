import { MediaQuery } from "svelte/reactivity";

/** A phone, upright or on its side: what the style sheets of the frame ask, for what is not a matter of style. */
export const narrow = new MediaQuery("(max-width: 599px), (max-width: 1099px) and (max-height: 500px)");
