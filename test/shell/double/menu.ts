import { checkOptions, strict } from './strict.ts';

export interface MenuItem {
  label?: string;
  role?: string;
  type?: string;
  accelerator?: string;
  click?: () => void;
  submenu?: MenuItem[];
}

/** Roles in Electron's menu documentation that a program like this may use. */
const ROLES = [
  'quit',
  'undo',
  'redo',
  'cut',
  'copy',
  'paste',
  'selectAll',
  'zoomIn',
  'zoomOut',
  'resetZoom',
  'togglefullscreen',
  'minimize',
  'close',
];
/** Roles that only macOS has. */
const ROLES_OF_MACOS = ['services', 'hide', 'hideOthers', 'unhide']; // prettier-ignore
const ACCELERATOR = /^((CmdOrCtrl|Cmd|Alt|Shift)\+)*([A-Z0-9]|F\d{1,2}|Plus|-|,)$/;

/** Builds menus; rejects roles, options and accelerators that Electron would reject, and duplicate accelerators. */
export function menuDouble(set: (items: MenuItem[]) => void) {
  return strict('Menu', {
    buildFromTemplate(template: MenuItem[]): MenuItem[] {
      const keys = template.flatMap((menu) => (menu.submenu ?? []).flatMap(checked));
      const twice = keys.filter((key, at) => key && keys.indexOf(key) !== at);
      if (twice.length > 0) throw new Error(`The keys ${twice.join(', ')} are given twice`);
      return template;
    },
    setApplicationMenu: set,
  });
}

/** The accelerators of an item and of its submenu. */
function checked(item: MenuItem): string[] {
  checkOptions('a menu item', item, [
    'label',
    'role',
    'type',
    'accelerator',
    'registerAccelerator',
    'click',
    'submenu',
  ]);
  const roles = process.platform === 'darwin' ? [...ROLES, ...ROLES_OF_MACOS] : ROLES;
  if (item.role && !roles.includes(item.role)) throw new Error(`There is no role ${item.role}`);
  if (item.accelerator && !ACCELERATOR.test(item.accelerator))
    throw new Error(`${item.accelerator} is no key`);
  if (item.type !== 'separator' && !item.role && !item.click && !item.submenu)
    throw new Error(`"${item.label}" does nothing`);
  return [item.accelerator ?? '', ...(item.submenu ?? []).flatMap(checked)];
}
