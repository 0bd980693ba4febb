// A client in another language. It is given an address and nothing else: services and messages come from reflection.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { after, before, test } from 'node:test';
import grpc from '@grpc/grpc-js';
import { clients, here, program, serve } from './served.mjs';

const degrees = Math.PI / 180;

// The installation of throttle.yaml, as the contract has it.
const installation = {
  display_name: 'Node test, throttle',
  helm: {
    grip_radius_m: 0.3, crank_radius_m: 0.09, sweep_rad: 60 * degrees, crank_at_rest_rad: -30 * degrees, efficiency: 0.95, friction_n: 4,
  },
  route_wobble_rad_per_m: { low: 0.05, likely: 0.05, high: 0.05 },
  route: [
    { straight: { length_m: 1.5 } },
    { bend: { angle_rad: 90 * degrees, radius_m: 0.3 } },
    { straight: { length_m: 2 } },
  ],
  end_allowance_m: 0.2,
  arm: { load_radius_m: 0.2, hole_radius_m: 0.1, efficiency: 0.92, friction_n: 5 },
  load_cases: [{ display_name: 'open', direction: 'DIRECTION_PUSH', force_n: 60 }],
  present_cable: { friction: { low: 0.2, likely: 0.2, high: 0.2 } },
  effort_limit_n: 60,
};

let served;
let address;
let clientOf;

before(async () => {
  served = await serve();
  address = served.address;
  clientOf = clients(address, served.keys.boss);
});

after(() => served?.stop());

test('a client made from reflection gets the ranking that the command line prints', async () => {
  const scoring = await clientOf('cablecatalog.v1.GradeScoring');
  const scores = await scoring('ScoreGrades', { installation });
  const printed = JSON.parse(execFileSync('dotnet', [
    program, 'compare', path.join(here, 'throttle.yaml'), '--server', `http://${address}`, '--output', 'json',
  ]));

  assert.ok(scores.grade_scores.length >= 8);
  assert.deepEqual(
    scores.grade_scores.map((score) => [score.grade, score.fits]),
    printed.gradeScores.map((score) => [score.grade, score.fits]));
  scores.grade_scores.forEach((score, index) => {
    const theirs = printed.gradeScores[index].worstEffortN.likely;
    assert.ok(Math.abs(score.worst_effort_n.likely - theirs) <= 1e-9 * theirs);
  });
  assert.equal(scores.best_buy.verdict, 'BUY_VERDICT_CHEAPEST_THAT_MEETS_LIMIT');
  assert.equal(scores.best_buy.grade_score.grade, printed.bestBuy.gradeScore.grade);
});

test('the best two are the first two of the ranking', async () => {
  const scoring = await clientOf('cablecatalog.v1.GradeScoring');
  const all = await scoring('ScoreGrades', { installation });
  const best = await scoring('ScoreGrades', { installation, page_size: 2 });
  assert.deepEqual(best.grade_scores.map((s) => s.grade), all.grade_scores.slice(0, 2).map((s) => s.grade));
  assert.notEqual(best.next_page_token, '');
});

test('a wrong field comes back as INVALID_ARGUMENT with its path', async () => {
  const scoring = await clientOf('cablecatalog.v1.GradeScoring');
  const wrong = structuredClone(installation);
  wrong.route[1].bend.radius_m = -1;
  await assert.rejects(scoring('ScoreGrades', { installation: wrong }), (error) => {
    assert.equal(error.code, grpc.status.INVALID_ARGUMENT);
    assert.match(error.details, /installation\.route\[1\]\.bend\.radius_m/);
    assert.ok(error.metadata.get('grpc-status-details-bin').length > 0);
    return true;
  });
});

test('grades are listed, read and refused', async () => {
  const catalog = await clientOf('cablecatalog.v1.GradeCatalog');
  const page = await catalog('ListGrades', { page_size: 3 });
  assert.equal(page.grades.length, 3);
  const grade = await catalog('GetGrade', { name: page.grades[0].name });
  assert.equal(grade.etag, page.grades[0].etag);
  await assert.rejects(catalog('GetGrade', { name: 'grades/none' }), (error) => error.code === grpc.status.NOT_FOUND);
});

test('options stand on a frontier, and a price list and a quote go with them', async () => {
  const lists = await clientOf('cablecatalog.v1.PriceLists');
  const list = await lists('CreatePriceList', {
    price_list_id: 'node',
    price_list: {
      display_name: 'Node test', currency_code: 'USD', other_grades_margin: 0.2, tax_share: 0.1,
      valid_from: { year: 2026, month: 1, day: 1 }, valid_until: { year: 2026, month: 12, day: 31 },
    },
  });
  const quoting = await clientOf('cablecatalog.v1.Quoting');
  const quote = await quoting('MakeQuote', {
    weighing: { installation, price_list: list.name }, date: { year: 2026, month: 12, day: 1 }, customer: 'Node',
  });
  const options = quote.weighing.options;
  const frontier = options.filter((option) => option.standing === 'FRONTIER_STANDING_ON_FRONTIER');
  assert.equal(frontier.length, quote.weighing.steps.length + 1);
  assert.ok(quote.options.length >= 1 && quote.options.every((row) => !options[row.option].keeps_all));
  assert.deepEqual(quote.valid_until, { year: 2026, month: 12, day: 31 });

  // Margin and tax in cents: the catalogue's price by ScoreGrades, and a fifth and a tenth of that.
  const scoring = await clientOf('cablecatalog.v1.GradeScoring');
  const scores = await scoring('ScoreGrades', { installation });
  const cents = (money) => money.units * 100 + Math.round(money.nanos / 1e7);
  const bought = options.find((option) => option.grade !== '' && option.problems.length === 0);
  const listed = cents(scores.grade_scores.find((score) => score.grade === bought.grade).price);
  const net = Math.round(listed * 12 / 10);
  assert.equal(cents(bought.bill.net), net);
  assert.equal(cents(bought.bill.total), net + Math.round(net / 10));
});
