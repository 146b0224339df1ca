/** What a listener learns. */
export interface Listener {
  /** Something happened: the server's words. */
  heard(data: string): void;
  /** The stream is there, again or for the first time: what happened before is not told. */
  opened(): void;
  /** It broke off. */
  lost(): void;
}

type Word = { readonly what: "heard"; readonly data: string } | { readonly what: "opened" | "lost" };

const name = "shimwright.news";
const isHere = (): boolean => document.visibilityState === "visible";

/**
 * What the server tells, heard once for all tabs of a browser: it holds six connections to one address, and a stream in
 * each tab would leave none for the work. The tab with the lock listens and passes the words on; when it goes, the browser
 * gives the lock to the next one. Where a page gets no locks (an address that is not this machine's own), each tab listens
 * for itself, while it is looked at.
 */
export class News {
  private readonly channel = new BroadcastChannel(name);
  private stream: EventSource | undefined;
  private listens = false;

  constructor(
    private readonly connect: () => EventSource,
    private readonly listener: Listener,
  ) {}

  /** Begins to listen, once; and again after the stream was lost. */
  listen(): void {
    if (this.listens) this.open();
    if (this.channel.onmessage) return;
    this.channel.onmessage = (message) => this.tell(message.data as Word);
    const locks = navigator.locks as LockManager | undefined;
    if (locks) {
      void locks.request(name, () => new Promise<never>(() => this.lead()));
    } else {
      document.addEventListener("visibilitychange", () => (isHere() ? this.lead() : this.rest()));
      if (isHere()) this.lead();
    }
  }

  private lead(): void {
    this.listens = true;
    this.open();
  }
  private rest(): void {
    this.listens = false;
    this.stream?.close();
    this.stream = undefined;
  }

  private open(): void {
    if (this.stream) return;
    const stream = this.connect();
    this.stream = stream;
    stream.onopen = () => this.pass({ what: "opened" });
    stream.onmessage = (message) => this.pass({ what: "heard", data: String(message.data) });
    stream.onerror = () => {
      stream.close();
      if (this.stream !== stream) return;
      this.stream = undefined;
      this.pass({ what: "lost" });
    };
  }

  private pass(word: Word): void {
    if (navigator.locks as LockManager | undefined) this.channel.postMessage(word);
    this.tell(word);
  }
  private tell(word: Word): void {
    if (word.what === "heard") this.listener.heard(word.data);
    else this.listener[word.what]();
  }
}
