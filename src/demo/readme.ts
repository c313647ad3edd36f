/** The text that lies beside the demo's cues and bank. */
export const readme = `Saltmere: a score to try keepset on
===================================

Everything in this folder is invented and made by rule: a small drama by the sea, its
cues and the bank they play. No real score, no recording and no library is in it. The same
version of keepset always writes the same files.

cues/
  1m1 Saltmere Titles      the whole band; starts with a GM system message
  1m2 Harbour v3, v4       two versions; v4 has a few high and low notes more
  1m3 Net Loft             one note comes before its program change
  1m4 Lamp Room v2         a program change on the tick of a note, after the note
  2m1 Low Water            strings from a variation bank; the horns' one is missing
  2m2 The Pilot Boat       fast; woodwind with the legato pedal, the second drum kit
  2m3 Fog Signal           slows down and leaves the sustain pedal down

instruments/
  harbour.sf2              a SoundFont bank with seventeen presets. The cues leave most of
                           it alone: whole presets, loud layers, high and low keys.

Three commands to try, from this folder:

  keepset usage cues
      what the score plays: parts, keys, velocities, programs

  keepset plan cues --instrument instruments/harbour.sf2
      what has to stay loaded, what that saves, and what remains in doubt

  keepset plan cues --instrument instruments/harbour.sf2 -o keep.json
      the same, and writes the keep file that later commands read

With your own score: keep your full template safe, whatever you unload. The mixer may ask
for a fix tomorrow. keepset itself never changes the cues and instruments it reads.
`;
