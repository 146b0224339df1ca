/** The last thing that happened, for those who listen to the page rather than look at it. */
class Told {
  private n = 0;
  words = $state("");

  /** Said again when the same happens twice: a reader speaks what is different only. */
  say(words: string): void {
    this.n += 1;
    this.words = words + (this.n % 2 === 0 ? "\u00a0" : "");
  }
}

export const told = new Told();
