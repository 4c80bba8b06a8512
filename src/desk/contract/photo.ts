/** Photographs of an animal. */
import type { PhotoKind } from '../../trade/photo.ts';

export type { PhotoKind };

export interface PhotoRow {
  id: number;
  kind: PhotoKind;
  /** Asked for by it (`photos.read`); empty where the place may not see it. */
  digest: string;
  /** Pixels. */
  width: number;
  height: number;
  takenAt: string;
  at: string;
  by: string;
  /** Where it was taken; null: at the desk itself. */
  station: string | null;
}

/** A stored file, as `photos.add` names it. */
export interface PhotoStored {
  digest: string;
  bytes: number;
}

export interface PhotoRead {
  kinds: PhotoKind[];
  /** The JPEG file in base64; empty where the place may not see it. */
  base64: string;
}

/** What a look through all files of photographs found. */
export interface PhotoCheck {
  count: number;
  /** Files that were missing or altered, and came back from copies among the backups. */
  broughtBack: number;
  /** Tickets whose photographs have no file, or one with other bytes. */
  missing: string[];
  altered: string[];
}
