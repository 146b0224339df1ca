import { Refusal } from "./faults";
import type { ResultDocument } from "./model";
import { Misfit, patched, type PatchOperation } from "./patch";

/** How an answer brings its result: whole, or as what has changed since the one that the request named. */
interface Answered {
  result?: ResultDocument;
  result_patch?: readonly PatchOperation[];
  result_tag?: string;
}

interface Held {
  readonly tag: string;
  readonly result: ResultDocument;
}

export type Headers = Readonly<Record<string, string>>;

/**
 * The newest result that the page has, by the server's tag. Requests name it, and answers bring only what is different:
 * a hundred numbers in place of ten thousand, and all else stays the same objects. Answers may overtake each other: each
 * is applied to the result that its own request named.
 */
export class Holding {
  private held: Held | undefined;

  /**
   * The answer with its whole result; of a refusal that tells the present state, that state with it. `again` asks without
   * naming any, should the changes not fit.
   */
  async taken<T extends Answered>(ask: (headers: Headers) => Promise<T>, again: () => Promise<T>): Promise<T> {
    const named = this.held;
    try {
      return await this.fitted(await ask(named ? { "X-Shimwright-Result": named.tag } : {}), named, again);
    } catch (fault) {
      const present = fault instanceof Refusal ? (fault.body as { job?: T } | undefined)?.job : undefined;
      if (!(fault instanceof Refusal) || !present) throw fault;
      const job = await this.fitted(present, named, again);
      throw new Refusal(fault.status, fault.code, fault.message, fault.remedy, { ...(fault.body as object), job });
    }
  }

  private async fitted<T extends Answered>(answer: T, named: Held | undefined, again: () => Promise<T>): Promise<T> {
    try {
      return this.whole(answer, named?.result);
    } catch (fault) {
      if (!(fault instanceof Misfit) || !named) throw fault;
      this.held = undefined;
      return this.whole(await again(), undefined);
    }
  }

  private whole<T extends Answered>(answer: T, named: ResultDocument | undefined): T {
    const { result_patch: changes, result_tag: tag, ...rest } = answer;
    if (changes && !named) throw new Misfit("changes came without a result to change");
    const result = changes && named ? patched(named, changes) : answer.result;
    if (!result) return answer;
    if (tag) this.held = { tag, result };
    return { ...rest, result } as T;
  }
}
