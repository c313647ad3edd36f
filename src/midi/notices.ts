import {
  finding,
  type Finding,
  type FindingArgs,
  type FindingCode,
  type Place,
  type Severity,
} from '../terms/finding.ts';
import type { Timeline } from './score.ts';
import { clock } from './timeline.ts';

/** Findings of one file, in the order they were met; bars and beats are added at the end. */
export class Notices {
  private readonly file: string;
  private readonly met: { readonly finding: Finding; readonly timeline: number }[] = [];

  constructor(file: string) {
    this.file = file;
  }

  /** @param timeline index of the timeline that `at.tick` counts in; -1 without a tick */
  add<Code extends FindingCode>(
    severity: Severity,
    code: Code,
    args: FindingArgs[Code],
    at: Place | null,
    timeline = -1,
  ): void {
    this.met.push({ finding: finding(severity, code, this.file, args, at), timeline });
  }

  /** Every finding, those with a tick with its bar and beat. */
  placed(timelines: readonly Timeline[]): readonly Finding[] {
    const clocks = new Map<number, ReturnType<typeof clock>>();
    return this.met.map(({ finding: met, timeline: index }) => {
      const timeline = timelines[index];
      if (timeline === undefined || met.at?.tick === undefined) return met;
      let time = clocks.get(index);
      if (time === undefined) clocks.set(index, (time = clock(timeline)));
      const { bar, beat } = time.placeAt(met.at.tick);
      return { ...met, at: { ...met.at, bar, beat } };
    });
  }
}
