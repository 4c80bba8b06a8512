import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import { createTypeScriptImportResolver } from 'eslint-import-resolver-typescript';
import { importX } from 'eslint-plugin-import-x';
import vue from 'eslint-plugin-vue';
import ts from 'typescript-eslint';

/** The arrows of the house: each folder lists the folders that it must not reach. */
const forbidden = {
  './src/core': ['./src/book', './src/desk', './src/bridge', './src/ui', './electron'],
  './src/book': ['./src/core', './src/desk', './src/bridge', './src/ui', './electron'],
  './src/desk': ['./src/bridge', './src/ui', './electron'],
  './src/bridge': ['./src/core', './src/book', './src/ui', './electron'],
  './src/ui': ['./src/desk', './src/book', './electron', './src/bridge/server'],
};

/** The window may use the light, pure parts of the core, never the solver or the fitting code. */
const lightCore = [
  'units.ts',
  'reading.ts',
  'money.ts',
  'dates.ts',
  'quantile.ts',
  'scale-line.ts',
  'cutting.ts',
  'csv.ts',
  'zone.ts',
];

export default ts.config(
  { ignores: ['out/', 'dist/', 'node_modules/'] },
  js.configs.recommended,
  ts.configs.recommended,
  vue.configs['flat/recommended'],
  prettier,
  {
    files: ['**/*.{ts,vue,js,mjs}'],
    plugins: { 'import-x': importX },
    languageOptions: { parserOptions: { parser: ts.parser } },
    settings: {
      'import-x/resolver-next': [createTypeScriptImportResolver({ alwaysTryTypes: true })],
      'import-x/parsers': { '@typescript-eslint/parser': ['.ts'], 'vue-eslint-parser': ['.vue'] },
    },
    rules: {
      'no-undef': 'off', // the type checker knows better
      '@typescript-eslint/no-explicit-any': 'error',
      '@typescript-eslint/consistent-type-imports': 'error',
      'import-x/no-cycle': 'error',
      'import-x/no-restricted-paths': [
        'error',
        {
          zones: [
            ...Object.entries(forbidden).map(([target, from]) => ({
              target,
              from,
              message: 'An arrow of the house may only point down (see DEVELOPERS.md).',
            })),
            {
              target: './src/ui',
              from: './src/core',
              except: lightCore.map((file) => `./${file}`),
              message: 'The window uses only the light parts of the core; ask the desk for the rest.',
            },
          ],
        },
      ],
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
    ignores: ['src/book/each-row.ts'],
    rules: {
      'no-restricted-syntax': [
        'error',
        {
          selector: 'CallExpression[callee.property.name="iterate"]',
          message:
            'A row left open keeps the whole connection from writing: use eachRow (src/book/each-row.ts).',
        },
      ],
    },
  },
  {
    files: ['src/ui/**/*.vue'],
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
    ignores: ['src/ui/bridge.ts'],
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
            'State that outlives a page is a store of Pinia, cleared with the book (test/ui/other-opening).',
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
