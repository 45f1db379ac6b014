// One runner for everything: libs beside their code, and the database, HTTP, architecture and browser tests here.
export default {
  rootDir: '..',
  testEnvironment: '<rootDir>/test/support/telling-environment.mjs',
  testSequencer: '<rootDir>/test/support/longest-first.mjs',
  testMatch: ['<rootDir>/libs/**/*.spec.ts', '<rootDir>/apps/**/*.spec.ts', '<rootDir>/test/**/*.spec.ts'],
  modulePathIgnorePatterns: ['<rootDir>/dist'],
  extensionsToTreatAsEsm: ['.ts'],
  moduleNameMapper: {
    // Not a package's `data.json.js`: without its ending that would be the JSON file beside it.
    '^(\\.{1,2}/.*)(?<!\\.json)\\.js$': '$1',
    '^#libs/(.*)$': '<rootDir>/libs/$1/index.ts',
    '^#server/(.*)$': '<rootDir>/apps/server/$1.ts',
    '^#migrations$': '<rootDir>/migrations/index.ts',
  },
  transform: {
    '^.+\\.ts$': [
      '@swc/jest',
      {
        sourceMaps: 'inline',
        module: { type: 'es6' },
        jsc: {
          target: 'es2022',
          keepClassNames: true,
          parser: { syntax: 'typescript', decorators: true },
          transform: { legacyDecorator: true, decoratorMetadata: true },
        },
      },
    ],
  },
  globalSetup: '<rootDir>/test/support/global-setup.mjs',
  globalTeardown: '<rootDir>/test/support/global-teardown.mjs',
  reporters: ['default', '<rootDir>/test/support/summary-reporter.mjs'],
  testTimeout: 30_000,
  maxWorkers: 2,
};
