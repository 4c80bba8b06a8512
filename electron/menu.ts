import { Menu } from 'electron';

export interface MenuActions {
  backUp(): void;
  print(): void;
}

/** Sets the menu of the program. Everything in it can be reached by key. */
export function setMenu({ backUp, print }: MenuActions): void {
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      {
        label: '&File',
        submenu: [
          { label: '&Back up now', accelerator: 'CmdOrCtrl+B', click: backUp },
          { label: '&Print…', accelerator: 'CmdOrCtrl+P', click: print },
          { type: 'separator' },
          { role: 'quit', label: '&Quit', accelerator: 'CmdOrCtrl+Q' },
        ],
      },
      {
        label: '&Edit',
        submenu: [
          { role: 'undo', accelerator: 'CmdOrCtrl+Z' },
          { role: 'redo', accelerator: 'CmdOrCtrl+Shift+Z' },
          { type: 'separator' },
          { role: 'cut', accelerator: 'CmdOrCtrl+X' },
          { role: 'copy', accelerator: 'CmdOrCtrl+C' },
          { role: 'paste', accelerator: 'CmdOrCtrl+V' },
          { role: 'selectAll', accelerator: 'CmdOrCtrl+A' },
        ],
      },
      {
        label: '&View',
        submenu: [
          { role: 'zoomIn', label: '&Larger', accelerator: 'CmdOrCtrl+Plus' },
          { role: 'zoomOut', label: '&Smaller', accelerator: 'CmdOrCtrl+-' },
          { role: 'resetZoom', label: '&Usual size', accelerator: 'CmdOrCtrl+0' },
          { type: 'separator' },
          { role: 'togglefullscreen', label: '&Full screen', accelerator: 'F11' },
        ],
      },
      {
        label: '&Window',
        submenu: [
          { role: 'minimize', accelerator: 'CmdOrCtrl+M' },
          { role: 'close', accelerator: 'CmdOrCtrl+W' },
        ],
      },
    ]),
  );
}
