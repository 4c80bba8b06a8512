/** Opens the line for stations when the shop of the open book switches it on. */
import { followStationSettings } from '../src/bridge/stations/follow.ts';
import type { Desk } from '../src/desk/desk.ts';
import { openStationDoor } from '../src/desk/station-door.ts';

/**
 * @param windowFolder the built window, in which stations have a page of their own
 * @param onSwitched told whenever stations were switched on or off
 * @returns a function that ends the line; call it before the desk is closed
 */
export function followStations(
  desk: Desk,
  windowFolder: string,
  onSwitched: (on: boolean) => void = () => undefined,
): () => Promise<void> {
  const door = openStationDoor(desk);
  let wasOn = false;
  return followStationSettings({
    door: {
      ...door,
      lineIs(line) {
        door.lineIs(line);
        // A network that is away for now does not switch them off.
        const isOn = line.state !== 'off';
        if (isOn !== wasOn) onSwitched(isOn);
        wasOn = isOn;
      },
    },
    book() {
      const session = desk.session();
      return session && { path: session.book.path, shop: session.settings.shopName };
    },
    windowFolder,
  });
}
