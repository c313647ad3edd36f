/**
 * A part of the tracks as a spreadsheet keeps them: people have such a list already, with headings of
 * their own. The trumpets stand in it too; no cue has them.
 */
export const orchestraTracks = [
  'Track name,Plays,Articulation,Channel',
  'Fl 1,flutes,sustain,',
  'Ob 1,oboe,,',
  'Harp,harp,pluck,',
  'Timp,timpani,,',
  'Perc*,percussion,,10',
  'Pno,piano,,',
  'Cel,celesta,,',
  'Tpt 1,trumpets,sustain,',
  'Tpt 2,trumpets,sustain,',
  '',
].join('\r\n');
