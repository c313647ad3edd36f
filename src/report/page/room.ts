import type { Overview } from '../../overview/overview.ts';
import type { OverviewMachine } from '../../overview/overview-machines.ts';
import { plainColors } from '../colors.ts';
import type { Look } from '../look.ts';
import { roomWays } from '../memory-room.ts';
import { amount } from './figures.ts';
import { joined, markup, type Html } from './html.ts';
import { named } from './names.ts';
import { held } from './numbers.ts';

/** Words of the terminal without its colours and lines. */
export const pageLook = (middleC: number): Look => ({
  ...{ colors: plainColors, ascii: false, width: 160, middleC },
});

const roomOn = (machine: OverviewMachine, middleC: number): Html => {
  const { id, ways, largest } = machine;
  const look = pageLook(middleC);
  const most = largest.map(
    ({ instrument, bytes }) => markup`${named(instrument)} ${amount(bytes)}`,
  );
  return markup`<h4>What would make room on machine ${named(id)}</h4>${
    ways.length === 0
      ? markup`<p>Nothing was found that would free memory there.</p>`
      : markup`<ul class=p>${roomWays(ways, id, look).map((words) => markup`<li>${held(words)}`)}</ul><p>${ways.some(({ fits }) => fits) ? 'Each is counted by itself, all else as it is.' : 'None of these is enough alone: take several.'}</p>`
  }${most.length > 0 && markup`<p>Most is taken by ${joined(most, ', ')}.</p>`}`;
};

/** What would free memory on the machines that are too small. */
export const roomSection = ({ machines, middleC }: Overview): Html =>
  markup`${machines.filter(({ fits }) => fits === false).map((machine) => roomOn(machine, middleC))}`;
