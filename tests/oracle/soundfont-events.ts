/**
 * One event of a cue, on one port. A list of them is in file order: ticks never fall, and events on
 * one tick stand in the order in which they were written. Channels count from 0; index 9 is the
 * tenth channel, the one for drums.
 */
export type OracleEvent =
  | {
      readonly tick: number;
      readonly kind: 'note-on';
      readonly channel: number;
      readonly key: number;
      /** 0 is a note-off. */
      readonly velocity: number;
    }
  | {
      readonly tick: number;
      readonly kind: 'note-off';
      readonly channel: number;
      readonly key: number;
    }
  | {
      readonly tick: number;
      readonly kind: 'controller';
      readonly channel: number;
      readonly number: number;
      readonly value: number;
    }
  | {
      readonly tick: number;
      readonly kind: 'program';
      readonly channel: number;
      readonly program: number;
    }
  | {
      readonly tick: number;
      readonly kind: 'sysex';
      /** Without F0 and F7. */
      readonly data: ArrayLike<number>;
    };

export const allChannels = Array.from({ length: 16 }, (_, channel) => channel);
