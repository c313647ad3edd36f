import type { Start } from '../../instruments/program.ts';
import { choicesFor } from './choices.ts';
import { combinations } from './combinations.ts';
import { demandsOf } from './demands.ts';
import { lanesFor } from './lanes-for.ts';
import type { Performer } from './performer.ts';
import type { Situation } from './situation.ts';

/**
 * Ways to make a start happen, the simplest first: values from the middle of what it asks for, then
 * one thing changed at a time, then some of them together.
 */
export function* situationsOf(performer: Performer, start: Start): Generator<Situation> {
  const { program } = performer.plain;
  for (const demand of demandsOf(program, start)) {
    for (const [source, lane] of lanesFor(performer.copy.copy, program, demand)) {
      const choices = choicesFor(performer, start, demand, source, lane);
      if (choices !== null) yield* combinations(program, start, choices);
    }
  }
}
