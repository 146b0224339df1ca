import { describe, expect, it } from "vitest";
import { Refusal } from "./faults";
import { Holding } from "./holding";
import type { ResultDocument } from "./model";
import type { PatchOperation } from "./patch";

interface Answer {
  revision: number;
  result?: ResultDocument;
  result_patch?: readonly PatchOperation[];
  result_tag?: string;
}

const document = (title: string): ResultDocument => ({ header: { title }, units: [] }) as unknown as ResultDocument;
const whole = (tag: string): Answer => ({ revision: 1, result: document(tag), result_tag: tag });
const changes = (tag: string, from = "/header/title"): Answer => ({
  revision: 2,
  result_patch: [{ op: "replace", path: from, value: tag }],
  result_tag: tag,
});
const never = (): Promise<Answer> => Promise.reject(new Error("asked again"));
const named = (headers: Readonly<Record<string, string>>): string | undefined => headers["X-Shimwright-Result"];

describe("what the page holds of the results", () => {
  it("is named by the next request, whose answer brings the changes only", async () => {
    const holding = new Holding();
    const first = await holding.taken((headers) => (expect(named(headers)).toBeUndefined(), Promise.resolve(whole("A"))), never);
    const second = await holding.taken((headers) => (expect(named(headers)).toBe("A"), Promise.resolve(changes("B"))), never);
    expect(second).toEqual({ revision: 2, result: document("B") });
    expect(second.result?.units).toBe(first.result?.units);
    await holding.taken((headers) => (expect(named(headers)).toBe("B"), Promise.resolve(changes("C"))), never);
  });

  it("stays when an answer has no result", async () => {
    const holding = new Holding();
    await holding.taken(() => Promise.resolve(whole("A")), never);
    expect(await holding.taken(() => Promise.resolve<Answer>({ revision: 2 }), never)).toEqual({ revision: 2 });
    await holding.taken((headers) => (expect(named(headers)).toBe("A"), Promise.resolve(whole("B"))), never);
  });

  it("lets answers overtake each other: each changes what its own request named", async () => {
    const holding = new Holding();
    await holding.taken(() => Promise.resolve(whole("A")), never);
    let answerSlow: (answer: Answer) => void = () => undefined;
    const slow = holding.taken(() => new Promise<Answer>((resolve) => (answerSlow = resolve)), never);
    const quick = await holding.taken(() => Promise.resolve({ ...changes("B"), result_patch: [{ op: "remove", path: "/units" } as const] }), never);
    expect(quick.result).not.toHaveProperty("units");
    answerSlow(changes("C"));
    expect((await slow).result).toEqual(document("C")); // of A, not of B
  });

  it("asks for the whole once when the changes do not fit", async () => {
    const holding = new Holding();
    await holding.taken(() => Promise.resolve(whole("A")), never);
    const mended = await holding.taken(
      () => Promise.resolve(changes("B", "/nowhere")),
      () => Promise.resolve(whole("B")),
    );
    expect(mended.result).toEqual(document("B"));
    await holding.taken((headers) => (expect(named(headers)).toBe("B"), Promise.resolve(whole("C"))), never);
  });

  it("makes the state whole that a refusal tells", async () => {
    const holding = new Holding();
    await holding.taken(() => Promise.resolve(whole("A")), never);
    const refused = holding.taken(() => Promise.reject(new Refusal(409, "conflict", "changed", "look", { job: changes("B") })), never);
    await expect(refused).rejects.toMatchObject({ code: "conflict", body: { job: { revision: 2, result: document("B") } } });
    await holding.taken((headers) => (expect(named(headers)).toBe("B"), Promise.resolve(changes("C"))), never);
    const plain = new Refusal(422, "faulty", "no", "mend", {});
    await expect(holding.taken(() => Promise.reject(plain), never)).rejects.toBe(plain);
  });
});
