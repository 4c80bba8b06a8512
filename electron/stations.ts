/** Opens the line for stations when the shop of the open book switches it on. */
import { followStationSettings } from '../src/bridge/stations/follow.ts';
import type { Desk } from '../src/desk/desk.ts';
import { openStationDoor } from '../src/desk/station-door.ts';

/**
 * @param windowFolder the built window, in which stations have a page of their own
 * @returns a function that ends the line; call it before the desk is closed
 */
export function followStations(desk: Desk, windowFolder: string): () => Promise<void> {
  return followStationSettings({
    door: openStationDoor(desk),
    book() {
      const session = desk.session();
      return session && { path: session.book.path, shop: session.settings.shopName };
    },
    windowFolder,
  });
}
