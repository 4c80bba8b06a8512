import { everyPlaceIsWhole } from './screens.ts';

everyPlaceIsWhole('light');
