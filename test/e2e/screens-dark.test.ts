import { everyPlaceIsWhole } from './screens.ts';

everyPlaceIsWhole('dark');
