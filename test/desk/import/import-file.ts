import type { ImportKind, CallInput, CallOutput, SheetLayout } from '../../../src/bridge/contract.ts';
import type { FreshDesk } from '../fresh-desk.ts';

const PIECE = 300_000;

/** Hands a file over to the desk in pieces, as the window does. */
export async function uploadFile(
  shop: FreshDesk,
  content: string | Uint8Array,
  name = 'old.csv',
): Promise<number> {
  const bytes = Buffer.from(content as string);
  const { upload } = await shop.call('import.begin', { name });
  for (let from = 0; from < bytes.length; from += PIECE)
    await shop.call('import.addPiece', {
      upload,
      from,
      base64: bytes.subarray(from, from + PIECE).toString('base64'),
    });
  return upload;
}

/** Looks at a table as it would be read by itself, with some of it picked by hand. */
export async function previewTable(
  shop: FreshDesk,
  kind: ImportKind,
  content: string | Uint8Array,
  picked: Partial<SheetLayout> = {},
): Promise<CallOutput<'import.preview'> & { upload: number }> {
  const upload = await uploadFile(shop, content);
  const guessed = await shop.call('import.preview', { upload, kind });
  if (Object.keys(picked).length === 0) return { ...guessed, upload };
  const layout = { ...guessed.layout, ...picked } as CallInput<'import.preview'>['layout'];
  return { ...(await shop.call('import.preview', { upload, kind, layout })), upload };
}

/** Brings a table in as it is read by itself. */
export async function importTable(
  shop: FreshDesk,
  kind: ImportKind,
  content: string | Uint8Array,
  picked: Partial<SheetLayout> = {},
  confirmed = false,
): Promise<CallOutput<'import.run'>> {
  const { upload, layout } = await previewTable(shop, kind, content, picked);
  return shop.call('import.run', { upload, kind, layout, confirmed });
}
