/** Outlines as the YAML that a person would write of them. */
import { keyName } from './outline-zones.ts';
import { switchKeysOf } from './outline-data.ts';
import type {
  Limits,
  OutlineArticulation,
  OutlineAxis,
  OutlineData,
  OutlineLegato,
  OutlineReleases,
  OutlineRoundRobins,
  OutlineSwitch,
} from './outline-data.ts';

/** Ways to write one and the same outline. */
export interface OutlineStyle {
  /** The octave of key 60. */
  readonly middleC: 3 | 4 | 5;
  /** Key switches in one row, where nothing else selects by key. */
  readonly row: boolean;
  /** The shortest form of everything that has more than one. */
  readonly short: boolean;
  /** Lists as lists, else as one text with bars. */
  readonly lists: boolean;
  /** Seconds, for every sample. */
  readonly seconds: number;
}

export function outlineText(outline: OutlineData, style: OutlineStyle): string {
  const write = new OutlineWriter(style);
  return [
    `middle-c: C${style.middleC}`,
    `seconds: ${style.seconds}`,
    ...(style.row ? write.row(outline) : []),
    'articulations:',
    ...outline.articulations.flatMap((one) => write.articulation(one)),
    '',
  ].join('\n');
}

class OutlineWriter {
  readonly style: OutlineStyle;

  constructor(style: OutlineStyle) {
    this.style = style;
  }

  key(key: number): string {
    return keyName(key + 12 * (this.style.middleC - 4));
  }

  /** From the lowest switch to the highest; keys between that switch nothing are skipped. */
  row(outline: OutlineData): string[] {
    const keys = switchKeysOf(outline).sort((a, b) => a - b);
    const [from, to] = [keys[0], keys.at(-1)];
    if (from === undefined || to === undefined) return [];
    const names = Array.from({ length: to - from + 1 }, (_, i) => {
      const of = outline.articulations.find(
        ({ switch: by }) => by?.kind === 'key' && by.key === from + i,
      );
      return of?.name ?? '~';
    });
    return [`switches: { from: ${this.key(from)}, names: [${names.join(', ')}] }`];
  }

  articulation(one: OutlineArticulation): string[] {
    const { sampled, when } = one;
    const written = {
      switch: this.style.row && one.switch?.kind === 'key' ? null : this.switch(one.switch),
      keys: one.keys === null ? null : this.several(one.keys.map((range) => this.range(range))),
      sampled: sampled === null ? null : this.sampled(sampled),
      stretch: one.stretch,
      ...this.recorded(one),
      releases: one.releases === null ? null : this.releases(one.releases),
      legato: one.legato === null ? null : this.legato(one.legato),
      when: when === null || when === 'player-decides' ? when : conditionsText(when),
      microphones: one.microphones.length === 0 ? null : `[${one.microphones.join(', ')}]`,
    };
    const lines = entries(written).map((line) => `    ${line}`);
    return lines.length === 0 ? [`  ${one.name}: ~`] : [`  ${one.name}:`, ...lines];
  }

  private switch(by: OutlineSwitch): string | null {
    switch (by?.kind) {
      case undefined:
        return null;
      case 'key':
        return this.key(by.key);
      case 'program':
        return `program ${by.program}`;
      case 'controller':
        return `"cc ${by.number}: ${by.values.join('-')}"`;
      case 'channel':
        return `channel ${by.channel}`;
      case 'none':
        return 'none';
    }
  }

  private range([lowest, highest]: Limits): string {
    return lowest === highest ? this.key(lowest) : `${this.key(lowest)}-${this.key(highest)}`;
  }

  private several(texts: readonly string[]): string {
    return this.style.lists ? `[${texts.join(', ')}]` : texts.join('|');
  }

  private sampled(keys: readonly number[]): string {
    const [first = 0, second = 0] = keys;
    const step = second - first;
    const isRow = keys.length > 1 && keys.every((key, i) => key === first + i * step);
    if (!isRow || !this.style.short) return this.several(keys.map((key) => this.key(key)));
    const row = `${this.key(first)}..${this.key(keys.at(-1)!)}`;
    return step === 1 ? row : `${row} every ${step}`;
  }

  private recorded({ layers, roundRobins }: Recorded) {
    return {
      layers: layers.length === 0 ? null : this.layers(layers),
      'round-robins': this.roundRobins(roundRobins),
    };
  }

  private layers(axes: readonly OutlineAxis[]): string {
    const [first] = axes;
    if (this.style.short && axes.length === 1 && first!.of === 'velocity') {
      if (typeof first!.layers === 'number') return String(first!.layers);
    }
    const text = ({ of, layers }: OutlineAxis): string => {
      const name = of === 'velocity' ? of : `cc${of}`;
      if (typeof layers === 'number') return `${name}: ${layers}`;
      return `${name}: [${layers.map((range) => range.join('-')).join(', ')}]`;
    };
    return `{ ${axes.map(text).join(', ')} }`;
  }

  private roundRobins({ count, borrow }: OutlineRoundRobins): string | null {
    if (borrow === null) return null;
    if (count === 1 && this.style.short) return '1';
    if (borrow === 0) return this.style.short ? String(count) : `{ count: ${count} }`;
    return `{ count: ${count}, borrow: ${borrow} }`;
  }

  private releases(one: OutlineReleases): string {
    return this.map({ at: one.at, ...this.recorded(one) });
  }

  private legato(one: OutlineLegato): string {
    return this.map({
      intervals: one.intervals,
      overlap: one.overlap === null ? null : `${Math.round(one.overlap * 1000)} ms`,
      returns: one.returns === null ? null : one.returns ? 'yes' : 'no',
      ...this.recorded(one),
    });
  }

  /** A map in one line; with nothing in it, the plain word that there is such a thing. */
  private map(values: Readonly<Record<string, string | number | null>>): string {
    const lines = entries(values);
    return lines.length === 0 ? 'yes' : `{ ${lines.join(', ')} }`;
  }
}

type Recorded = Pick<OutlineArticulation, 'layers' | 'roundRobins'>;

function entries(values: Readonly<Record<string, string | number | null>>): string[] {
  return Object.entries(values).flatMap(([key, value]) =>
    value === null ? [] : [`${key}: ${value}`],
  );
}

function conditionsText(when: Exclude<OutlineArticulation['when'], string | null>): string {
  const { velocity, controllers, pressure, held } = when;
  const written = {
    velocity: velocity?.join('-') ?? null,
    controllers:
      controllers.length === 0
        ? null
        : `{ ${controllers.map(([number, values]) => `${number}: ${values.join('-')}`).join(', ')} }`,
    pressure: pressure?.join('-') ?? null,
    held: held?.join('-') ?? null,
  };
  return `{ ${entries(written).join(', ')} }`;
}
