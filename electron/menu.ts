import { basename, dirname } from 'node:path';
import { Menu, type MenuItemConstructorOptions } from 'electron';
import { text } from '../src/words/compiled/shell/menu.ts';

export interface MenuActions {
  openBook(): void;
  openRecent(path: string): void;
  backUp(): void;
  savePdf(): void;
  print(): void;
  chooseLabelPrinter(): void;
  newerVersions(): void;
  showLog(): void;
  settings(): void;
  handbook(): void;
  about(): void;
}

/** Sets the program's menu. Every item has a key; the recent books have their number within the open menu. */
export function setMenu(act: MenuActions, recent: readonly string[]): void {
  const mac = process.platform === 'darwin';
  Menu.setApplicationMenu(
    Menu.buildFromTemplate([
      ...(mac ? [ofTheProgram(act)] : []),
      {
        label: text.file,
        submenu: [
          { label: text.openBook, accelerator: 'CmdOrCtrl+O', click: act.openBook },
          { label: text.openRecent, submenu: recent.map((path, at) => recentItem(act, path, at)) },
          { label: text.backUp, accelerator: 'CmdOrCtrl+B', click: act.backUp },
          { type: 'separator' },
          { label: text.savePdf, accelerator: 'CmdOrCtrl+Shift+S', click: act.savePdf },
          { label: text.print, accelerator: 'CmdOrCtrl+P', click: act.print },
          { label: text.labelPrinter, accelerator: 'CmdOrCtrl+Shift+P', click: act.chooseLabelPrinter },
          ...(mac ? [] : ([{ type: 'separator' }, settingsItem(act)] as const)),
          ...(mac ? [] : ([{ type: 'separator' }, quitItem()] as const)),
        ],
      },
      {
        label: text.edit,
        submenu: [
          { role: 'undo', label: text.undo, accelerator: 'CmdOrCtrl+Z' },
          { role: 'redo', label: text.redo, accelerator: 'CmdOrCtrl+Shift+Z' },
          { type: 'separator' },
          { role: 'cut', label: text.cut, accelerator: 'CmdOrCtrl+X' },
          { role: 'copy', label: text.copy, accelerator: 'CmdOrCtrl+C' },
          { role: 'paste', label: text.paste, accelerator: 'CmdOrCtrl+V' },
          { role: 'selectAll', label: text.selectAll, accelerator: 'CmdOrCtrl+A' },
        ],
      },
      {
        label: text.view,
        submenu: [
          { role: 'zoomIn', label: text.zoomIn, accelerator: 'CmdOrCtrl+Plus' },
          { role: 'zoomOut', label: text.zoomOut, accelerator: 'CmdOrCtrl+-' },
          { role: 'resetZoom', label: text.actualSize, accelerator: 'CmdOrCtrl+0' },
          { type: 'separator' },
          { role: 'togglefullscreen', label: text.fullScreen, accelerator: 'F11' },
        ],
      },
      {
        label: text.window,
        submenu: [
          { role: 'minimize', label: text.minimize, accelerator: 'CmdOrCtrl+M' },
          { role: 'close', label: text.close, accelerator: 'CmdOrCtrl+W' },
        ],
      },
      {
        label: text.help,
        submenu: [
          // The key itself is the window's, which knows the page that is open.
          { label: text.handbook, accelerator: 'F1', registerAccelerator: false, click: act.handbook },
          { label: text.newerVersions, accelerator: 'CmdOrCtrl+Shift+N', click: act.newerVersions },
          { label: text.showLog, accelerator: 'CmdOrCtrl+Shift+L', click: act.showLog },
          ...(mac ? [] : ([{ type: 'separator' }, aboutItem(act)] as const)),
        ],
      },
    ]),
  );
}

function quitItem(): MenuItemConstructorOptions {
  return { role: 'quit', label: text.quit, accelerator: 'CmdOrCtrl+Q' };
}

function aboutItem(act: MenuActions): MenuItemConstructorOptions {
  return { label: text.about, accelerator: 'CmdOrCtrl+Shift+A', click: act.about };
}

function settingsItem(act: MenuActions): MenuItemConstructorOptions {
  return { label: text.settings, accelerator: 'CmdOrCtrl+,', click: act.settings };
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
      settingsItem(act),
      { type: 'separator' },
      { role: 'services', label: text.services },
      { type: 'separator' },
      { role: 'hide', label: text.hide, accelerator: 'Cmd+H' },
      { role: 'hideOthers', label: text.hideOthers, accelerator: 'Cmd+Alt+H' },
      { role: 'unhide', label: text.showAll },
      { type: 'separator' },
      quitItem(),
    ],
  };
}

/** Two books may have the same name, so the folder is included; an ampersand would mark an access key. */
function recentItem(act: MenuActions, path: string, at: number): MenuItemConstructorOptions {
  const name = text.recent({ name: basename(path), folder: dirname(path) }).replaceAll('&', '&&');
  return {
    label: `&${at + 1} ${name}`,
    click: () => act.openRecent(path),
  };
}
