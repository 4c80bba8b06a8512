import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import vue from 'eslint-plugin-vue';
import ts from 'typescript-eslint';

export default ts.config(
  { ignores: ['out/', 'dist/', 'node_modules/', 'src/words/compiled/'] },
  js.configs.recommended,
  ts.configs.recommended,
  // Elsewhere nothing is Vue's, and asking costs a tenth of the time.
  vue.configs['flat/recommended'].map((part) =>
    part.rules ? { files: ['src/ui/**/*.ts', 'test/ui/**/*.ts', '**/*.vue'], ...part } : part,
  ),
  prettier,
  {
    files: ['**/*.{ts,vue,js,mjs}'],
    languageOptions: { parserOptions: { parser: ts.parser } },
    rules: {
      'no-undef': 'off', // the type checker knows better
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            { group: ['reka-ui', '@tanstack/*'], message: 'Use the part of src/ui/parts that wraps it.' },
          ],
        },
      ],
      'vue/multi-word-component-names': 'off',
      'vue/require-default-prop': 'off', // the type says that it is optional
      'vue/no-v-html': 'error',
      'vue/no-static-inline-styles': 'error',
      'vue/block-lang': ['error', { script: { lang: 'ts' } }],
    },
  },
  {
    files: ['src/book/**/*.ts', 'src/desk/**/*.ts'],
    // each-row.ts iterates, by late-statements.ts.
    ignores: ['src/book/file/each-row.ts', 'src/book/file/late-statements.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: 'CallExpression[callee.property.name="iterate"]',
          message:
            'A row left open keeps the whole connection from writing: use eachRow (src/book/file/each-row.ts).',
        },
      ],
    },
  },
  {
    files: ['src/ui/**/*.vue'],
    ignores: ['src/ui/samples/*'], // read by developers only
    rules: {
      'vue/no-bare-strings-in-template': [
        'error',
        {
          // Signs, single letters, units and our own name are no words.
          allowlist: ['/\\b(lb|kg|oz|Ctrl|Gambrel)\\b/u', '/(?<!\\p{L})\\p{L}(?!\\p{L})/u', '/\\P{L}/u'],
          attributes: {
            '/.+/': [
              'aria-label',
              'placeholder',
              'title',
              'label',
              'hint',
              'text',
              'caption',
              'alt',
              'keep-label',
            ],
          },
          directives: ['v-text', 'v-html'],
        },
      ],
    },
  },
  { files: ['src/ui/parts/*'], rules: { 'no-restricted-imports': 'off' } },
  {
    files: ['src/ui/**/*.{ts,vue}'],
    ignores: ['src/ui/stores/shop.ts', 'src/ui/scale/useScale.ts'],
    rules: {
      'no-restricted-globals': [
        'error',
        ...['localStorage', 'sessionStorage'].map((name) => ({
          name,
          message: 'Use useLocalStorage (@vueuse/core).',
        })),
      ],
      'no-restricted-properties': [
        'error',
        ...['window', 'document'].map((object) => ({
          object,
          property: 'addEventListener',
          message: 'Use useEventListener (@vueuse/core), which ends with the page.',
        })),
      ],
    },
  },
  {
    files: ['src/ui/**/*.ts'],
    ignores: ['src/ui/link/bridge.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        ...[
          'VariableDeclaration[kind="let"]',
          'VariableDeclaration > VariableDeclarator > CallExpression[callee.name=/^(ref|shallowRef|reactive|shallowReactive|customRef)$/]',
          'VariableDeclaration > VariableDeclarator:not([id.typeAnnotation.typeAnnotation.typeName.name=/^Readonly/]) > NewExpression[callee.name=/^(Weak)?(Map|Set)$/]',
          'VariableDeclaration > VariableDeclarator > ArrayExpression[elements.length=0]',
        ].map((selector) => ({
          selector: `:matches(Program, Program > ExportNamedDeclaration) > ${selector}`,
          message:
            'State that outlives a page is a store of Pinia, cleared with the book (test/ui/calls/other-opening.test.ts).',
        })),
      ],
    },
  },
  {
    files: ['src/core/**/*.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: 'NewExpression[callee.name="Date"][arguments.length=0]',
          message: 'The core has no clock.',
        },
        {
          selector: 'MemberExpression[object.name="Date"][property.name="now"]',
          message: 'The core has no clock.',
        },
      ],
      'no-restricted-properties': [
        'error',
        { object: 'Math', property: 'random', message: 'Randomness in the core comes from a seed.' },
      ],
    },
  },
);
