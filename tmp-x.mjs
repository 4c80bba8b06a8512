import { serve } from './test/e2e/served.ts';
import { deskLine } from './test/e2e/desk-line.ts';
import { exportedTexts } from './test/e2e/english/exported.ts';
import { typedTexts } from './test/e2e/english/typed-texts.ts';
import { foreignWords, wordsOf } from './test/words/catalogue-words.ts';
const demo = await serve('--demo'); console.log('up', new Date().toISOString());
const call = await deskLine(await demo.newAddress());
const typed = await typedTexts(call); console.log('typed', new Date().toISOString());
for (const language of ['es-MX','fr-CA']) {
  await call('shop.saveSettings', { changes: { locale: {'es-MX':'es-US','fr-CA':'fr-CA'}[language] } });
  const t=Date.now(); const texts = await exportedTexts(call, language); console.log(language, texts.length, Date.now()-t,'ms');
  const foreign = foreignWords(language); const found = [];
  for (const text of texts) { const e = wordsOf(text.replaceAll(typed,' · ')).filter(w=>foreign.has(w)); if (e.length) found.push(e.join(' ')+' ('+text.slice(0,120)+')'); }
  console.log(found.length, found.slice(0,40).join('\n'));
}
await demo.end('SIGINT');
