// Answers, line by line, what evaluator.js makes of a plan or of a rounding. Started by test_vectors.py.
import { createInterface } from "node:readline";
import * as evaluator from "../../themes/calico/static/evaluator.js";

const rounders = { to_mark: "toMark", up: "up", down: "down", decimals: "decimals" };
const shown = ({ values, faults }) => ({ values: Object.fromEntries(values), faults });

const answer = (asked) => {
  if (asked.rounder) return evaluator[rounders[asked.rounder]](...asked.of);
  if (asked.given) return shown(evaluator.workOneSize(asked.plan, asked.size, asked.given));
  return evaluator.workAllSizes(asked.plan).map(shown);
};

for await (const line of createInterface({ input: process.stdin })) {
  process.stdout.write(JSON.stringify(answer(JSON.parse(line))) + "\n");
}
