/** Serial ports of a session: one listener selects, answers once, and only with an offered id. */
import { once, preventable } from './strict.ts';

/** Only the members that Electron's structure has. */
export interface PortDouble {
  portId: string;
  portName: string;
  displayName?: string;
  vendorId?: string;
  productId?: string;
  serialNumber?: string;
}

type Chooser = (
  event: object,
  ports: PortDouble[],
  contents: unknown,
  answer: (portId: string) => void,
) => void;
type DeviceCheck = (details: { deviceType: string; origin: string; device: object }) => boolean;

export function serialDouble() {
  const chooser = once<Chooser>('select-serial-port');
  const deviceCheck = once<DeviceCheck>('setDevicePermissionHandler');
  return {
    /** For the session's event `select-serial-port`. */
    onSelect: chooser.set,
    setDevicePermissionHandler: deviceCheck.set,
    /** Requests a port for the page; resolves to the id that the shell chose. */
    select: (ports: PortDouble[], contents: unknown) =>
      new Promise<string>((resolve, reject) => {
        let answers = 0;
        const event = preventable({});
        chooser.handler()(event, structuredClone(ports), contents, (portId) => {
          answers += 1;
          if (answers > 1) reject(new Error('A choice is answered once'));
          if (portId !== '' && !ports.some((port) => port.portId === portId))
            reject(new Error(`There is no port ${portId}`));
          setImmediate(() => resolve(portId));
        });
        if (!event.prevented()) reject(new Error('Without preventDefault Electron takes the first port'));
      }),
    /** Whether a device is permitted; `device` has Electron's structure, which differs from that of a selection. */
    mayUse: (deviceType: string, origin: string, device: object) =>
      deviceCheck.handler()({ deviceType, origin, device: structuredClone(device) }),
  };
}
