/** What was measured, as a table for the eye and as JSON for the next time. */
import { execFileSync } from 'node:child_process';
import { cpus, totalmem } from 'node:os';
import type { Bar, Figure } from './timing.ts';

export interface Report {
  at: string;
  machine: string;
  versions: Record<string, string>;
  commit: string;
  figures: Figure[];
}

export function reportOf(figures: Figure[], versions: Record<string, string>): Report {
  const [cpu] = cpus();
  return {
    at: new Date().toISOString(),
    machine: `${cpus().length} × ${cpu?.model.trim() ?? 'unknown'}, ${Math.round(totalmem() / 2 ** 30)} GiB, ${process.platform}`,
    versions: { node: process.versions.node, ...versions },
    commit: commitOf(),
    figures,
  };
}

/** A table in the style of a README; `old` adds what each figure was then. */
export function tableOf({ figures }: Report, old?: Report): string {
  const then = new Map(old?.figures.map((figure) => [figure.name, figure]));
  const rows = figures.map((figure) => {
    const before = then.get(figure.name);
    return [
      figure.note === undefined ? figure.name : `${figure.name} (${figure.note})`,
      amount(figure.value, figure.unit),
      figure.baseline ? `${figure.baseline.what}: ${amount(figure.baseline.value, figure.unit)}` : '',
      figure.ratio === undefined ? '' : `${short(figure.ratio)} ×`,
      figure.bar ? barText(figure.bar) : '',
      figure.holds === undefined ? '' : figure.holds ? 'holds' : '**misses**',
      ...(old ? [before ? change(figure.value / before.value) : 'new'] : []),
    ];
  });
  const head = ['what', 'time', 'beside it', 'ratio', 'bar', '', ...(old ? ['since then'] : [])];
  return [head, head.map(() => '---'), ...rows].map((row) => `| ${row.join(' | ')} |`).join('\n');
}

/** Figures that grew by more than noise. */
export function slower({ figures }: Report, old: Report, by = 1.25): Figure[] {
  const then = new Map(old.figures.map(({ name, value }) => [name, value]));
  return figures.filter(({ name, value }) => value > by * (then.get(name) ?? Infinity));
}

function change(ratio: number): string {
  return ratio > 1.25
    ? `**${short(ratio)} × slower**`
    : ratio < 0.8
      ? `${short(1 / ratio)} × faster`
      : 'same';
}

function barText({ ms, mb, ratio, faster }: Bar): string {
  return [
    ms === undefined ? '' : `≤ ${ms} ms`,
    mb === undefined ? '' : `≤ ${mb} MB`,
    ratio === undefined ? '' : `≤ ${ratio} ×`,
    faster === undefined ? '' : `≥ ${faster} × faster`,
  ]
    .filter(Boolean)
    .join(', ');
}

function amount(value: number, unit: Figure['unit']): string {
  return `${short(value)} ${unit}`;
}

function short(value: number): string {
  return value >= 100
    ? value.toFixed(0)
    : value >= 10
      ? value.toFixed(1)
      : value >= 0.1
        ? value.toFixed(2)
        : value.toFixed(4);
}

function commitOf(): string {
  try {
    return execFileSync('git', ['rev-parse', '--short', 'HEAD'], { encoding: 'utf8' }).trim();
  } catch {
    // A copy of the sources without its history is measured all the same.
    return 'unknown';
  }
}
