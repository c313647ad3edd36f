import tseslint from 'typescript-eslint';

/**
 * The folders are the pipeline: each imports only from folders before it. Only the last three touch
 * the machine.
 */
const pipeline = [
  'terms',
  'notation',
  'midi',
  'samples',
  'instruments',
  'template',
  'playback',
  'memory',
  'keep',
  'draft',
  'trim',
  'primer',
  'overview',
  'report',
  'demo',
  'files',
  'jobs',
  'cli',
];
const impure = ['files', 'jobs', 'cli'];
/** Libraries and the only folders that may use them. */
const libraries = {
  'midi-file': ['demo', 'primer'],
  'fast-glob': ['files'],
  commander: ['cli'],
  picocolors: ['cli'],
  'cli-progress': ['cli'],
  'cli-table3': ['report'],
  yaml: ['notation', 'template', 'draft', 'trim'],
  valibot: ['notation', 'instruments', 'template'],
};

const direction = pipeline.map((folder, i) => ({
  files: [`src/${folder}/**/*.ts`],
  rules: {
    'no-restricted-imports': [
      'error',
      {
        paths: Object.entries(libraries)
          .filter(([, folders]) => !folders.includes(folder))
          .map(([name, folders]) => ({
            name,
            message: `Only ${folders.join(' and ')} may use it.`,
            allowTypeImports: false,
          })),
        patterns: [
          {
            regex: `^(\\.\\./)+(${[...pipeline.slice(i + 1), 'index'].join('|')})(/|\\.ts$)`,
            message: `${folder}/ comes before it in the pipeline: imports go one way.`,
          },
          { regex: 'reference/|tests/', message: 'src imports neither tests nor their tables.' },
          ...(impure.includes(folder)
            ? []
            : [{ regex: '^node:', message: `${folder}/ is pure: I/O is in files, jobs and cli.` }]),
        ],
      },
    ],
    ...(impure.includes(folder)
      ? {}
      : {
          'no-restricted-globals': ['error', 'process', 'console', 'Buffer', 'setTimeout', 'fetch'],
          'no-restricted-properties': [
            'error',
            { object: 'Math', property: 'random', message: 'Same input, same output.' },
            { object: 'Date', property: 'now', message: 'Same input, same output.' },
          ],
        }),
  },
}));

export default tseslint.config(
  { ignores: ['dist/', 'node_modules/', 'coverage/', '.demo/', '.cache/'] },
  {
    files: ['**/*.ts'],
    extends: [tseslint.configs.strictTypeChecked, tseslint.configs.stylisticTypeChecked],
    languageOptions: {
      parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname },
    },
    rules: {
      // Indices are in bounds by construction in loops over columns; a check there would only hide it.
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/non-nullable-type-assertion-style': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/consistent-type-definitions': ['error', 'interface'],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      '@typescript-eslint/prefer-readonly': 'error',
      // Text is taken apart by code points on purpose: that is what orders and cuts names here.
      '@typescript-eslint/no-misused-spread': 'off',
      eqeqeq: 'error',
      'no-console': 'error',
    },
  },
  {
    files: ['tests/**/*.ts', 'reference/**/*.ts', '*.config.ts'],
    rules: {
      'no-console': 'off',
      '@typescript-eslint/no-confusing-void-expression': 'off',
    },
  },
  ...direction,
  {
    files: ['tests/oracle/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        { patterns: [{ regex: '/src/', message: 'The oracle knows nothing of src.' }] },
      ],
    },
  },
);
