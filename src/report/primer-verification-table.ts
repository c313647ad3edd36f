import type { MissingZone, PrimerVerification } from '../primer/primer.ts';
import { bullets } from './bullets.ts';
import { plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph } from './paragraph.ts';

/** Zones that are named of each instrument. */
const mostNamed = 6;

/** Whether a file still loads the keep set, and if not what is missing and what is too much. */
export const primerVerificationTable = (
  { verdict, instruments, file }: PrimerVerification,
  look: Look,
): string => {
  const { bold, green, red, yellow } = look.colors;
  const zones = instruments.reduce((sum, one) => sum + one.zones, 0);
  const missing = instruments.reduce((sum, one) => sum + one.missing.length, 0);
  const needless = instruments.reduce((sum, one) => sum + one.needless.length, 0);
  const lacking = instruments.reduce((sum, one) => sum + one.notPrimed, 0);
  const shown = nameInText(file, look);
  const isVerified = verdict === 'verified';
  const answer = isVerified
    ? `Verified: ${shown} loads all ${plural(zones, 'zone')} that it should, and nothing else.`
    : missing === 0 && needless === 0
      ? `! NOT VERIFIED: ${shown} is damaged, so what it loads is not wholly known.`
      : `! NOT VERIFIED: ${shown} does not load ${plural(missing, 'zone')} that ${missing === 1 ? 'stays' : 'stay'}, and loads ${plural(needless, 'zone')} that ${needless === 1 ? 'was' : 'were'} dropped.`;
  const sections = [
    [
      [{ text: answer, paint: (text: string) => bold(isVerified ? green(text) : red(text)) }],
      ...(lacking === 0 ? [] : [[{ text: notPrimed(lacking), paint: yellow }]]),
    ].flatMap((each) => paragraph(each, look.width)),
    listed('Not loaded', instruments, (one) => one.missing, look),
    listed('Loaded needlessly', instruments, (one) => one.needless, look),
    isVerified
      ? []
      : bullets(
          'What to do next',
          [
            [
              'Look whether tracks are missing or renamed, whether notes were moved or quantised, and whether the sequencer left out controllers, programs or key switches. Then export again, or make the primer anew.',
            ],
          ],
          look,
        ),
  ].filter(({ length }) => length > 0);
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};

const notPrimed = (lacking: number): string => {
  const [they, them] = lacking === 1 ? ['it is', 'it'] : ['they are', 'them'];
  return `! ${plural(lacking, 'more zone')} that ${lacking === 1 ? 'stays' : 'stay'} no primer can load, so ${they} not asked for: play the cues that need ${them}, or load ${them} by hand.`;
};

type Verified = PrimerVerification['instruments'][number];

const listed = (
  heading: string,
  instruments: readonly Verified[],
  of: (one: Verified) => readonly MissingZone[],
  look: Look,
): readonly string[] =>
  bullets(
    heading,
    instruments
      .filter((one) => of(one).length > 0)
      .map((one) => {
        const own = of(one);
        const keys = own.map(({ key, zone }) => key ?? `zone ${String(zone)}`);
        const copies = [...new Set(own.flatMap(({ copy }) => copy ?? []))];
        const where = copies.length === 0 ? '' : ` (${nameList(copies, look)})`;
        return [
          `${nameInText(one.id, look)}${where}: ${plural(own.length, 'zone')}: ${nameList(keys, look, mostNamed)}.`,
        ];
      }),
    look,
  );
