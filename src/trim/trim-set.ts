/** What stays of one definition when its files are rewritten, by the ids that its source uses. */
export interface TrimSet {
  /** Zones that stay with their samples. */
  readonly loaded: ReadonlySet<number>;
  /** Zones that stay without: they only stop others. None in a SoundFont. */
  readonly silent: ReadonlySet<number>;
  /** SoundFont: preset zones (`pbag`) that stay; empty elsewhere. */
  readonly presetZones: ReadonlySet<number>;
  /**
   * SoundFont: programs that cues choose, 0 among them. A preset of one of them keeps a place even
   * where nothing of it sounds, or another would answer for it. Empty where one preset is played by
   * itself, and elsewhere.
   */
  readonly programs: ReadonlySet<number>;
}
