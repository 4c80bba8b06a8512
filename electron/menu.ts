import { basename, dirname } from 'node:path';
import { Menu, type MenuItemConstructorOptions } from 'electron';

export interface MenuActions {
  openBook(): void;
  openRecent(path: string): void;
  backUp(): void;
  savePdf(): void;
  print(): void;
  chooseLabelPrinter(): void;
  newerVersions(): void;
  showLog(): void;
  about(): void;
}

/** Sets the program's menu. Every item has a key; the recent books have their number within the open menu. */
export function setMenu(act: MenuActions, recent: readonly string[]): void {
  const mac = process.platform === 'darwin';
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      ...(mac ? [ofTheProgram(act)] : []),
      {
        label: '&File',
        submenu: [
          { label: '&Open another book…', accelerator: 'CmdOrCtrl+O', click: act.openBook },
          { label: 'Open &recent', submenu: recent.map((path, at) => recentItem(act, path, at)) },
          { label: '&Back up now', accelerator: 'CmdOrCtrl+B', click: act.backUp },
          { type: 'separator' },
          { label: '&Save as PDF…', accelerator: 'CmdOrCtrl+Shift+S', click: act.savePdf },
          { label: '&Print…', accelerator: 'CmdOrCtrl+P', click: act.print },
          { label: 'Printer for &labels…', accelerator: 'CmdOrCtrl+Shift+P', click: act.chooseLabelPrinter },
          ...(mac ? [] : ([{ type: 'separator' }, QUIT] as const)),
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
      {
        label: '&Help',
        submenu: [
          ...(mac ? [] : [aboutItem(act)]),
          { label: '&Newer versions…', accelerator: 'CmdOrCtrl+Shift+N', click: act.newerVersions },
          { label: 'Show the &log', accelerator: 'CmdOrCtrl+Shift+L', click: act.showLog },
        ],
      },
    ]),
  );
}

const QUIT: MenuItemConstructorOptions = { role: 'quit', label: '&Quit', accelerator: 'CmdOrCtrl+Q' };

function aboutItem(act: MenuActions): MenuItemConstructorOptions {
  return { label: '&About Gambrel', accelerator: 'F1', click: act.about };
}

/**
 * macOS titles the first menu with the program's name and expects Quit, About and Hide in it. Source: Apple, Human
 * Interface Guidelines, "The menu bar", App menu.
 */
function ofTheProgram(act: MenuActions): MenuItemConstructorOptions {
  return {
    label: 'Gambrel',
    submenu: [
      aboutItem(act),
      { type: 'separator' },
      { role: 'services' },
      { type: 'separator' },
      { role: 'hide', accelerator: 'Cmd+H' },
      { role: 'hideOthers', accelerator: 'Cmd+Alt+H' },
      { role: 'unhide' },
      { type: 'separator' },
      QUIT,
    ],
  };
}

/** Two books may have the same name, so the folder is included; an ampersand would mark an access key. */
function recentItem(act: MenuActions, path: string, at: number): MenuItemConstructorOptions {
  const name = `${basename(path)} in ${dirname(path)}`.replaceAll('&', '&&');
  return {
    label: `&${at + 1} ${name}`,
    click: () => act.openRecent(path),
  };
}
