// The whole round of a shop's tool that is given an address and a key: list, score, watch, change a price, be refused without a key.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { after, before, test } from 'node:test';
import grpc from '@grpc/grpc-js';
import { clients, here, serve } from './served.mjs';

const { installation } = JSON.parse(readFileSync(path.join(here, '../curl/score.json'), 'utf8'));
const snake = (value) => (Array.isArray(value) ? value.map(snake) : value && typeof value === 'object'
  ? Object.fromEntries(Object.entries(value).map(([name, inner]) => [name.replace(/[A-Z]/g, (c) => `_${c.toLowerCase()}`), snake(inner)]))
  : value);
const asked = snake(installation);

let served;

before(async () => { served = await serve(); });
after(() => served?.stop());

async function told(stream, count) {
  const answers = [];
  for await (const answer of stream) {
    answers.push(answer);
    if (answers.length === count) break;
  }
  return answers;
}

test('a price that is changed with a key is told to who watches, and is in the next score', async () => {
  const reader = clients(served.address);
  const till = clients(served.address, served.keys.till);
  const list = await (await reader('cablecatalog.v1.GradeCatalog'))('ListGrades', { page_size: 100 });
  const scoring = await reader('cablecatalog.v1.GradeScoring');
  const before = await scoring('ScoreGrades', { installation: asked });
  const dear = list.grades.find((grade) => grade.name === before.best_buy.grade_score.grade);

  const history = await reader('cablecatalog.v1.CatalogHistory');
  const stream = history.stream('WatchRevisions', { resume_token: list.watch_token });
  const watched = told(stream, 2);
  const changing = await till('cablecatalog.v1.GradeCatalog');
  const change = {
    grade: { name: dear.name, etag: dear.etag, price: { ...dear.price, base: { ...dear.price.base, units: dear.price.base.units + 1000 } } },
    update_mask: { paths: ['price.base'] },
    request_id: '5c1f7b1e-0d5c-4b8a-9a57-0a8a8e9f6d11',
  };
  const changed = await changing('UpdateGrade', change);
  const again = await changing('UpdateGrade', change);
  const [token, revision] = await watched;

  assert.equal(again.etag, changed.etag);
  assert.equal(token.revision, null);
  assert.deepEqual(revision.revision.changes.map((one) => [one.name, one.kind]), [[dear.name, 'CHANGE_KIND_UPDATED']]);
  assert.equal(revision.revision.changes[0].grade_before.price.base.units + 1000, revision.revision.changes[0].grade.price.base.units);
  const after = await scoring('ScoreGrades', { installation: asked });
  const priceOf = (scores) => scores.grade_scores.find((score) => score.grade === dear.name).price.units;
  assert.equal(priceOf(after), priceOf(before) + 1000);

  // From the token of the second answer nothing is told twice.
  const rest = told(history.stream('WatchRevisions', { resume_token: revision.resume_token }), 2);
  await changing('UpdateGrade', { grade: { name: dear.name, price: dear.price }, update_mask: { paths: ['price'] } });
  assert.deepEqual((await rest)[1].revision.changes.map((one) => one.name), [dear.name]);
});

test('without a key nothing is changed, and a price editor changes prices alone', async () => {
  const refusedWith = (code, text) => (error) => error.code === code && error.details.includes(text);
  const keyless = await clients(served.address)('cablecatalog.v1.GradeCatalog');
  const till = await clients(served.address, served.keys.till)('cablecatalog.v1.GradeCatalog');
  const unknown = await clients(served.address, 'till.wrong')('cablecatalog.v1.GradeCatalog');
  const [grade] = (await keyless('ListGrades', {})).grades;
  const rename = { grade: { name: grade.name, display_name: 'Other' }, update_mask: { paths: ['display_name'] } };

  await assert.rejects(keyless('UpdateGrade', rename), refusedWith(grpc.status.UNAUTHENTICATED, 'authorization: Bearer KEY'));
  await assert.rejects(unknown('ListGrades', {}), refusedWith(grpc.status.UNAUTHENTICATED, 'none of this catalogue'));
  await assert.rejects(till('UpdateGrade', rename), refusedWith(grpc.status.PERMISSION_DENIED, 'an administrator'));
  assert.deepEqual(await keyless('GetGrade', { name: grade.name }), grade);
});

test('a stream of installations is answered in order, with what is wrong with one in its own answer', async () => {
  const call = (await clients(served.address)('cablecatalog.v1.GradeScoring')).twoWay('ScoreInstallations');
  const wrong = structuredClone(asked);
  wrong.helm.grip_radius_m = -1;
  for (const [label, one] of [['first', asked], ['wrong', wrong], ['third', asked]]) call.write({ label, request: { installation: one } });
  call.end();
  const answers = await told(call, 4);
  assert.deepEqual(answers.map((one) => [one.request, one.label, one.scores ? 'scores' : one.refusal && 'refusal']), [[0, 'first', 'scores'], [1, 'wrong', 'refusal'], [2, 'third', 'scores']]);
  assert.equal(answers[1].refusal.code, grpc.status.INVALID_ARGUMENT);
  assert.deepEqual(answers[2].scores, answers[0].scores);
});

test('who changed which price is told to an administrator', async () => {
  const boss = await clients(served.address, served.keys.boss)('cablecatalog.v1.CatalogHistory');
  const { revisions } = await boss('ListRevisions', {});
  const prices = revisions.filter((revision) => revision.changes.some((change) => change.grade !== null));
  assert.ok(prices.length >= 2 && prices.every((revision) => revision.author === 'accessKeys/till'));
});
