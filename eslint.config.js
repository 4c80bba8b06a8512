import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import vue from 'eslint-plugin-vue';
import ts from 'typescript-eslint';

export default ts.config(
  { ignores: ['out/', 'dist/', 'node_modules/'] },
  js.configs.recommended,
  ts.configs.recommended,
  vue.configs['flat/recommended'],
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
    ignores: ['src/book/file/each-row.ts'],
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
