import { writeFile } from 'node:fs/promises';
import { check, messageOf, plan, InputError } from 'keepset';

const template = '.demo/sfz.yaml';
await writeFile('keep.json', JSON.stringify(await plan({ template })));

const { verdict, total } = await check({ keep: 'keep.json', template });
console.log(verdict, total.misses);

try {
  await check({ keep: 'keep.json', template, cues: ['not-there.mid'] });
} catch (error) {
  if (!(error instanceof InputError)) throw error;
  console.log(messageOf(error.finding).message);
}
