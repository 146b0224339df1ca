import type { ResultDocument } from "./model";
import { Misfit, patched, type PatchOperation } from "./patch";

/** How an answer brings its result: whole, or as what has changed since the one that the request named. */
interface Answered {
  result?: ResultDocument;
  result_patch?: readonly PatchOperation[];
  result_tag?: string;
}

export type Headers = Readonly<Record<string, string>>;

/**
 * The newest result that the page has, by the server's tag. Requests name it, and answers bring only what is different:
 * a hundred numbers in place of ten thousand, and all else stays the same objects. Answers may overtake each other: each
 * is applied to the result that its own request named.
 */
export class Holding {
  private held: { readonly tag: string; readonly result: ResultDocument } | undefined;

  /** The answer with its whole result. `again` asks without naming any, should the changes not fit. */
  async taken<T extends Answered>(ask: (headers: Headers) => Promise<T>, again: () => Promise<T>): Promise<T> {
    const named = this.held;
    const answer = await ask(named ? { "X-Shimwright-Result": named.tag } : {});
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
