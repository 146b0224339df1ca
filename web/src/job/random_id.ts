/** 16 hex digits that nobody else has. crypto.randomUUID is missing on pages that come over an open network. */
export const randomId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
