import { HALF_OF_PLACES, PLACES } from './places.ts';
import { placesAreWhole } from './screens.ts';

placesAreWhole(PLACES.slice(0, HALF_OF_PLACES));
