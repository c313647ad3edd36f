import { plan, messageOf } from 'keepset';

const result = await plan({ template: '.demo/sfz.yaml' });

for (const { id, fits, bytes } of result.machines) {
  console.log(`${id}: ${bytes.kept} of ${bytes.full} bytes, ${fits ? 'fits' : 'does not fit'}`);
}
for (const { id, zonesKept, zones } of result.instruments) {
  console.log(`${id}: ${zonesKept} of ${zones} zones stay`);
}
for (const finding of result.findings.filter(({ severity }) => severity !== 'note')) {
  console.log(messageOf(finding).message);
}
