// A client without gRPC: nothing but fetch.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { here, serve } from './served.mjs';

const request = JSON.parse(readFileSync(path.join(here, '../curl/score.json'), 'utf8'));

let served;
let address;

before(async () => {
  served = await serve('--json-port', '0');
  address = served.jsonAddress;
});

after(() => served?.stop());

const ask = async (where, body) => {
  const response = await fetch(`${address}${where}`, body === undefined ? {} : {
    method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body),
  });
  return { status: response.status, answer: await response.json() };
};

test('grades are listed a page at a time', async () => {
  const first = (await ask('/v1/grades?pageSize=6')).answer;
  const second = (await ask(`/v1/grades?pageSize=6&pageToken=${encodeURIComponent(first.nextPageToken)}`)).answer;
  const names = [...first.grades, ...second.grades].map((grade) => grade.name);
  assert.equal(names.length, first.totalSize);
  assert.deepEqual(names, [...new Set(names)].sort());
  assert.equal(second.nextPageToken, '');
});

test('a score has the best grades first, with money in whole units and billionths', async () => {
  const { status, answer } = await ask('/v1/installations:score', request);
  assert.equal(status, 200);
  assert.equal(answer.gradeScores.length, request.pageSize);
  const best = answer.bestBuy.gradeScore;
  assert.ok(best.fits && best.worstEffortN.likely <= request.installation.effortLimitN);
  assert.match(best.price.units, /^\d+$/);
  assert.equal(best.price.currencyCode, 'USD');
});

test('a wrong field is refused with its name', async () => {
  const wrong = structuredClone(request);
  wrong.installation.helm.frictoinN = 4;
  const { status, answer } = await ask('/v1/installations:score', wrong);
  assert.equal(status, 400);
  assert.equal(answer.code, 3);
  const [violation] = answer.details.find((detail) => detail.fieldViolations).fieldViolations;
  assert.equal(violation.field, 'installation.helm.frictoinN');
  assert.match(violation.description, /"frictionN"/);
});
