/** The text that lies beside the demo's cues and bank. */
export const readme = `Saltmere: a score to try keepset on
===================================

Everything in this folder is invented and made by rule: a small drama by the sea, its
cues, the bank and the SFZ instruments they play, and an orchestra to play them. No real
score, no recording and no library is in it. The same version of keepset always writes
the same files.

cues/
  1m1 Saltmere Titles      the whole band; starts with a GM system message
  1m2 Harbour v3, v4       two versions; v4 has a few high and low notes more
  1m3 Net Loft             one note comes before its program change
  1m4 Lamp Room v2         a program change on the tick of a note, after the note
  2m1 Low Water            strings from a variation bank; the horns' one is missing
  2m2 The Pilot Boat       fast; woodwind with the legato pedal, the second drum kit
  2m3 Fog Signal           slows down and leaves the sustain pedal down
  2m4 Slack Water          a fiddle with keyswitches: one note comes before the first of
                           them, one switch stands behind the note of its tick; the horns'
                           switches are a track of their own, the alto flute sends none,
                           and the pad is audio already
  Tracks of 1m2, 1m3, 2m1, 2m3 and 2m4 play the SFZ instruments, and tracks of 1m3, 1m4,
  2m3 and 2m4 two outlined libraries; for the bank alone they are further voices.

revisions/
  2m2 The Pilot Boat v2    arrives at night, when everything is planned: a ride cymbal,
                           a louder oboe and a softer roll than any cue had before

instruments/
  harbour.sf2              a SoundFont bank with seventeen presets. The cues leave most of
                           it alone: whole presets, loud layers, high and low keys.
  chamber-strings.sfz      keyswitches, dynamics faded by controller 1, round robins and
                           releases; partly in the included files sustain.sfz and
                           pizzicato.sfz in chamber-strings/
  clarinet.sfz             legato: a tongue stroke for first notes, a transition for each
                           pair of joined ones, one voice at a time
  deck.sfz                 percussion: takes in turn and by chance, and a silent hand that
                           stops the chain
  upright.sfz              a piano with dampers, and pedals that are heard
  samples/                 their samples: WAVE in 16 and 24 bits, mono and stereo, some with
                           loops; two FLAC and two AIFF files. In folders of their own:
                           samples/chamber, samples/clarinet, samples/deck, samples/upright

keepset.yaml, tracks.csv, tables/, outlines/
                           a template: the same cues on a small orchestra, spread over two
                           machines. The tables and outlines say what its samples take; there
                           is no sound to them. All are plain text, and keepset.yaml has
                           its reasons beside each line. The instruments:
  high-strings, low-strings, section-strings
                           streamed, unloaded by articulation; the readings of a display
                           correct the second, three tracks share the third
  basses, fiddle, horns, trombones, tuba, flutes, oboe, choir
                           loaded whole, unloaded by layer, each copy for itself
  trumpets                 never played
  harp                     can only be unloaded whole
  timpani                  semicolons, decimal commas, and C3 for key 60
  percussion               unloaded sample by sample, as the celesta and the piano are,
                           which come from the bank
  pads                     played by the track that is audio already
  chamber, clarinet, deck, upright
                           the SFZ instruments; their samples are there, and small
  bassoons                 an outline with as little as there can be: names, switches,
                           ranges, sizes off the display
  solo-cello               an outline with nearly everything: recorded keys, dynamics,
                           takes, releases, transitions between notes, microphones; its
                           player loads a sample when it is first played
sfz.yaml                   a second template, for those four alone: what each doubt about
                           them costs can be seen there

Commands to try, from this folder:

  keepset usage cues
      what the score plays: parts, keys, velocities, programs

  keepset plan
      reads keepset.yaml: what has to stay loaded on each machine, whether it fits now,
      and what each doubt costs

  keepset plan --template sfz.yaml
      the same for the SFZ instruments by themselves

  keepset plan -o keep.json
  keepset check revisions --keep keep.json
      does the revision need anything that the plan has dropped? where, and what to do

  keepset trim --keep keep.json --out small
      writes the bank and the SFZ instruments with only what the cues need, and plays
      the cues through them; tables and outlines are left out: there is no sound to them

  keepset worklist --keep keep.json --loaded loaded.csv
      the steps for a person: what to unload by hand, machine by machine

  keepset primer --keep keep.json -o primer.mid
      a cue for players that load a sample when it is first played: it plays once what
      has to stay, and nothing else

  keepset inspect tables/fiddle.csv --middle-c C4
  keepset inspect outlines/solo-cello.yaml
  keepset inspect instruments/chamber-strings.sfz
      articulations, switches, layers and bytes of one instrument

  keepset draft cues -o mine.yaml
      a first template from the names of the tracks, as you would begin with your own

  keepset draft cues -o mine-too.yaml --outlines drafted
      the same with an outline for each instrument, to be filled in from its manual

  keepset plan cues --instrument instruments/harbour.sf2
      without a template: the same for the bank alone

  keepset plan cues --instrument instruments/harbour.sf2 -o keep.json
      the same, and writes the keep file that later commands read

With your own score: keep your full template safe, whatever you unload. The mixer may ask
for a fix tomorrow. keepset itself never changes the cues and instruments it reads.
`;
