import type { StationInfo } from '../../bridge/contract.ts';

/** What the owner says of a station. */
export type StationForm = Omit<StationInfo, 'id'>;

/** The fields at which the desk's refusals stand. */
export const STATION_FIELDS = ['name', 'place', 'language'] as const;
