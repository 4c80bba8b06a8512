import { openDesk } from './src/desk/desk.ts';
import { demoAt } from './test/demo-copy.ts';
import { exportedTexts } from './test/e2e/english/exported.ts';
import { typedTexts } from './test/e2e/english/typed-texts.ts';
import { foreignWords, wordsOf } from './test/words/catalogue-words.ts';
const bookPath='/tmp/reasons-demo/book.gambrel';
const now = new Date('2026-11-24T18:00:00Z');
await demoAt(bookPath); console.log('demo', new Date().toISOString());
const desk = await openDesk({ bookPath, clock: () => now });
const call = async (n,i)=>{ const a = await desk.call(n,i); if(!a.ok) throw new Error(n+JSON.stringify(a.problem)); return a.value; };
const typed = await typedTexts(call); console.log('typed', new Date().toISOString());
for (const language of ['es-MX','fr-CA']) {
  await call('shop.saveSettings', { changes: { locale: {'es-MX':'es-US','fr-CA':'fr-CA'}[language] } });
  const u=process.cpuUsage(); const texts = await exportedTexts(call, language); const d=process.cpuUsage(u); console.log(language, texts.length, (d.user+d.system)/1000,'ms cpu');
  const foreign = foreignWords(language); const found = [];
  for (const text of texts) { const e = wordsOf(text.replaceAll(typed,' · ')).filter(w=>foreign.has(w)); if (e.length) found.push(e.join(' ')+' ('+text.slice(0,120)+')'); }
  console.log(found.length, found.slice(0,40).join('\n'));
}
desk.close();
